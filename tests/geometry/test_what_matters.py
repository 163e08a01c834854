"""Sliders and limits as one frozen value."""

import pytest

from viewer.errors import RequestProblem
from viewer.geometry.aims import AIM_KEYS, PRESETS
from viewer.geometry.hard_limits import LIMIT_KEYS
from viewer.geometry.what_matters import WhatMatters


def test_a_new_one_is_the_first_preset_with_every_limit():
    matters = WhatMatters()
    assert matters.weights == dict(PRESETS[0].weights)
    assert matters.preset == PRESETS[0].key
    assert matters.limits == LIMIT_KEYS
    assert hash(matters) == hash(WhatMatters.of(PRESETS[0].weights, set(LIMIT_KEYS)))


@pytest.mark.parametrize("preset", PRESETS, ids=lambda preset: preset.key)
def test_each_preset_knows_itself(preset):
    assert WhatMatters().with_weights(preset.weights).preset == preset.key


def test_a_slider_moves_alone_and_is_held_at_its_ends():
    before = WhatMatters()
    after = before.with_weights({"low": 250.0}).with_weights({"firm": -1.0})
    assert after.weights == {**before.weights, "low": 100.0, "firm": 0.0}
    assert after.preset == ""
    assert after.limits == before.limits


def test_a_limit_goes_and_comes_back_in_its_own_place():
    without = WhatMatters().with_limit("stands", False)
    assert without.limits == tuple(key for key in LIMIT_KEYS if key != "stands")
    assert without.with_limit("stands", True) == WhatMatters()
    assert without.with_limit("stands", False) == without


@pytest.mark.parametrize(
    "positions",
    [(1.0,), (101.0,) * len(AIM_KEYS), (-0.5,) * len(AIM_KEYS), (float("nan"),) * len(AIM_KEYS)],
)
def test_positions_that_no_slider_has_are_refused(positions):
    with pytest.raises(RequestProblem, match="from 0 to 100"):
        WhatMatters(positions)


@pytest.mark.parametrize("limits", [("floats",), ("stands", "fits"), ("fits", "fits")])
def test_limits_that_do_not_exist_or_stand_out_of_order_are_refused(limits):
    with pytest.raises(RequestProblem, match="limits"):
        WhatMatters(limits=limits)
