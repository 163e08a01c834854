"""The table of poses as text: differences to the first, told better or worse beyond their error."""

from dataclasses import replace

import numpy as np
import pytest

from tests.window.measured import by_class, measures
from viewer.geometry.face_classes import CLASS_A
from viewer.window.compare_rows import WORSE, CompareCell, Size, compare_rows

MARKED = np.array([CLASS_A, 0], np.uint8)
BARE = np.zeros(2, np.uint8)


def cell(rows, key, place, column="whole"):
    return next(row for row in rows if (row.key, row.column) == (key, column)).cells[place]


def test_less_touch_is_better_and_more_is_worse():
    first = measures(touch_area_mm2=by_class(120.0, 0.0, 0.0), support_volume_mm3=500.0)
    second = measures(touch_area_mm2=by_class(75.0, 0.0, 0.0), support_volume_mm3=800.0)
    rows = compare_rows([first, second], MARKED)
    touch = cell(rows, "touch_area_mm2", 1, "A")
    assert (touch.value, touch.difference, touch.verdict) == ("75.0 mm²", "−45", "better")
    assert touch.text() == "75.0 mm²   −45 ✓ better"
    volume = cell(rows, "support_volume_mm3", 1)
    assert volume.text() == "800 mm³   +300 ✗ worse"
    assert cell(rows, "support_volume_mm3", 0).text() == "500 mm³"


def test_a_larger_tip_angle_is_better_and_height_is_neither():
    first, second = measures(tip_angle_deg=10.0, height_mm=20.0), measures(
        tip_angle_deg=30.0, height_mm=40.0
    )  # fmt: skip
    rows = compare_rows([first, second], BARE)
    assert cell(rows, "tip_angle_deg", 1).verdict == "better"
    assert cell(compare_rows([second, first], BARE), "tip_angle_deg", 1).verdict == "worse"
    height = cell(rows, "height_mm", 1)
    assert (height.difference, height.verdict) == ("+20.0", "")


@pytest.mark.parametrize(
    ("gap", "verdict"),
    # CALC: both errors together are √(3² + 4²) = 5, twice that is 10
    [(9.9, "alike"), (10.1, "worse"), (-9.9, "alike"), (-10.1, "better")],
)
def test_within_twice_the_error_poses_are_about_the_same(gap, verdict):
    first = measures(
        touch_area_mm2=by_class(100.0, 0.0, 0.0), error={"touch_area_mm2": by_class(3.0, 0.0, 0.0)}
    )
    second = measures(
        touch_area_mm2=by_class(100.0 + gap, 0.0, 0.0),
        error={"touch_area_mm2": by_class(4.0, 0.0, 0.0)},
    )
    rows = compare_rows([first, second], MARKED)
    assert cell(rows, "touch_area_mm2", 1, "A").verdict == verdict


def test_classes_without_a_face_have_no_row_and_a_pose_not_measured_yet_three_dots():
    rows = compare_rows([measures(), None], BARE)
    assert {row.column for row in rows} == {"total", "whole"}
    assert all(row.cells[1].text() == "…" for row in rows)
    rows = compare_rows([None, measures()], MARKED)
    assert {row.column for row in rows} == {"A", "total", "whole"}
    assert all(row.cells[1].difference == "" for row in rows)
    assert compare_rows([None, None], MARKED) == ()


def test_what_is_nowhere_is_left_out_and_what_is_somewhere_stays_in_every_column():
    none, some = measures(), replace(measures(), bridged_area_mm2=by_class(0.0, 0.0, 8.0))
    assert "bridged_area_mm2" not in {row.key for row in compare_rows([none, none], BARE)}
    row = next(r for r in compare_rows([none, some], BARE) if r.key == "bridged_area_mm2")
    assert [c.value for c in row.cells] == ["0 mm²", "8.00 mm²"]


def test_what_decides_most_stands_first():
    keys = list(dict.fromkeys(row.key for row in compare_rows([measures(), measures()], MARKED)))
    assert keys[:4] == [
        "touch_area_mm2", "landing_area_mm2", "support_volume_mm3", "terrace_visible_area_mm2",
    ]  # fmt: skip


def test_a_cell_says_as_much_as_there_is_room_for():
    cell = CompareCell("38.880", "mm³", "±13", "+14.990", WORSE)
    assert cell.text(Size.FULL) == "38.880 mm³   +14.990 ✗ worse"
    assert cell.text(Size.SIGNS) == "38.880 mm³   +14.990 ✗"
    assert cell.text(Size.BARE) == "38.880   +14.990 ✗"
    assert CompareCell("7.5", "°").text() == "7.5°"


def test_a_name_beside_bare_numbers_holds_the_unit():
    rows = compare_rows([measures(), measures()], MARKED)
    named = {(row.key, row.column): row.bare_name for row in rows}
    assert named["touch_area_mm2", "A"] == "Touch, A, mm²"
    assert named["support_volume_mm3", "whole"] == "Support volume, mm³"
