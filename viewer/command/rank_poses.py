"""What `rank` tells of each pose: spin, numbers, how sure it is, time and money."""

from dataclasses import dataclass
from typing import Any

import numpy as np

from viewer.command.answers import plain
from viewer.document.state import State
from viewer.files.shop_folder import read_finished_prints, read_user_shop
from viewer.geometry.check_directions import CheckedTable
from viewer.geometry.direction_measures import RayedPart
from viewer.geometry.platform_rectangle import smallest_rectangle
from viewer.geometry.pose import Pose, shortest_turn_to_z
from viewer.geometry.pose_measures import PoseMeasures
from viewer.geometry.ranking import RankedPose
from viewer.geometry.sensitivity import LIMIT_DEG, TILT_DEG, measure_sensitivity
from viewer.shop.calibrate import FinishedPrint
from viewer.shop.job_numbers import Chosen, JobNumbers, choose, job_numbers
from viewer.shop.shop import Shop
from viewer.shop.shop_choice import ShopChoice

# Of the full tier's numbers those that tell poses apart, under the names of `measure --json`.
MEASURES = (
    "height_mm", "layers", "touch_area_mm2", "landing_area_mm2", "graze_area_mm2",
    "support_volume_mm3", "unreachable_support_mm3", "sealed_support_mm3", "platform_contact_mm2",
    "first_layer_mm2", "terrace_mean_width_mm", "terrace_visible_area_mm2", "cusp_mean_mm",
    "islands", "tip_angle_deg", "tip_angle_supported_deg",
)  # fmt: skip


@dataclass(frozen=True, eq=False)
class RankJob:
    """On what and of what the parts are printed."""

    shop: Shop
    choice: ShopChoice
    chosen: Chosen
    prints: tuple[FinishedPrint, ...]

    @property
    def names(self) -> dict[str, str]:
        """Machine, pair and process by name, as in the answer of `measure`."""
        chosen = self.chosen
        return {
            "machine": chosen.machine.name,
            "pair": chosen.pair.name,
            "walls_and_fill": chosen.process.name,
        }


def rank_job(
    choice: ShopChoice, given: tuple[Shop, tuple[FinishedPrint, ...]] | None = None
) -> RankJob:
    """The job for what was chosen by name; raises RequestProblem for a name that is not there.

    given : shop and finished prints, if they are not to be read from the user's folder
    """
    shop, prints = given or (read_user_shop(), read_finished_prints())
    return RankJob(shop, choice, choose(shop, choice), prints)


def poses_answer(
    state: State,
    rayed: RayedPart,
    checked: CheckedTable,
    poses: tuple[RankedPose, ...],
    job: RankJob,
) -> list[dict[str, Any]]:
    """The poses, best first, each with its spin.

    That is the spin of the smallest rectangle, or one that fits the machine if one was chosen.
    """
    found = []
    for pose in poses:
        up = np.array(pose.up)
        plan = rayed.searched.hull_points_mm @ shortest_turn_to_z(up)[:2].T
        rectangle = smallest_rectangle(plan)
        measures = checked.measures.get(pose.index)
        numbers = None
        if measures is not None:
            laid = Pose(pose.up, rectangle.spin_deg)
            numbers = _numbers(state, laid, measures, job)
        spin_deg = rectangle.spin_deg
        if job.choice.machine and numbers is not None:
            spin_deg = numbers.fits[job.chosen.machine.name].spin_deg
        found.append(
            {
                "up": list(pose.up),
                "spin_deg": spin_deg,
                "platform_rectangle_mm": [rectangle.width_mm, rectangle.depth_mm],
                "score": pose.score,
                "flat_standing": pose.flat_standing,
                "why": pose.why,
                "measures": _measures(checked, pose.index, measures),
                "sensitivity": _sensitivity(rayed, up),
                **_shop_answer(numbers),
            }
        )
    return found


def _numbers(state: State, pose: Pose, measures: PoseMeasures, job: RankJob) -> JobNumbers:
    return job_numbers(
        state.part.mesh, state.face_classes, pose, state.settings, measures, job.shop, job.choice,
        job.prints,
    )  # fmt: skip


def _measures(checked: CheckedTable, row: int, measures: PoseMeasures | None) -> dict[str, Any]:
    """The full tier's numbers of a row; of one that was not checked, those of the search."""
    if measures is None:
        return {"checked": False, "of_the_search": checked.table.row(row),
                "error": checked.table.error(row)}  # fmt: skip
    return {"checked": True} | {key: plain(getattr(measures, key)) for key in MEASURES}


def _sensitivity(rayed: RayedPart, up: np.ndarray) -> dict[str, Any]:
    found = measure_sensitivity(rayed, up)
    return {
        "tilt_deg": TILT_DEG,
        "limit_deg": LIMIT_DEG,
        "tilted": plain(found.tilted),
        "limits": plain(found.limits),
        "knife_edge": found.knife_edge,
    }


def _shop_answer(numbers: JobNumbers | None) -> dict[str, Any]:
    if numbers is None:
        return {}
    fits = {
        name: {"fits": f.fits, "spin_deg": f.spin_deg, "over_mm": f.over_mm, "why": f.why}
        for name, f in numbers.fits.items()
    }
    made = numbers.estimate
    if made is None:
        return {"fits": fits}
    return {
        "fits": fits,
        "time_s": plain(made.time_s),
        "material_g": {name: each.likely for name, each in made.material_g.items()},
        "cost": {**made.cost._asdict(), "currency": made.currency},
        "tool_changes": round(made.tool_changes.likely),
    }
