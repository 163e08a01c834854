"""The lens Difference: colours over millimetres, hatches and outlines, what is unmarked pale."""

import numpy as np
import pytest

from tests.scene.scenery import NEAR, SETTINGS, Shown, pose_of
from tests.scene.test_legends import luminance
from tests.shapes import cube
from viewer.geometry.face_classes import CLASS_A, CLASS_B, ByClass
from viewer.geometry.pose_difference import PoseDifference, broadest_mm, clear_difference_mm
from viewer.scene import palettes
from viewer.scene.hatches import Hatch
from viewer.scene.legends import difference_note, legend, terrace_top_mm
from viewer.scene.lenses import Lens

MOST = broadest_mm(SETTINGS)
CLEAR = clear_difference_mm(SETTINGS)


def show(stage, face_mm, classes=None):
    mesh, scene = cube(), stage.scene
    scene.set_settings(SETTINGS)
    scene.set_lens(Lens.DIFFERENCE)
    scene.show_part(mesh)
    if classes is not None:
        scene.set_classes(classes)
    scene.set_pose(pose_of(mesh, np.eye(3)))
    scene.show_measures(Shown(np.zeros(12), np.ones(12)))
    scene.show_difference(face_mm)
    scene.set_view_direction(np.array([0.0, -1.0, 0.0]))


def between_stripes(stage) -> np.ndarray:
    """The colour between the stripes of a hatch."""
    patch = stage.draw()[100:140, 100:140].reshape(-1, 3)
    colours, counts = np.unique(patch.round(3), axis=0, return_counts=True)
    return colours[counts.argmax()]  # stripes are narrower than the gaps, and soft at their rims


@pytest.mark.parametrize("share", [-3.0, -1.0, -0.5, -0.2, -0.05, 0.0, 0.05, 0.2, 0.5, 1.0, 9.0])
def test_the_colour_tells_the_difference_up_to_three_roads(stage, share):
    show(stage, np.full(12, share * MOST, np.float32))
    expected = palettes.difference_table()[round(127.5 + 127.5 * np.clip(share, -1, 1))]
    np.testing.assert_allclose(between_stripes(stage), expected, atol=NEAR + 0.015)


def test_nothing_known_is_the_middle_of_the_scale_and_so_is_another_pose(stage):
    middle = palettes.difference_table()[128]
    show(stage, None)
    np.testing.assert_allclose(stage.middle(), middle, atol=NEAR + 0.01)
    show(stage, np.full(12, MOST, np.float32))
    stage.scene.set_pose(pose_of(cube(), np.eye(3), 5.0))
    stage.scene.set_view_direction(np.array([0.0, -1.0, 0.0]))
    np.testing.assert_allclose(stage.middle(), middle, atol=NEAR + 0.01)


def stripes(stage) -> np.ndarray:
    """Brightness of a patch of the front."""
    return stage.draw()[90:150, 90:150].mean(axis=2)


def test_worse_has_rising_stripes_and_better_falling_ones_and_small_gaps_none(stage):
    worse, better = np.full(12, MOST, np.float32), np.full(12, -MOST, np.float32)
    show(stage, worse)
    rising = stripes(stage)
    show(stage, better)
    falling = stripes(stage)
    # Rows run downwards in a picture: a rising stripe comes back one row down and one column left.
    for hatch, along, across in ((rising, 1, -1), (falling, -1, 1)):
        assert np.ptp(hatch) > 0.1
        moved_along = np.abs(hatch[1:, :-1] - hatch[:-1, 1:]).mean()
        moved_across = np.abs(hatch[1:, 1:] - hatch[:-1, :-1]).mean()
        assert (moved_along - moved_across) * (along - across) < 0
    show(stage, np.full(12, 0.8 * CLEAR, np.float32))
    assert np.ptp(stripes(stage)) < 0.01


def test_a_line_runs_between_the_classes(stage):
    front = np.flatnonzero(cube().face_normals[:, 1] < -0.9)
    classes = np.full(12, CLASS_A, np.uint8)
    show(stage, np.zeros(12, np.float32), classes)
    assert (stage.draw()[60:180, 60:180] < 0.25).all(axis=2).sum() == 0
    classes[front[0]] = CLASS_B
    stage.scene.set_classes(classes)
    stage.scene.show_difference(np.zeros(12, np.float32))
    assert (stage.draw()[60:180, 60:180] < 0.25).all(axis=2).sum() > 80


def test_where_faces_are_marked_the_others_are_pale_and_bare(stage):
    classes = (cube().face_normals[:, 2] > 0.5).astype(np.uint8) * CLASS_A
    show(stage, np.full(12, MOST, np.float32), classes)
    brown = palettes.difference_table()[-1]
    pale = 0.3 * brown + 0.7 * np.array(palettes.WARM_GREY)
    np.testing.assert_allclose(stage.middle(), pale, atol=NEAR + 0.01)
    assert np.ptp(stripes(stage)) < 0.01
    stage.scene.set_view_direction(np.array([0.0, 0.0, 1.0]))
    np.testing.assert_allclose(between_stripes(stage), brown, atol=NEAR + 0.02)


def test_each_half_of_the_map_darkens_from_its_pale_middle():
    """As a diverging map must (Crameri et al. 2020, READ), so that it reads without hue."""
    lightness = np.array([luminance(row) for row in palettes.difference_table()])
    middle = int(lightness.argmax())
    assert 120 <= middle <= 135
    assert (np.diff(lightness[:middle]) > -1e-3).all()
    assert (np.diff(lightness[middle:]) < 1e-3).all()


def test_the_legend_runs_over_both_signs_in_mm_and_names_its_hatches():
    shown = legend(Lens.DIFFERENCE, SETTINGS)
    assert (shown.unit, shown.scale.low, shown.scale.high, shown.scale.mark) == (
        "mm", -MOST, MOST, 0.0,
    )  # fmt: skip
    assert pytest.approx(terrace_top_mm(SETTINGS)) == MOST  # the same top as the lens Terraces
    assert [(entry.label.split()[0], entry.hatch) for entry in shown.entries] == [
        ("better", Hatch.FALLING), ("worse", Hatch.RISING),
    ]  # fmt: skip


def test_the_note_counts_better_and_worse_by_class():
    nothing, some = ByClass(0.0, 0.0, 0.0, 0.0), ByClass(1234.0, 0.0, 30.0, 1264.0)
    found = PoseDifference(np.zeros(12), 0.1, ByClass(-0.2, 0.0, 0.0, -0.1), some, nothing)
    assert difference_note(found, True) == "class A: 1,234 mm² better, 0 mm² worse"
    unmarked = PoseDifference(np.zeros(12), 0.1, nothing, nothing, ByClass(0, 0, 5.0, 5.0))
    assert difference_note(unmarked, True) == "all faces: 0 mm² better, 5 mm² worse"
    assert "Pin a pose" in difference_note(None, False)
    assert "Measuring" in difference_note(None, True)
