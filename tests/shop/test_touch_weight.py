"""How much a touched face counts by pair, in the ranking and after trials."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from viewer.errors import RequestProblem
from viewer.geometry.aims import SHOW_SIDE, TOUCH_KEYS, weigh_touch
from viewer.geometry.direction_table import COLUMN, MEASURES, DirectionTable
from viewer.geometry.face_classes import ByClass
from viewer.geometry.ranking import rank_directions
from viewer.geometry.sphere_directions import spread_directions
from viewer.shop.shop import example_shop
from viewer.shop.touch_weight import (
    AS_WIDE_TERRACES,
    TouchTrial,
    pair_with_worth,
    touch_worth,
    weight_of_trial,
    worth_sentences,
)

SHOP = example_shop()
ALONE, UNLIKE = SHOP.pair("TPU 95A alone"), SHOP.pair("TPU 95A with PLA")


def _table() -> DirectionTable:
    """Two ways that mirror each other, and a middling one: touched without terraces, or reverse."""
    values = np.zeros((3, len(MEASURES)))
    values[:, COLUMN["touch_a_mm2"]] = [300.0, 0.0, 150.0]
    values[:, COLUMN["terrace_a_mm2"]] = [0.0, 300.0, 150.0]
    values[:, COLUMN["tip_supported_deg"]] = 30.0
    nothing = np.zeros(3, bool)
    area = ByClass(400.0, 0.0, 0.0, 400.0)
    return DirectionTable(spread_directions(3), values, nothing, nothing, 3, area, 0.2)


def test_wide_terraces_are_the_worse_scar_where_unlike_materials_part_by_themselves():
    """CALC: at 100 and 50 the touched way costs 2·100·w against 2·50; they change over at 0.5."""

    def best(weight: float) -> int:
        counted = weigh_touch(SHOW_SIDE.weights, weight)
        return int(np.argmax(rank_directions(_table(), counted, ()).score))

    assert best(touch_worth(ALONE).weight) == 1
    assert best(touch_worth(UNLIKE).weight) == 0
    assert (best(AS_WIDE_TERRACES + 0.01), best(AS_WIDE_TERRACES - 0.01)) == (1, 0)


@given(st.floats(0, 10))
def test_only_marks_of_supports_are_weighed_and_never_to_nothing(weight):
    counted = weigh_touch(SHOW_SIDE.weights, weight)
    for key, slider in SHOW_SIDE.weights.items():
        if key in TOUCH_KEYS:
            assert counted[key] == pytest.approx(slider * max(weight, 0.01))
            assert counted[key] > 0
        else:
            assert counted[key] == slider


@pytest.mark.parametrize("pair", SHOP.pairs, ids=lambda pair: pair.name)
def test_every_pair_says_how_a_touched_face_comes_out_and_from_where(pair):
    assert pair.touched_face
    assert pair.source("touched_face")
    assert pair.source("touch_weight").startswith("common practice, no source")
    unlike = pair.contact_gap_mm == 0
    assert unlike == (pair.contact != pair.model)
    assert (pair.touch_weight < AS_WIDE_TERRACES) == unlike


def test_what_a_trial_says():
    """By definition of the scale; a face as rough as nearly flat terraces, Ra = t/4 (CALC), 0.5."""
    assert [weight_of_trial(TouchTrial(o)) for o in ("clean", "acceptable", "bad")] == [0, 0.5, 1]
    assert weight_of_trial(TouchTrial("bad", ra_um=50.0, layer_mm=0.2)) == pytest.approx(0.5)
    assert weight_of_trial(TouchTrial("clean", ra_um=50.0, layer_mm=0.1)) == pytest.approx(1.0)
    for wrong in (
        TouchTrial("bad", -1.0),
        TouchTrial("bad", float("nan")),
        TouchTrial("bad", 9, 0),
    ):
        with pytest.raises(RequestProblem, match="roughness"):
            weight_of_trial(wrong)


@given(st.lists(st.sampled_from(["clean", "acceptable", "bad"]), min_size=1, max_size=40))
def test_trials_pull_the_weight_towards_what_they_found(outcomes):
    trials = tuple(TouchTrial(outcome) for outcome in outcomes)
    found = np.mean([weight_of_trial(trial) for trial in trials])
    before, after = touch_worth(UNLIKE), touch_worth(UNLIKE, trials)
    assert before.weight == UNLIKE.touch_weight
    assert abs(after.weight - found) <= abs(before.weight - found) + 1e-12
    # CALC: the pair counts as two trials.
    assert after.weight == pytest.approx((2 * 0.35 + len(trials) * found) / (2 + len(trials)))
    assert 0 <= after.low <= after.weight <= after.high
    many = touch_worth(UNLIKE, trials * 50)
    assert many.high - many.low < after.high - after.low
    kept = pair_with_worth(UNLIKE, after)
    assert kept.touch_weight == pytest.approx(after.weight, abs=0.00501)
    assert f"corrected by trials: {len(trials)}" in kept.source("touch_weight")


def test_the_user_reads_why_and_that_a_limit_stands_against_it():
    told = " ".join(worth_sentences(touch_worth(UNLIKE), True))
    assert "“TPU 95A with PLA”: marks of supports count 0.35 times their slider." in told
    assert UNLIKE.touched_face in told
    assert "common practice, no source" in told
    assert "cuts such directions out all the same" in told
    assert "cuts such" not in " ".join(worth_sentences(touch_worth(UNLIKE), False))
    assert "cuts such" not in " ".join(worth_sentences(touch_worth(ALONE), True))
