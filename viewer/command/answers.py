"""What the command line answers, as plain dictionaries ready for JSON.

The keys are the contract (resources/schema/*.json); numbers that a pose does not have, such as
the tip angle of a part that touches the platform in a point only, are the one place for null.
"""

from typing import Any

import numpy as np

from viewer.document.state import Part, State
from viewer.geometry.mesh_health import HealthReport
from viewer.geometry.pose import Pose, pose_matrix
from viewer.geometry.pose_measures import PoseMeasures
from viewer.geometry.pose_profile import TOUCH_CLASSES, PoseProfile
from viewer.geometry.prepared_part import PreparedPart
from viewer.geometry.print_settings import PrintSettings

NOT_NUMBERS = {"tier", "notes", "error", "faces", "columns", "profile"}


def plain(value: Any) -> Any:
    """`value` as JSON knows it: named tuples as objects, numpy numbers and arrays as plain ones."""
    if hasattr(value, "_asdict"):
        return {key: plain(item) for key, item in value._asdict().items()}
    if isinstance(value, dict):
        return {key: plain(item) for key, item in value.items()}
    if isinstance(value, (list, tuple)):
        return [plain(item) for item in value]
    if isinstance(value, np.ndarray):
        return plain(value.tolist())
    if isinstance(value, np.generic):
        return value.item()
    return value


def units_answer(part: Part) -> dict[str, str]:
    """The unit the file was taken in, and the doubt about it ("" when there is none)."""
    return {"unit": part.unit, "doubt": part.unit_doubt, "suggested": part.suggested_unit}


def pose_answer(part: Part, pose: Pose) -> dict[str, Any]:
    """The pose, and its 4 × 4 matrix as nested rows for column vectors."""
    matrix = pose_matrix(part.mesh.vertices_mm, pose)
    return {"up": list(pose.up), "spin_deg": pose.spin_deg, "matrix": plain(matrix)}


def process_answer(settings: PrintSettings) -> dict[str, float]:
    """The process settings under the names of the options that set them."""
    return {
        "layer_mm": settings.layer_mm,
        "limit_deg": settings.support_limit_deg,
        "road_mm": settings.road_mm,
        "bridge_mm": settings.bridge_mm,
        "clearance_mm": settings.clearance_mm,
        "visible_terrace_mm": settings.shown_terrace_mm,
    }


def check_answer(state: State, report: HealthReport) -> dict[str, Any]:
    """The answer of `check --json` for one file."""
    part = state.part
    return {
        "file": part.file_name,
        "units": units_answer(part),
        "size_mm": plain(part.mesh.box_mm[1] - part.mesh.box_mm[0]),
        "faces": part.file_mesh.face_count,
        "notes": list(part.notes),
        **plain(report.answer()),
    }


def profile_answer(profile: PoseProfile) -> dict[str, Any]:
    """The layers of a pose, one list for each thing measured."""
    kept = ("layer_mm", "z_mm", "area_mm2", "perimeter_mm", "support_area_mm2", "islands", "mixed")
    answer = {key: plain(getattr(profile, key)) for key in kept}
    touch = dict(zip(TOUCH_CLASSES, profile.touch_mm2.T.tolist(), strict=True))
    return answer | {"touch_mm2": touch}


def measure_answer(
    state: State, prepared: PreparedPart, measures: PoseMeasures, with_profile: bool = False
) -> dict[str, Any]:
    """The answer of `measure --json` for one file, with all layers if they are asked for."""
    part = state.part
    numbers = {key: plain(value) for key, value in vars(measures).items() if key not in NOT_NUMBERS}
    answer = {
        "part": {
            "file": part.file_name,
            "faces": part.file_mesh.face_count,
            "volume_mm3": float(prepared.volume_mm3),
            "area_mm2": float(part.mesh.face_areas_mm2.sum()),
            "closed": bool(prepared.shells.closed.all()),
            "size_mm": plain(part.mesh.box_mm[1] - part.mesh.box_mm[0]),
        },
        "units": units_answer(part),
        "pose": pose_answer(part, state.pose),
        "process": process_answer(state.settings),
        **numbers,
        "error": plain(measures.error),
        "notes": [*part.notes, *measures.notes],
    }
    if with_profile:
        answer["profile"] = profile_answer(measures.profile)
    return answer
