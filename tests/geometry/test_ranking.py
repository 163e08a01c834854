"""Sliders, limits, the Pareto front and the words of the shortlist, on tables made by hand."""

import itertools

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from viewer.geometry.aims import AIM_KEYS, PRESETS, SHOW_SIDE, costs, scores
from viewer.geometry.direction_table import COLUMN, MEASURES, DirectionTable
from viewer.geometry.face_classes import ByClass
from viewer.geometry.hard_limits import LIMIT_KEYS, cut_directions
from viewer.geometry.pose_words import with_time
from viewer.geometry.ranking import DISTINCT_DEG, rank_directions
from viewer.geometry.sphere_directions import angles_deg, spread_directions

AREA = ByClass(100.0, 50.0, 250.0, 400.0)


def table(count=200, seed=0, **columns):
    """A table of random amounts, with columns set by hand where given."""
    draw = np.random.default_rng(seed)
    values = draw.exponential(1.0, (count, len(MEASURES))) * 30
    for key in ("tip_angle_deg", "tip_supported_deg"):
        values[:, COLUMN[key]] = draw.uniform(1, 40, count)
    values[:, COLUMN["over_mm"]] = np.nan
    for key, column in columns.items():
        values[:, COLUMN[key]] = column
    nothing = np.zeros(count, bool)
    return DirectionTable(spread_directions(count), values, nothing, nothing, count, AREA, 0.2)


weights = st.fixed_dictionaries({key: st.sampled_from([0, 5, 30, 100]) for key in AIM_KEYS})


@given(st.integers(0, 1000), weights)
def test_the_best_is_first_and_on_the_front(seed, given_weights):
    made = table(80, seed)
    ranking = rank_directions(made, given_weights, (), keep=6)
    first = ranking.poses[0].index
    assert ranking.score[first] == np.nanmax(ranking.score)
    assert [p.score for p in ranking.poses] == sorted(
        (p.score for p in ranking.poses), reverse=True
    )
    picked = made.directions[[pose.index for pose in ranking.poses]]
    for up, other in itertools.combinations(picked, 2):
        assert angles_deg(other[None], up)[0] >= DISTINCT_DEG
    # The front against its definition, pair by pair.
    used = [k for k, key in enumerate(AIM_KEYS) if given_weights[key] > 0] or range(len(AIM_KEYS))
    cost = costs(made)[:, list(used)]
    for i in range(len(made)):
        beaten = any(
            (cost[j] <= cost[i]).all() and (cost[j] < cost[i]).any() for j in range(len(made))
        )
        assert ranking.front[i] == (not beaten)
    assert all(ranking.front[pose.index] for pose in ranking.poses)


def test_an_average_direction_scores_50_and_the_best_in_everything_100():
    """CALC from the definition: cost 0 is the best found, 1 the mean."""
    made = table(3, support_volume_mm3=[10.0, 20.0, 30.0])
    score = scores(costs(made), {"little_support": 7.0})
    assert score == pytest.approx([100, 50, 100 / 3])
    assert rank_directions(made, {"little_support": 7.0}, ()).poses[0].index == 0


def test_a_slider_at_nothing_does_not_count_and_unknown_rows_are_left_out():
    made = table(50)
    made.values[10:20, COLUMN["support_volume_mm3"]] = np.nan
    ranking = rank_directions(made, {"low": 100}, ())
    assert not np.isin(ranking.best_first, np.arange(10, 20)).any()
    assert len(ranking.best_first) == 40
    by_height = rank_directions(made, {"low": 100, "firm": 0}, ())
    np.testing.assert_array_equal(by_height.score, ranking.score)
    height = made.column("height_mm")
    assert (np.diff(height[ranking.best_first]) >= 0).all()


def test_a_slider_that_tells_nothing_apart_does_not_water_down_the_others():
    """CALC: nothing is class A; the score is that of the one slider that tells directions apart."""
    nothing = {"touch_a_mm2": 0.0, "landing_a_mm2": 0.0, "graze_a_mm2": 0.0}
    made = table(3, support_volume_mm3=[10.0, 20.0, 30.0], **nothing)
    score = scores(costs(made), {"clean_a": 100, "little_support": 1})
    assert score == pytest.approx([100, 50, 100 / 3])


def test_where_all_are_alike_nothing_is_chosen_by_rounding():
    made = table(40, height_mm=20 + 1e-12 * np.arange(40))
    assert scores(costs(made), {"low": 1.0}) == pytest.approx(100)


