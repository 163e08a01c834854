"""The five stages: their names, what to do in each, and how far each one is."""

from dataclasses import dataclass
from enum import IntEnum

import numpy as np

from viewer.document.state import State
from viewer.geometry.face_classes import CLASS_A
from viewer.geometry.mesh_health import HealthReport
from viewer.geometry.pose_measures import PoseMeasures
from viewer.window.quantities import count_text
from viewer.window.questions import open_questions


class Stage(IntEnum):
    """One stage of a job; the value is the number shown."""

    CHECK = 1
    MARK = 2
    TURN = 3
    TRY = 4
    HAND_OVER = 5


TITLES = {
    Stage.CHECK: "Check",
    Stage.MARK: "Mark",
    Stage.TURN: "Turn",
    Stage.TRY: "Try",
    Stage.HAND_OVER: "Hand over",
}
WHAT_TO_DO = {
    Stage.CHECK: "See whether the file can be printed, and whether its size is right.",
    Stage.MARK: "Drag over the faces that will show.",
    Stage.TURN: "Drag a ring until the faces that show stay free of support.",
    Stage.TRY: "See what is still open, and print a small test for it.",
    Stage.HAND_OVER: "Write the part as it will stand on the platform.",
}

VIEW_BUTTONS = "right: turn the view · middle: shift it · wheel: come closer"
BUTTONS = {
    Stage.CHECK: f"Left or {VIEW_BUTTONS}",
    Stage.MARK: f"Left: mark · {VIEW_BUTTONS}",
    Stage.TURN: f"Left on a ring: turn the part · {VIEW_BUTTONS}",
    Stage.TRY: f"Left or {VIEW_BUTTONS}",
    Stage.HAND_OVER: f"Left or {VIEW_BUTTONS}",
}
STAND_ON = "Click the face that shall lie on the platform."
STAND_BUTTONS = f"Left on a face: stand the part on it · {VIEW_BUTTONS}"


@dataclass(frozen=True)
class StageState:
    """How far a stage is: a sign, a word, and never a colour alone."""

    sign: str
    word: str


OPEN = StageState("○", "open")
DONE = StageState("✓", "done")
LOOK = StageState("!", "needs a look")


def stage_states(
    state: State,
    measures: PoseMeasures | None,
    report: HealthReport | None,
    handed_over: State | None,
) -> dict[Stage, StageState]:
    """The state of each stage.

    measures, report : of the present state, None while they are not known
    handed_over : the state last written out, None if none was
    """
    if state.part is None:
        return dict.fromkeys(Stage, OPEN)
    return {
        Stage.CHECK: _check_state(state, report),
        Stage.MARK: DONE if np.any(state.face_classes) else OPEN,
        Stage.TURN: _turn_state(state, measures),
        Stage.TRY: _try_state(state, measures, report),
        Stage.HAND_OVER: _hand_over_state(state, handed_over),
    }


def _check_state(state: State, report: HealthReport | None) -> StageState:
    if state.part.unit_doubt:
        return LOOK
    if report is None:
        return OPEN
    return DONE if report.verdict == "sound" else LOOK


def _turn_state(state: State, measures: PoseMeasures | None) -> StageState:
    if measures is None or not np.any(state.face_classes == CLASS_A):
        return OPEN
    if measures.touch_area_mm2.A > 0 or measures.landing_area_mm2.A > 0:
        return LOOK
    stands = measures.tip_angle_deg is not None and measures.tip_angle_deg > 0
    return DONE if stands else LOOK


def _try_state(
    state: State, measures: PoseMeasures | None, report: HealthReport | None
) -> StageState:
    if measures is None or report is None:
        return OPEN
    count = len(open_questions(state, measures, report))
    if not count:
        return DONE
    return StageState(OPEN.sign, count_text(count, "question"))


def _hand_over_state(state: State, handed_over: State | None) -> StageState:
    if handed_over is None:
        return OPEN
    same = state.same_part(handed_over) and handed_over.pose == state.pose
    return DONE if same else StageState(LOOK.sign, "turned since")
