"""Panes of one window: where they are, one eye for all, captions over them, nothing left behind."""

import gc

import numpy as np
import pytest
from vtkmodules.vtkCommonCore import vtkObjectBase
from vtkmodules.vtkRenderingCore import vtkCamera

from tests.scene.scenery import NEAR, pose_of, tilted
from tests.shapes import box, cube
from viewer.scene import palettes
from viewer.scene.off_screen import drawn, off_screen_window
from viewer.scene.side_by_side import Caption, SideBySide, pane_rects
from viewer.scene.themes import DARK, LIGHT

SIZE = (480, 240)


@pytest.mark.parametrize(
    ("count", "size_px", "columns"),
    [
        (1, (800, 400), 1),
        (2, (800, 400), 2),
        (2, (300, 900), 1),
        (3, (1200, 400), 3),
        (4, (800, 600), 2),
        (4, (2000, 300), 4),
    ],
)
def test_panes_are_equal_fill_the_window_and_are_as_square_as_can_be(count, size_px, columns):
    rects = np.array(pane_rects(count, size_px))
    assert len(rects) == count
    widths, heights = rects[:, 2] - rects[:, 0], rects[:, 3] - rects[:, 1]
    np.testing.assert_allclose(widths, 1 / columns)
    np.testing.assert_allclose(heights, columns / count)
    assert tuple(rects[0, [0, 3]]) == (0.0, 1.0)  # the first at the top left
    assert (widths * heights).sum() == pytest.approx(1.0)


@pytest.fixture
def side(request):
    """Two cubes side by side, the second tilted by 30°."""
    with off_screen_window(SIZE) as window:
        panes = SideBySide(window, LIGHT, 2)
        for scene, turn in zip(panes.scenes, (np.eye(3), tilted(30.0)), strict=True):
            scene.show_part(cube(), pickable=False)
            scene.set_pose(pose_of(cube(), turn))
        yield panes, window
        panes.close()


def eye_from(direction, at_mm=(0.0, 0.0, 10.0), away_mm=100.0) -> vtkCamera:
    eye = vtkCamera()
    eye.SetFocalPoint(*at_mm)
    eye.SetPosition(*(np.array(at_mm) + away_mm * np.array(direction)))
    eye.SetViewUp(0, 0, 1)
    eye.SetViewAngle(28.0)
    return eye


def test_one_eye_sees_every_pane(side):
    panes, window = side
    panes.follow(eye_from((0.0, -1.0, 0.0)))
    image = drawn(window) / 255.0
    for half in (image[:, :240], image[:, 240:]):
        np.testing.assert_allclose(half[120, 120], palettes.WARM_GREY, atol=NEAR)
    upright, leaning = (
        (np.abs(half - np.array(palettes.WARM_GREY)).max(axis=2) < 0.06).sum(axis=0)
        for half in (image[:, 4:236], image[:, 244:476])
    )
    assert np.count_nonzero(leaning > 8) > 1.2 * np.count_nonzero(upright > 8)
    states = [scene.camera_state() for scene in panes.scenes]
    assert states[0] == states[1]


def test_the_pane_under_a_pointer(side):
    panes, _ = side
    assert [panes.pane_at(x, 120) for x in (0, 239, 240, 479)] == [0, 0, 1, 1]
    assert panes.pane_at(-5, 120) is None


@pytest.mark.parametrize("theme", [LIGHT, DARK])
def test_captions_are_in_the_upper_left_of_their_pane(side, theme):
    panes, window = side
    panes.set_theme(theme)
    panes.follow(eye_from((0.0, -1.0, 0.0), away_mm=400.0))
    bare = drawn(window).astype(int)
    panes.set_captions([Caption("1  As in the file"), Caption("2  Tilted", ("Touch 12 mm²",))])
    image = drawn(window).astype(int)
    changed = np.abs(image - bare).max(axis=2) > 60
    for left in (0, 240):
        assert changed[8:40, left + 8 : left + 200].sum() > 60
        assert changed[60:, left : left + 240].sum() == 0
    assert changed[26:60, 248:480].sum() > changed[26:60, 8:240].sum()  # the second has a line more
    panes.set_captions([Caption("1  As in the file"), Caption("2  Tilted")], larger=True)
    larger = np.abs(drawn(window).astype(int) - bare).max(axis=2) > 60
    assert larger.sum() > 1.5 * changed[:, :240].sum()


def test_what_fits_one_pane_fits_all_poses(side):
    panes, _ = side
    flat = box((0, 0, 0), (100.0, 10.0, 10.0))
    for scene, turn in zip(panes.scenes, (np.eye(3), tilted(90.0)), strict=True):
        scene.show_part(flat, pickable=False)
        scene.set_pose(pose_of(flat, turn))
    points = panes.points_to_fit_mm()
    assert np.ptp(points[:, 0]) == pytest.approx(100.0)
    assert np.ptp(points[:, 2]) == pytest.approx(100.0)


def test_closing_gives_the_window_back_and_leaves_no_vtk_object_behind():
    def count() -> int:
        gc.collect()
        return sum(isinstance(o, vtkObjectBase) for o in gc.get_objects())

    def once() -> None:
        with off_screen_window(SIZE) as window:
            layers = window.GetNumberOfLayers()
            panes = SideBySide(window, LIGHT, 4)
            panes.scenes[0].show_part(cube())
            panes.set_captions([Caption(f"{k}") for k in range(4)])
            drawn(window)
            panes.close()
            assert window.GetRenderers().GetNumberOfItems() == 0
            assert window.GetNumberOfLayers() == layers

    once()
    before = count()
    once()
    assert count() == before