@pytest.mark.parametrize("preset", PRESETS, ids=lambda preset: preset.key)
def test_presets_set_every_slider(preset):
    assert set(preset.weights) == set(AIM_KEYS)
    assert all(0 <= weight <= 100 for weight in preset.weights.values())
    assert max(preset.weights.values()) == 100


def _limited(**columns):
    calm = {"touch_a_mm2": 0.0, "unreachable_mm3": 0.0, "over_mm": 0.0} | columns
    return table(4, **calm)


def test_limits_cut_and_say_what_they_cut():
    made = _limited(
        touch_a_mm2=[0, 5, 5, 0.005],  # a hundredth of a square millimetre is nothing
        over_mm=[0, 0, 3, 0],
        tip_supported_deg=[10, 10, 10, np.nan],
    )
    cut = cut_directions(made, LIMIT_KEYS)
    assert list(cut.allowed) == [True, False, False, False]
    by_key = {each.limit: (each.directions, each.alone) for each in cut.cuts}
    assert by_key == {
        "fits": (1, 0), "stands": (1, 1), "no-touch-on-a": (2, 1), "no-unreachable": (0, 0)
    }  # fmt: skip
    assert cut.in_the_way == ()
    assert list(cut_directions(made, ("fits",)).allowed) == [True, True, False, True]
    ranking = rank_directions(made, SHOW_SIDE.weights)
    assert [pose.index for pose in ranking.poses] == [0]


def test_what_is_in_the_way_and_by_how_much():
    made = _limited(touch_a_mm2=[12.0, 40, 3, 50], unreachable_mm3=[0.0, 0, 900, 0])
    ranking = rank_directions(made)
    assert ranking.poses == ()
    (blocked,) = ranking.in_the_way
    assert (blocked.limit, blocked.by, blocked.unit) == ("no-touch-on-a", 12.0, "mm²")
    assert blocked.sentence.endswith("the least found is 12 mm².")


def test_two_limits_in_each_others_way_are_both_named():
    made = _limited(touch_a_mm2=[12.0, 40, 30, 50], unreachable_mm3=[70.0, 80, 900, 90])
    blocked = rank_directions(made).in_the_way
    assert {each.limit: each.by for each in blocked} == {
        "no-touch-on-a": 12.0, "no-unreachable": 70.0
    }  # fmt: skip


def test_what_is_not_measured_yet_is_neither_allowed_nor_cut():
    made = _limited(support_volume_mm3=[np.nan] * 4)
    cut = cut_directions(made, LIMIT_KEYS)
    assert not cut.allowed.any()
    assert cut.in_the_way == ()
    assert not any(each.directions for each in cut.cuts)


def _why(index=0, area=AREA, flat=False, **columns):
    calm = {measure.key: 0.0 for measure in MEASURES}
    made = table(2, **(calm | {"height_mm": 20.0} | columns))
    from dataclasses import replace

    made = replace(made, area_mm2=area, flat_standing=np.array([flat, flat]))
    return rank_directions(made, {"low": 1.0}, (), keep=2).poses[index].why


def test_the_sentence_goes_on_with_the_time():
    assert with_time("No support.", 40 * 60) == (
        "No support; 40 min longer than the quickest of these."
    )
    assert with_time("No support.", 7500).endswith(
        "; 2 h 05 min longer than the quickest of these."
    )
    assert with_time("No support.", 20.0) == "No support; the quickest of these."


def test_one_sentence_in_plain_words():
    clean = _why(terrace_a_mm2=3.0, support_volume_mm3=[1500.0, 1100.0], flat=True)
    assert clean == (
        "No support touches A; no support touches B; terraces wider than a road on 3 % of A; "
        "1.5 cm³ of support, 400 mm³ more than the least; the fewest layers of all; "
        "stands on a flat face."
    )
    touched = _why(
        area=ByClass(100.0, 0.0, 300.0, 400.0), touch_a_mm2=20.0, landing_a_mm2=0.5,
        platform_a_mm2=40.0, height_mm=[20.0, 28.0], index=0,
    )  # fmt: skip
    assert touched == (
        "Supports touch 20 % of A and stand on 0.5 mm²; no terraces wider than a road on A; "
        "40 % of A lies on the platform; no support at all; the fewest layers of all."
    )
    unmarked = _why(area=ByClass(0.0, 0.0, 400.0, 400.0), touch_mm2=8.0, support_volume_mm3=5.0)
    assert unmarked.startswith("Supports touch 2 % of the part; ")
    assert "5.0 mm³ of support, the least of all" in unmarked
