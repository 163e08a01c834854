"""What is open, and how far each stage is, follow from the numbers and nothing else."""

from types import SimpleNamespace

import numpy as np
import pytest

from tests.shapes import cube
from tests.window.measured import by_class, measures
from viewer.document.state import Part, State
from viewer.geometry.pose import Pose
from viewer.geometry.pose_measures import Landing
from viewer.window.questions import open_questions
from viewer.window.stages import DONE, LOOK, OPEN, Stage, stage_states

SOUND = SimpleNamespace(verdict="sound")
UNSURE = SimpleNamespace(verdict="printable with care")


def marked(**part) -> State:
    mesh = cube()
    return State.of_part(Part("cube", mesh, **part), np.full(mesh.face_count, 1, np.uint8))


def keys(state=None, report=SOUND, **changes):
    return [q.key for q in open_questions(state or marked(), measures(**changes), report)]


def test_a_part_that_needs_nothing_leaves_no_question():
    assert keys() == []


@pytest.mark.parametrize(
    ("changes", "key"),
    [
        ({"touch_area_mm2": by_class(a=12.0)}, "touch"),
        ({"landing_area_mm2": Landing(9.0, 0, 0, 0, 9.0)}, "landing"),
        ({"graze_area_mm2": by_class(a=8.0)}, "graze"),
        ({"terrace_visible_area_mm2": by_class(a=200.0)}, "terraces"),
        ({"tip_angle_deg": 4.0}, "steadiness"),
        ({"tip_angle_deg": -3.0}, "steadiness"),
        ({"tip_angle_deg": None}, "steadiness"),
        ({"doubtful_share": 0.02}, "doubt"),
    ],
)
def test_each_number_raises_its_own_question(changes, key):
    assert keys(**changes) == [key]


def test_what_touches_only_hidden_faces_is_no_question():
    assert (
        keys(touch_area_mm2=by_class(unmarked=500.0), landing_area_mm2=Landing(0, 0, 9, 9, 18))
        == []
    )


def test_faults_come_first_and_every_question_says_what_a_test_would_tell():
    questions = open_questions(
        State.of_part(Part("cube", cube())),
        measures(touch_area_mm2=by_class(a=5.0), tip_angle_deg=None),
        UNSURE,
    )
    assert [q.key for q in questions] == ["faults", "marks", "touch", "steadiness"]
    assert all(q.sentence.endswith((".", "?")) and q.test.endswith(".") for q in questions)


def test_the_number_is_in_the_sentence():
    (question,) = open_questions(marked(), measures(touch_area_mm2=by_class(a=37.4)), SOUND)
    assert "37.4 mm²" in question.sentence


def test_stages_of_an_empty_window_are_open():
    assert set(stage_states(State(), None, None, None).values()) == {OPEN}


def test_a_job_that_is_all_right_is_done_up_to_handing_over():
    state = marked()
    states = stage_states(state, measures(), SOUND, None)
    assert [states[s] for s in Stage] == [DONE, DONE, DONE, DONE, OPEN]
    assert stage_states(state, measures(), SOUND, state)[Stage.HAND_OVER] == DONE


def test_stages_that_need_a_look_say_so_in_words():
    state = marked(unit_doubt="These look like inches: scale?")
    states = stage_states(state, measures(touch_area_mm2=by_class(a=3.0)), SOUND, None)
    assert states[Stage.CHECK] == LOOK
    assert states[Stage.TURN] == LOOK
    assert states[Stage.TRY].word == "1 question"
    assert LOOK.sign != DONE.sign != OPEN.sign


def test_turning_after_handing_over_is_noticed():
    state = marked()
    turned = state.with_(pose=Pose((1.0, 0.0, 0.0)))
    assert stage_states(turned, measures(), SOUND, state)[Stage.HAND_OVER].word == "turned since"
