"""The ghost of another pose and the globe of directions: where they are drawn, in what colour."""

import numpy as np

from tests.shapes import box, cube
from viewer.geometry.pose import Pose, pose_matrix
from viewer.geometry.sphere_directions import icosphere
from viewer.scene.globe_view import OPACITY


def changed(before, after):
    return np.abs(before - after).max(axis=2) > 0.02


def test_a_ghost_shows_where_the_part_would_lie_and_goes_again(stage):
    mesh, scene = box((0, 0, 0), (40, 4, 4)), stage.scene
    scene.show_part(mesh)
    scene.set_pose(pose_matrix(mesh.vertices_mm, Pose()))
    scene.set_view_direction("front")
    stage.step_back(0.35)
    bare = stage.draw()
    scene.show_ghost(pose_matrix(mesh.vertices_mm, Pose((1, 0, 0))))  # upright
    assert scene.ghost_shown
    with_ghost = stage.draw()
    scene.show_ghost(None)
    assert not scene.ghost_shown
    assert not changed(bare, stage.draw()).any()
    rows, _ = np.nonzero(changed(bare, with_ghost))
    top = stage.display((0, 0, 40.0))[1]
    assert abs((len(bare) - 1 - rows.min()) - top) < 4
    # A ghost is glass: the part is seen through it where both are.
    assert np.abs(with_ghost - bare).max() < 0.75


def test_a_new_part_has_no_ghost_of_the_old_one(stage):
    scene = stage.scene
    scene.show_part(cube())
    scene.show_ghost(np.eye(4))
    scene.show_globe(np.full((2562, 3), 200, np.uint8))
    scene.show_part(box((0, 0, 0), (3, 4, 5)))
    assert not scene.ghost_shown
    assert not scene.globe_shown


def test_the_top_of_the_globe_is_the_direction_that_points_up(stage):
    """Only directions near +x are red: they show at the top once +x points up, and not before."""
    mesh, scene = cube(4.0), stage.scene
    scene.show_part(mesh)
    directions = icosphere().directions
    red = np.where(directions[:, :1] > 0.8, [[255, 0, 0]], [[255, 255, 255]]).astype(np.uint8)

    def redness():
        scene.set_view_direction("top")
        stage.step_back(0.8)
        before = stage.draw()
        scene.show_globe(red)
        middle = stage.draw()[110:130, 110:130].mean(axis=(0, 1))
        scene.show_globe(None)
        assert not changed(before, stage.draw()).any()
        return middle[0] - middle[1]

    scene.set_pose(pose_matrix(mesh.vertices_mm, Pose()))
    level = redness()
    scene.set_pose(pose_matrix(mesh.vertices_mm, Pose((1, 0, 0))))
    assert redness() > level + 0.5 * OPACITY
