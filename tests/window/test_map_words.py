"""What the map shows and the results say, on tables made by hand; no window."""

from dataclasses import replace

import numpy as np
import pytest

from viewer.document.document import Document
from viewer.geometry.direction_table import COLUMN, MEASURES, DirectionTable
from viewer.geometry.face_classes import ByClass
from viewer.geometry.ranking import rank_directions
from viewer.geometry.sensitivity import KEYS, Range, Sensitivity
from viewer.geometry.sphere_directions import icosphere
from viewer.geometry.touch_bound import TouchBound
from viewer.window.map_layers import SCORE, clean_directions, cut_shares, map_layer
from viewer.window.map_legend import scale_ends
from viewer.window.result_words import bound_words, direction_words, limits_words, sure_words
from viewer.window.search_choices import SearchChoices

SPREAD = icosphere().directions
COUNT = len(SPREAD)


def table(area=ByClass(100.0, 0.0, 300.0, 400.0), **columns):  # noqa: B008 -- a frozen value
    values = np.zeros((COUNT, len(MEASURES)))
    values[:, COLUMN["tip_supported_deg"]] = 20.0
    for key, column in columns.items():
        values[:, COLUMN[key]] = column
    none = np.zeros(COUNT, bool)
    return DirectionTable(SPREAD, values, none, none, COUNT, area, 0.2, 1.0)


def test_pale_is_better_whichever_way_a_measure_counts():
    made = table(height_mm=20 + SPREAD[:, 0], tip_angle_deg=20 + SPREAD[:, 0])
    ranking = rank_directions(made)
    lightness = {}
    for key in ("height_mm", "tip_angle_deg"):
        layer = map_layer(key, ranking)
        assert (layer.low, layer.high) == pytest.approx((19, 21), abs=0.01)
        ends = layer.colours(np.array([layer.low, layer.high])).astype(int).sum(axis=1)
        lightness[key] = ends
    assert lightness["height_mm"][0] > lightness["height_mm"][1]
    assert lightness["tip_angle_deg"][0] < lightness["tip_angle_deg"][1]


def test_contours_are_round_values_inside_the_range():
    layer = map_layer("height_mm", rank_directions(table(height_mm=50 + 17 * SPREAD[:, 1])))
    assert layer.contour_levels() == pytest.approx([35, 40, 45, 50, 55, 60, 65])
    flat = map_layer("height_mm", rank_directions(table(height_mm=50.0)))
    assert flat.contour_levels() == []
    assert flat.title == "Height, mm"
    assert map_layer(SCORE.key, rank_directions(table(height_mm=50.0))).title == "Score"


def test_the_outline_goes_round_what_supports_leave_alone():
    made = table(touch_a_mm2=np.where(SPREAD[:, 2] > 0.5, 0.0, 12.0))
    assert np.array_equal(clean_directions(rank_directions(made)), SPREAD[:, 2] > 0.5)
    unmarked = replace(made, area_mm2=ByClass(0.0, 0.0, 400.0, 400.0))
    assert np.isnan(clean_directions(rank_directions(unmarked))).all()


def test_each_limit_hatches_what_it_cuts_and_only_limits_in_force_do():
    made = table(
        touch_a_mm2=np.where(SPREAD[:, 2] > 0.5, 0.0, 12.0),
        unreachable_mm3=np.where(SPREAD[:, 0] > 0, 90.0, 0.0),
    )
    cut = cut_shares(rank_directions(made))
    assert set(cut) == {"no-touch-on-a", "no-unreachable"}
    assert np.array_equal(cut["no-unreachable"], SPREAD[:, 0] > 0)
    assert set(cut_shares(rank_directions(made, limits=("no-touch-on-a",)))) == {"no-touch-on-a"}


def test_the_numbers_of_a_direction_name_the_limits_that_cut_it():
    made = table(touch_a_mm2=SPREAD[:, 2] + 1, terrace_a_mm2=7.25, height_mm=42.0)
    words = direction_words(rank_directions(made), 5)
    assert "touch on A" in words
    assert "wide terraces on A 7.25 mm²" in words
    assert "height 42.0 mm" in words
    assert words.endswith("cut out: touches A")


def test_a_limit_in_the_way_comes_with_the_least_amount():
    words = limits_words(rank_directions(table(touch_a_mm2=5 + SPREAD[:, 2])))
    assert "Supports touch class A in every direction: the least found is 4 mm²." in words
    left = limits_words(rank_directions(table()))
    assert left == "2,562 of 2,562 directions are within the limits."


def sensitivity(knife_edge):
    same = dict.fromkeys(KEYS, Range(0.0, 0.0))
    tilted = {**same, "touch_a_mm2": Range(0.0, 31.4)}
    return Sensitivity(dict.fromkeys(KEYS, 0.0), tilted, same, knife_edge)


def test_a_knife_edge_is_told_from_a_sure_pose():
    made = table()
    assert sure_words(None, made) == "How sure: not worked out yet."
    edge = sure_words(sensitivity(True), made)
    assert edge == (
        "On a knife’s edge: up to 31.4 mm² of touch on class A with 3° of tilt or 5° of support "
        "limit, not 0 mm²."
    )
    sure = sure_words(sensitivity(False), made)
    assert sure.startswith("Sure: at most 31.4 mm² of touch on class A")


def test_the_bound_stands_beside_the_least_found():
    words = bound_words(TouchBound(238.0, 243.5), table())
    assert "least found is 244 mm²" in words
    assert "less than 238 mm²" in words
    assert "no support on class A" in bound_words(TouchBound(0.0, 0.0), table())
    assert bound_words(None, table()) == ""


def test_the_scale_goes_from_the_worst_to_the_best_whatever_is_more():
    made = rank_directions(table(height_mm=20 + SPREAD[:, 0]))
    for key, best_is_most in ((SCORE.key, True), ("height_mm", False)):
        layer = map_layer(key, made)
        (worst, _), (best, word) = scale_ends(layer)
        ends = layer.value_text(layer.low), layer.value_text(layer.high)
        assert (worst, best) == (ends if best_is_most else ends[::-1])
        assert word == "best, pale"


def test_choices_tell_once_and_know_their_preset(qapp):
    document = Document()
    choices = SearchChoices(document)
    told = []
    choices.aims_changed.connect(lambda: told.append(1))
    assert choices.preset == "show-side"
    choices.set_weight("low", 400.0)
    assert choices.weights["low"] == 100.0
    assert choices.preset == ""
    choices.set_weight("low", 100.0)
    choices.set_limit("fits", True)
    assert len(told) == 1
    choices.set_limit("fits", False)
    assert choices.limits == ("stands", "no-touch-on-a", "no-unreachable")
    assert len(told) == 2
    choices.begin_drag()
    for weight in (20.0, 30.0, 40.0):
        choices.set_weight("firm", weight)
    choices.end_drag()
    assert len(told) == 5
    document.undo()
    assert choices.weights["firm"] == 10.0  # as the preset has it
    assert document.undo_label == "Change the limits"
    assert len(told) == 6
    choices.close()
    document.undo()
    assert len(told) == 6
