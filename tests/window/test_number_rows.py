"""The table of numbers: every value with its error and its difference, nothing blank."""

from dataclasses import fields

from tests.window.measured import by_class, measures
from viewer.geometry.pose_measures import Landing, PoseMeasures
from viewer.window.number_rows import COLUMNS, number_rows


def rows_by_key(*args):
    return {row.key: row for row in number_rows(*args)}


def test_values_errors_and_differences_stand_in_their_cells():
    now = measures(
        touch_area_mm2=by_class(120.0, 30.0, 1090.0),
        error={"touch_area_mm2": by_class(1.2, 0.0, 6.0), "support_volume_mm3": 15.0},
        support_volume_mm3=54_362.0,
        layers=228,
    )
    pinned = measures(touch_area_mm2=by_class(100.0, 30.0, 1100.0), layers=230)
    rows = rows_by_key(now, pinned)
    touch = rows["touch_area_mm2"].cells
    assert (touch["A"].value, touch["A"].error, touch["A"].difference) == ("120", "±1", "+20")
    assert (touch["B"].value, touch["B"].error, touch["B"].difference) == ("30.0", "", "=")
    assert touch["unmarked"].difference == "−10"
    assert touch["total"].value == "1,240"
    volume = rows["support_volume_mm3"].cells["whole"]
    assert (volume.value, volume.error, volume.difference) == ("54,362", "±15", "+54,362")
    assert rows["layers"].cells["whole"].difference == "−2"


def test_landing_on_the_part_leaves_the_platform_out():
    now = measures(landing_area_mm2=Landing(1.0, 2.0, 3.0, 50.0, 56.0))
    rows = rows_by_key(now, None)
    assert rows["landing_area_mm2"].cells["total"].value == "6.00"
    assert rows["landing_platform"].cells["whole"].value == "50.0"


def test_a_number_of_the_full_tier_is_not_made_up_in_the_quick_one():
    graze = rows_by_key(measures(tier="quick", graze_area_mm2=None), None)["graze_area_mm2"]
    assert {cell.value for cell in graze.cells.values()} == {""}


def test_what_says_nothing_is_left_out_and_comes_when_there_is_something():
    for key in ("bridged_area_mm2", "touch_short_mm2"):
        assert not rows_by_key(measures(), None)[key].shown
        assert rows_by_key(measures(**{key: by_class(unmarked=400.0)}), None)[key].shown
        # also while the pinned pose has some, or the difference could not be seen
        assert rows_by_key(measures(), measures(**{key: by_class(a=1.0)}))[key].shown


def test_support_that_must_dissolve_is_what_is_unreachable_and_not_sealed():
    rows = rows_by_key(measures(unreachable_support_mm3=1000.0, sealed_support_mm3=400.0), None)
    assert rows["must_dissolve_mm3"].cells["whole"].value == "600"
    assert rows["must_dissolve_mm3"].shown
    assert not rows_by_key(measures(), None)["must_dissolve_mm3"].shown


def test_numbers_at_rest_stay_on_the_screen_while_the_part_turns():
    quick = {"islands": None, "tip_angle_worst_deg": None, "flat_off_grid_mm2": None}
    rows = rows_by_key(measures(tier="quick", **quick), None)
    assert rows["islands"].cells["whole"].value == ""
    assert rows["tip_angle_worst_deg"].cells["whole"].value == ""
    assert (
        rows_by_key(measures(tip_angle_worst_deg=None), None)["tip_angle_worst_deg"]
        .cells["whole"]
        .value
        == "–"
    )


def test_no_pin_no_difference_and_no_cell_is_blank():
    for row in number_rows(measures(tip_angle_deg=None, graze_area_mm2=by_class()), None):
        assert row.explanation.endswith(".")
        assert set(row.cells) in ({"whole"}, set(COLUMNS))
        for cell in row.cells.values():
            assert cell.value
            assert not cell.difference


def test_every_measure_of_the_contract_has_a_row():
    shown = {row.key for row in number_rows(measures(), None)}
    about = {"tier", "doubtful_share", "notes", "error", "faces", "columns"}
    left_out = {
        "support_plan_area_mm2",  # the same as landing on part and platform seen from above
        # no one number:
        "island_places", "unreachable_places", "centre_of_mass_mm", "contact_polygon_mm",
        "flat_faces",
        "profile",
    }  # fmt: skip
    assert {f.name for f in fields(PoseMeasures)} - about - left_out <= shown
