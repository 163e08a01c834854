"""Corners of chosen faces, against plain numpy and closed forms."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st
from scipy.spatial import ConvexHull

from tests.shapes import box, sphere
from viewer.geometry.outer_corners import mark_corners, outermost_in_plan, span_along
from viewer.geometry.pose import shortest_turn_to_z

BALL = sphere(10.0, subdivisions=4)
DIRECTIONS = st.tuples(*[st.floats(-1, 1)] * 3).filter(lambda v: np.linalg.norm(v) > 0.1)


def all_used(mesh):
    return np.ones(len(mesh.vertices_mm), np.uint8)


def test_the_corners_of_chosen_faces_are_marked_and_no_others():
    mesh = box((0, 0, 0), (3, 4, 5))
    top = mesh.face_normals[:, 2] > 0.5
    used = mark_corners(mesh.faces, top, len(mesh.vertices_mm))
    assert np.array_equal(used == 1, mesh.vertices_mm[:, 2] == 5)
    assert span_along(mesh.vertices_mm, used, np.array([0.0, 0.0, 1.0])) == (5.0, 5.0)
    assert span_along(mesh.vertices_mm, used, np.array([1.0, 0.0, 0.0])) == (0.0, 3.0)
    nothing = np.zeros_like(used)
    assert span_along(mesh.vertices_mm, nothing, np.array([0.0, 0.0, 1.0])) is None
    assert outermost_in_plan(mesh.vertices_mm, nothing, np.eye(3)) is None


@given(DIRECTIONS, st.integers(0, 2**31))
def test_the_outermost_points_have_the_hull_of_all_points(up, seed):
    """An independent way: turn all, take the hull of all."""
    turn = shortest_turn_to_z(np.array(up) / np.linalg.norm(up))
    used = (np.random.default_rng(seed).random(len(BALL.vertices_mm)) < 0.5).astype(np.uint8)
    turned = BALL.vertices_mm[used == 1] @ turn.T
    points, top = outermost_in_plan(BALL.vertices_mm, used, turn)
    assert np.isclose(top, turned[:, 2].max())
    # Corners of the two hulls need not be the same where three points lie on one line but for
    # rounding; areas, and that each point is one of all, leave nothing else open.
    apart = np.linalg.norm(points[:, None] - turned[None, :, :2], axis=2)
    assert apart.min(axis=1).max() < 1e-12
    assert np.isclose(hull_area_mm2(points), hull_area_mm2(turned[:, :2]), rtol=1e-12)


def hull_area_mm2(points_mm):
    """By qhull, an independent library."""
    return ConvexHull(points_mm).volume  # what scipy calls the area in a plane


def test_most_of_a_dense_part_is_left_out():
    """CALC: an octagon leaves out 2·√2/π = 90 % of a disc, of a ball's plan more than half."""
    used = all_used(BALL)
    points, _ = outermost_in_plan(BALL.vertices_mm, used, np.eye(3))
    assert len(points) < 0.5 * len(used)
