"""Trials of a job and what is taken from them: each a step that undo takes back."""

import pytest

from tests.files.made_files import box_state
from tests.shop.made_trials import trial
from viewer.document.document import Changed, Document
from viewer.errors import RequestProblem
from viewer.shop.pairs import Pair
from viewer.shop.taken_limits import TakenLimit, pair_with, taken_limit


def test_results_are_written_down_changed_and_removed_in_steps():
    document = Document(box_state())
    told = []
    document.listen(told.append)
    document.write_down_trial(trial("a"))
    document.write_down_trial(trial("b"))
    document.write_down_trial(trial("a", outcomes="ccc"))
    assert document.state.trials == (trial("a", outcomes="ccc"), trial("b"))
    document.remove_trial("a")
    assert document.state.trials == (trial("b"),)
    assert document.undo_label == "Remove the trial"
    assert told == [Changed.TRIALS] * 4
    for wanted in (2, 2, 1, 0):
        document.undo()
        assert len(document.state.trials) == wanted
    assert not document.undo_label
    document.write_down_trial(trial("a"))
    document.write_down_trial(trial("a"))  # nothing new, so no step
    document.undo()
    assert document.state.trials == ()


def test_taking_a_limit_changes_the_process_in_one_step_and_can_be_put_back():
    document = Document(box_state())
    start = document.state
    first = TakenLimit("support_limit_deg", 38.0, 45.0, "Made", "PLA", 3)
    document.take_limit(first)
    assert document.state.settings.support_limit_deg == 38.0
    assert document.state.taken == (first,)
    later = TakenLimit("support_limit_deg", 36.0, 38.0, "Made", "PLA", 4)
    document.take_limit(later)
    assert document.state.settings.support_limit_deg == 36.0
    (kept,) = document.state.taken
    assert kept.before == 45.0  # what stood there before anything was taken
    document.put_back_limit(kept)
    assert document.state.settings == start.settings
    assert document.state.taken == ()
    for _ in range(3):
        document.undo()
    assert document.state is start


def test_a_touch_weight_belongs_to_its_pair_and_leaves_the_process_alone():
    document = Document(box_state())
    before = document.state.settings
    taken = TakenLimit("touch_weight", 0.3, 1.0, "Made", "PLA alone", 2)
    document.take_limit(taken)
    assert document.state.settings is before
    alone = Pair(name="PLA alone", model="PLA", support_body="PLA", contact="PLA")
    other = Pair(name="other", model="PLA", support_body="PLA", contact="PLA")
    assert pair_with(alone, document.state.taken).touch_weight == 0.3
    assert pair_with(other, document.state.taken) is other
    assert taken_limit(document.state.taken, "touch_weight", "other") is None
    document.take_limit(TakenLimit("touch_weight", 0.5, 1.0, "Made", "other", 2))
    assert len(document.state.taken) == 2


def test_a_limit_out_of_its_range_is_refused_and_changes_nothing():
    document = Document(box_state())
    with pytest.raises(RequestProblem, match="support limit must lie"):
        document.take_limit(TakenLimit("support_limit_deg", 91.0, 45.0))
    assert not document.undo_label
    with pytest.raises(RequestProblem, match="damaged"):
        TakenLimit("gravity", 1.0, 1.0)
