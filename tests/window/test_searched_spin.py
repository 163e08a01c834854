"""The spin of a pose the search goes to: least rectangle, one that fits, or as it was."""

import numpy as np
import pytest

from tests import shapes
from viewer.geometry.pose import Pose, posed_vertices_mm, rotation
from viewer.geometry.sphere_directions import angles_deg
from viewer.window.searched_spin import PosedCorners, pose_towards, pose_walked

UP = np.array([0.0, 0.0, 1.0])


def size_mm(mesh, pose):
    return np.ptp(posed_vertices_mm(mesh.vertices_mm, pose), axis=0)


def turned_bar():
    """A bar of 100 × 10 × 10, turned by 30° on the platform."""
    mesh = shapes.box((0, 0, 0), (100, 10, 10))
    points = mesh.vertices_mm @ rotation(Pose((0, 0, 1), 30.0)).T
    return type(mesh)(points, mesh.faces)


def test_the_least_rectangle_lies_along_x():
    mesh = turned_bar()
    pose = pose_towards(UP, Pose(), PosedCorners(mesh), keep_spin=False)
    assert size_mm(mesh, pose)[:2] == pytest.approx((100, 10), abs=1e-6)


def test_it_is_turned_by_a_quarter_or_laid_across_where_only_that_fits():
    mesh = turned_bar()
    corners = PosedCorners(mesh)
    upright = pose_towards(UP, Pose(), corners, False, (50.0, 120.0))
    assert size_mm(mesh, upright)[:2] == pytest.approx((10, 100), abs=1e-6)
    # 100 × 10 on a diagonal of a square of 80: 110·cos 45° = 77.8.
    across = pose_towards(UP, Pose(), corners, False, (80.0, 80.0))
    assert size_mm(mesh, across)[:2].max() <= 80.0
    assert size_mm(mesh, across)[:2] == pytest.approx(110 / np.sqrt(2), abs=1e-6)


def test_by_how_much_a_spin_is_too_large():
    mesh = turned_bar()  # CALC: 100 × 10 at 30°, and straight again after −30°
    corners = PosedCorners(mesh)
    wide = 100 * np.cos(np.pi / 6) + 10 * np.sin(np.pi / 6)
    assert corners.over_mm(UP, 0.0, (50.0, 500.0)) == pytest.approx(wide - 50.0)
    assert corners.over_mm(UP, -30.0, (100.001, 10.001)) == 0.0
    assert corners.over_mm(UP, 60.0, (100.0, 10.0)) == pytest.approx(90.0)
    assert corners.over_mm(UP, 0.0, None) == 0.0


def test_a_fixed_spin_stays():
    pose = pose_towards(
        np.array([0, 1.0, 0]), Pose((1, 0, 0), 17.0), PosedCorners(turned_bar()), True
    )
    assert pose == Pose((0, 1, 0), 17.0)


def test_a_walk_turns_the_shortest_way_or_keeps_its_spin():
    before = Pose((0, 0, 1), 40.0)
    up = np.array([np.sin(0.1), 0.0, np.cos(0.1)])
    walked = pose_walked(up, before, keep_spin=False)
    assert angles_deg(np.array([walked.up]), up)[0] < 1e-6
    turn = rotation(walked) @ rotation(before).T
    assert np.degrees(np.arccos((np.trace(turn) - 1) / 2)) == pytest.approx(np.degrees(0.1))
    assert pose_walked(up, before, keep_spin=True).spin_deg == 40.0


def test_corners_of_the_hull_give_the_same_matrix():
    mesh = turned_bar()
    inside = np.vstack([mesh.vertices_mm, np.full((50, 3), 0.0) + mesh.vertices_mm.mean(axis=0)])
    more = type(mesh)(inside, np.vstack([mesh.faces, [[0, 8, 9]]]))
    corners, pose = PosedCorners(more), Pose((0.3, 0.2, 0.9), 12.0)
    matrix = corners.matrix(pose)
    corners.use_hull(mesh.vertices_mm)
    assert corners.matrix(pose) == pytest.approx(matrix)
    assert corners.belongs_to(more)
    assert not corners.belongs_to(mesh)
