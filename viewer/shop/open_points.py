"""What is still open about a pose, by how much of class A is at stake.

A limit is known only within a range (`lessons`). The pose is measured at both ends of it: the class
A area that is touched at one end and not at the other is what the open question decides about.
"""

from dataclasses import replace
from typing import Literal, NamedTuple

import numpy as np

from viewer.geometry.face_classes import CLASS_A
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.pose import Pose
from viewer.geometry.pose_measures import PoseMeasures
from viewer.geometry.prepared_part import PreparedPart
from viewer.geometry.print_settings import PrintSettings
from viewer.progress import Progress
from viewer.shop.job_numbers import Chosen
from viewer.shop.lessons import CLEAN_ONLY, believed, lessons, release_lesson, touched_steps
from viewer.shop.looked import Risk
from viewer.shop.taken_limits import Limit, TakenLimit, pair_with
from viewer.shop.touch_weight import touch_worth
from viewer.shop.trials import Outcome, Trial

Kind = Literal["support_limit_deg", "bridge_mm", "visible_terrace_mm", "touch_weight", "slender"]
LEAST_STAKE_MM2 = 5.0  # common practice, no source: less is a speck that nobody prints a test for
STEADY = ("thin_walls", "wobble")  # risks that a slender piece answers
_ALIKE = 1.3  # a fin so much thicker than the section tells about it


class OpenPoint(NamedTuple):
    """One open question.

    low, high : between which the limit lies; of a slender section its thickness and height in mm
    stake_mm2 : class A area that it decides about; prints : how many were printed for it so far
    """

    kind: Kind
    low: float
    high: float
    stake_mm2: float
    prints: int


class Asked(NamedTuple):
    """What the questions of a pose depend on.

    face_classes : (m,) uint8; trials : all that are known; taken : limits taken from them
    measures : of the full tier; risks : of this pose; good : outcomes that count as come out
    """

    part: PreparedPart
    face_classes: np.ndarray
    pose: Pose
    settings: PrintSettings
    chosen: Chosen
    trials: tuple[Trial, ...]
    taken: tuple[TakenLimit, ...]
    measures: PoseMeasures
    risks: tuple[Risk, ...] = ()
    good: tuple[Outcome, ...] = CLEAN_ONLY


def open_points(asked: Asked, progress: Progress | None = None) -> tuple[OpenPoint, ...]:
    """The questions with enough at stake, the largest first. Raises Cancelled."""
    progress = progress or Progress()
    ranges = _ranges(asked)
    made = [*_of_limits(asked, ranges, progress), *_of_pair(asked), *_of_slender(asked)]
    found = [each for each in made if each.stake_mm2 >= LEAST_STAKE_MM2]
    return tuple(sorted(found, key=lambda each: -each.stake_mm2))


def _ranges(asked: Asked) -> dict[Limit, tuple[float, float, int]]:
    """Low, high and number of prints of each limit of the process."""
    material = asked.chosen.materials.model
    machine = asked.chosen.machine.name
    found: dict[Limit, tuple[float, float, int]] = {
        limit: (*believed(limit, material, asked.settings), 0)
        for limit in ("support_limit_deg", "bridge_mm", "visible_terrace_mm")
    }
    for each in lessons(asked.trials, machine, material, asked.settings, asked.good):
        found[each.limit] = (each.low, each.high, each.prints)
    return found


def _of_limits(asked: Asked, ranges, progress: Progress) -> list[OpenPoint]:
    """Touch and terraces on class A at both ends of each range."""

    def at(end: int, *limits: Limit) -> PoseMeasures:
        settings = replace(asked.settings, **{limit: ranges[limit][end] for limit in limits})
        return measure_pose(asked.part, asked.face_classes, asked.pose, settings, "quick", progress)

    # Terraces do not depend on supports, so both are asked in one measure.
    ends = [at(end, "support_limit_deg", "visible_terrace_mm") for end in (0, 1)]
    bridges = [at(end, "bridge_mm") for end in (0, 1)]
    stakes = {
        "support_limit_deg": ends[1].touch_area_mm2.A - ends[0].touch_area_mm2.A,
        "visible_terrace_mm": (
            ends[0].terrace_visible_area_mm2.A - ends[1].terrace_visible_area_mm2.A
        ),
        "bridge_mm": bridges[0].touch_area_mm2.A - bridges[1].touch_area_mm2.A,
    }
    return [OpenPoint(limit, *ranges[limit][:2], stake, ranges[limit][2])
            for limit, stake in stakes.items()]  # fmt: skip


def _of_pair(asked: Asked) -> list[OpenPoint]:
    """What is touched counts for less, the better it is known how a touched face comes out."""
    pair, machine = asked.chosen.pair, asked.chosen.machine.name
    lesson = release_lesson(asked.trials, machine, pair, asked.taken)
    if lesson is None:
        worth = touch_worth(pair_with(pair, asked.taken))
        low, high = worth.low, worth.high
        if any(each.pair == pair.name and touched_steps(each, pair) for each in asked.trials):
            high = low + 0.5 * (high - low)  # tried on another machine
    else:
        low, high = lesson.low, lesson.high
    stake = asked.measures.touch_area_mm2.A * min(high - low, 1.0)
    return [OpenPoint("touch_weight", low, high, stake, 0 if lesson is None else lesson.prints)]


def _of_slender(asked: Asked) -> list[OpenPoint]:
    """The thinnest tall section with class A on it that no fin was printed for."""
    found = []
    for risk in asked.risks:
        thick = _thickness_mm(asked.measures, risk) if risk.kind in STEADY else 0.0
        if thick <= 0 or _was_tried(asked, thick):
            continue
        stake = _class_a_between_mm2(asked, risk.from_mm, risk.to_mm)
        found.append(OpenPoint("slender", thick, risk.to_mm - risk.from_mm, stake, 0))
    return sorted(found, key=lambda each: -each.stake_mm2)[:1]


def _thickness_mm(measures: PoseMeasures, risk: Risk) -> float:
    """Of a strip as wide as its section's area over half its outline, 2·A/P (CALC)."""
    if risk.thick_mm:
        return risk.thick_mm
    profile = measures.profile
    if profile is None:
        return 0.0
    some = (profile.z_mm >= risk.from_mm) & (profile.z_mm <= risk.to_mm)
    some &= profile.area_mm2 > 1e-6
    if not some.any():
        return 0.0
    thick = 2.0 * profile.area_mm2[some] / np.maximum(profile.perimeter_mm[some], 1e-9)
    return float(thick.mean())


def _was_tried(asked: Asked, thick_mm: float) -> bool:
    here = (asked.chosen.machine.name, asked.chosen.materials.model.name)
    return any(
        1.0 / _ALIKE <= step.value / thick_mm <= _ALIKE
        for each in asked.trials
        if each.kind == "slender-fins" and (each.machine, each.model) == here
        for step in each.steps
    )


def _class_a_between_mm2(asked: Asked, low_mm: float, high_mm: float) -> float:
    """Class A area whose faces have their middle between two heights above the platform."""
    mesh = asked.part.mesh
    heights = mesh.vertices_mm @ np.asarray(asked.pose.up, float)
    used = heights[mesh.faces]
    above = used.mean(axis=1) - used.min()
    there = (asked.face_classes == CLASS_A) & (above >= low_mm) & (above <= high_mm)
    return float(mesh.face_areas_mm2[there].sum())
