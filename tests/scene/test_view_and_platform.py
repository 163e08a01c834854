"""Camera and platform: a tight fit, a state that comes back, a plate seen through from below."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from vtkmodules.vtkRenderingCore import vtkRenderer

from tests.shapes import box, cube
from viewer.geometry.pose import Pose, pose_matrix
from viewer.scene import camera
from viewer.scene.off_screen import off_screen_window
from viewer.scene.themes import DARK, LIGHT


@given(
    st.tuples(*[st.floats(-1, 1)] * 3).filter(lambda v: np.linalg.norm(v) > 0.2),
    st.sampled_from([(300, 200), (200, 300), (240, 240)]),
    st.floats(-500, 500),
)
def test_fit_leaves_a_margin_and_no_more(towards, size, away):
    """All corners are in view; the outermost lie at 1/MARGIN of half the width or height."""
    corners = np.stack(np.meshgrid([0, 60.0], [0, 25.0], [0, 10.0]), -1).reshape(-1, 3) + away
    with off_screen_window(size) as window:
        renderer = vtkRenderer()
        window.AddRenderer(renderer)
        camera.look_from(renderer.GetActiveCamera(), np.array(towards))
        camera.fit(renderer, corners)
        aspect = size[0] / size[1]
        matrix = renderer.GetActiveCamera().GetCompositeProjectionTransformMatrix(aspect, -1, 1)
        seen = np.array([matrix.MultiplyPoint((*p, 1.0)) for p in corners])
    flat = seen[:, :2] / seen[:, 3:]
    assert np.abs(flat).max() == pytest.approx(1 / camera.MARGIN, rel=1e-6)
    depth = seen[:, 2] / seen[:, 3]
    assert (np.abs(depth) <= 1.0).all()  # nothing is cut off in front or behind


@pytest.mark.parametrize(("name", "towards"), list(camera.VIEWS.items()))
def test_named_views_look_from_where_they_say(stage, name, towards):
    stage.scene.show_part(cube())
    stage.scene.set_view_direction(name)
    state = stage.scene.camera_state()
    line = np.subtract(state["position_mm"], state["focal_mm"])
    np.testing.assert_allclose(
        line / np.linalg.norm(line), towards / np.linalg.norm(towards), atol=1e-9
    )


def test_from_the_front_x_points_right_and_z_up(stage):
    stage.scene.show_part(cube())
    stage.scene.set_view_direction("front")
    stage.draw()
    middle = stage.display((0, 0, 0))
    np.testing.assert_allclose(stage.display((5, 0, 0))[1], middle[1], atol=1e-6)
    assert stage.display((5, 0, 0))[0] > middle[0] + 20
    assert stage.display((0, 0, 5))[1] > middle[1] + 20


def test_camera_state_comes_back_exactly(stage):
    scene = stage.scene
    scene.show_part(cube())
    scene.set_view_direction((0.3, 0.7, 0.2))
    kept, before = scene.camera_state(), stage.draw()
    scene.set_view_direction("top")
    assert np.abs(stage.draw() - before).max() > 0.1
    scene.set_camera_state(kept)
    assert scene.camera_state() == kept
    np.testing.assert_array_equal(stage.draw(), before)


def test_fit_follows_the_pose(stage):
    """A long box is fitted lying and standing; both ends stay in view."""
    long = box((0, 0, 0), (200, 5, 5))
    stage.scene.show_part(long)
    for up in ((0, 0, 1), (1, 0, 0)):
        matrix = pose_matrix(long.vertices_mm, Pose(up))
        stage.scene.set_pose(matrix)
        stage.scene.set_view_direction("corner")
        stage.draw()
        for corner in long.vertices_mm @ matrix[:3, :3].T + matrix[:3, 3]:
            assert (stage.display(corner) > 0).all()
            assert (stage.display(corner) < 240).all()


def test_plate_is_seen_from_above_and_seen_through_from_below(stage):
    scene = stage.scene
    scene.set_platform(100.0, 80.0)
    scene.set_view_direction("top")
    np.testing.assert_allclose(stage.draw()[110, 118], LIGHT.platform, atol=0.01)
    scene.set_view_direction("bottom")
    image = stage.draw()
    shade = np.linspace(LIGHT.background_top, LIGHT.background_bottom, len(image))
    ends = np.abs(image - shade[:, None, :]).max(axis=2) > 0.02
    rows, columns = np.nonzero(ends)
    # Only the rim: nothing is drawn further inside than a pixel or two from it.
    inner = (np.abs(rows - 119.5) < 60) & (np.abs(columns - 119.5) < 90)
    assert ends.sum() > 300
    assert not inner.any()


def test_grid_lines_lie_at_round_millimetres(stage):
    """Strong lines every 50 mm from the centre (ISO/ASTM 52921), fine ones every 10 mm."""
    scene = stage.scene
    scene.set_platform(120.0, 120.0)
    scene.set_view_direction("top")
    image = stage.draw()
    mm = (stage.display((10, 0, 0)) - stage.display((0, 0, 0)))[0] / 10.0
    y = image.shape[0] - 1 - round(stage.display((0, 7.0, 0))[1])  # a row without a level line
    line = image[y]

    def darkest(x_mm: float) -> np.ndarray:
        x = stage.display((x_mm, 7.0, 0))[0]
        near = line[round(x) - 1 : round(x) + 2]
        return near[near.sum(axis=1).argmin()]

    assert mm > 1.5
    for x in (-50, 0, 50):
        np.testing.assert_allclose(darkest(x), LIGHT.grid_strong, atol=0.05)
    for x in (-40, -10, 20, 30):
        np.testing.assert_allclose(darkest(x), LIGHT.grid, atol=0.03)
    for x in (-45, 15, 35):
        np.testing.assert_allclose(darkest(x), LIGHT.platform, atol=0.01)


def test_theme_repaints_everything_at_once(stage):
    scene = stage.scene
    scene.set_platform(20, 20)
    scene.show_part(cube())
    scene.set_view_direction("corner")
    light = stage.draw()
    scene.set_theme(DARK)
    dark = stage.draw()
    np.testing.assert_allclose(dark[1, 1], DARK.background_top, atol=0.02)
    np.testing.assert_allclose(light[1, 1], LIGHT.background_top, atol=0.02)
    scene.set_theme(LIGHT)
    np.testing.assert_array_equal(stage.draw(), light)
