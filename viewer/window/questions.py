"""What is still open about a pose, in plain sentences made from its numbers."""

from dataclasses import dataclass

from viewer.document.state import State
from viewer.geometry.mesh_health import HealthReport
from viewer.geometry.pose_measures import PoseMeasures
from viewer.geometry.print_settings import PrintSettings
from viewer.window.quantities import number_text
from viewer.words import say

UNSTEADY_DEG = 10.0  # common practice, no source: below it a knock of the nozzle is a risk
SPECK_MM2 = 0.5  # about the end of one road; a touch smaller than this leaves a dot


@dataclass(frozen=True)
class Question:
    """One open question: what is the case, and what a small test print would tell."""

    key: str
    sentence: str
    test: str


def open_questions(state: State, measures: PoseMeasures, report: HealthReport) -> list[Question]:
    """The questions that the numbers of this pose leave open, the gravest first."""
    settings = state.settings
    makers = (
        _faults(report),
        _marks(state),
        _touch(measures),
        _landing(measures),
        _graze(measures, settings.clearance_mm),
        _terraces(measures, settings),
        _steadiness(measures),
        _doubt(measures),
    )
    return [question for question in makers if question is not None]


def _faults(report: HealthReport) -> Question | None:
    if report.verdict == "sound":
        return None
    return Question(
        "faults",
        say(
            "The file is not sound ({verdict}): see Check for the faults and their heights.",
            verdict=say(report.verdict),
        ),
        say("Print only the layers around the lowest fault: gaps and stray walls show at once."),
    )


def _marks(state: State) -> Question | None:
    if state.face_classes.any():
        return None
    return Question(
        "marks",
        say("No face is marked, so nothing says which side shows."),
        say("No print needed: mark the faces that show in stage 2."),
    )


def _touch(measures: PoseMeasures) -> Question | None:
    area = measures.touch_area_mm2.A
    if area < SPECK_MM2:
        return None
    return Question(
        "touch",
        say(
            "Supports touch {area} mm² of class A. Will the scar be accepted?",
            area=number_text(area),
        ),
        say(
            "Print a small cut-out with its support in the materials of the job, take the support "
            "off, and show the scar to the client."
        ),
    )


def _landing(measures: PoseMeasures) -> Question | None:
    area = measures.landing_area_mm2.A
    if area < SPECK_MM2:
        return None
    return Question(
        "landing",
        say("Supports stand on {area} mm² of class A and may mark it.", area=number_text(area)),
        say("Print a cut-out with a support standing on it and look at the marks where it stood."),
    )


def _graze(measures: PoseMeasures, clearance_mm: float) -> Question | None:
    if measures.graze_area_mm2 is None or measures.graze_area_mm2.A < SPECK_MM2:
        return None
    return Question(
        "graze",
        say(
            "Supports pass within {clearance_mm:g} mm of {a} mm² of class A and may mark it.",
            clearance_mm=clearance_mm,
            a=number_text(measures.graze_area_mm2.A),
        ),
        say("Print a cut-out with the support beside it and look at the side that it passed."),
    )


def _terraces(measures: PoseMeasures, settings: PrintSettings) -> Question | None:
    area = measures.terrace_visible_area_mm2.A
    if area < SPECK_MM2:
        return None
    if settings.visible_terrace_mm:
        sentence = say(
            "{area} mm² of class A has terraces wider than {width_mm:.2f} mm, from which trials "
            "say that they show. Is that accepted?",
            area=number_text(area),
            width_mm=settings.visible_terrace_mm,
        )
    else:
        sentence = say(
            "{area} mm² of class A has terraces wider than one road ({road_mm:g} "
            "mm). Do they show?",
            area=number_text(area),
            road_mm=settings.road_mm,
        )
    return Question(
        "terraces",
        sentence,
        say(
            "Print that area at {layer_mm:g} mm and at {layer_mm_2:g} mm layers "
            "and compare them at the distance from which the part is seen.",
            layer_mm=settings.layer_mm,
            layer_mm_2=settings.layer_mm / 2,
        ),
    )


def _steadiness(measures: PoseMeasures) -> Question | None:
    angle = measures.tip_angle_deg
    if angle is None:
        sentence = say("Nothing of the part lies on the platform: it stands on supports only.")
    elif angle <= 0:
        sentence = say("The part falls over by itself: only its supports hold it up.")
    elif angle < UNSTEADY_DEG:
        sentence = say(
            "The part stands unsteadily: it tips over at {angle}°.", angle=number_text(angle)
        )
    else:
        return None
    return Question(
        "steadiness",
        sentence,
        say(
            "Print the first centimetre with its supports and push against it: it must not come "
            "loose."
        ),
    )


def _doubt(measures: PoseMeasures) -> Question | None:
    if measures.doubtful_share <= 0.001:
        return None
    return Question(
        "doubt",
        say(
            "The surface is open: {doubtful_share:.1f} % of the measured columns "
            "are undecided, so the numbers are less sure than they look.",
            doubtful_share=100 * measures.doubtful_share,
        ),
        say("No print needed: close the surface, then measure again."),
    )
