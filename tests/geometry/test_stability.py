"""Hull, margin and tip angle (CALC)."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.spatial import ConvexHull

from viewer.geometry.stability import convex_hull_2d, distance_inside_mm, tip_angle_deg

SQUARE = np.array([[0, 0], [10, 0], [10, 10], [0, 10]], np.float64)


@given(st.integers(3, 2000), st.integers(0, 100))
def test_hull_agrees_with_qhull(count, seed):
    """An independent library, scipy's qhull."""
    points = np.random.default_rng(seed).normal(size=(count, 2)) * [3, 1]
    corners = {tuple(p) for p in convex_hull_2d(points)}
    assert corners == {tuple(p) for p in points[ConvexHull(points).vertices]}


def test_hull_runs_anticlockwise_and_drops_points_on_its_edges():
    hull = convex_hull_2d(np.vstack([SQUARE, [[5, 0], [5, 5], [10, 5]]]))
    assert {tuple(p) for p in hull} == {tuple(p) for p in SQUARE}
    x, y = hull.T
    assert np.sum(x * np.roll(y, -1) - y * np.roll(x, -1)) / 2 == pytest.approx(100)


@pytest.mark.parametrize(
    ("point", "distance"),
    [((5, 5), 5), ((1, 5), 1), ((0, 5), 0), ((-2, 5), -2), ((13, 14), -5), ((5, 10), 0)],
)
def test_distance_inside(point, distance):
    assert distance_inside_mm(SQUARE, np.array(point, float)) == pytest.approx(distance)


def test_tip_angle_has_a_sign_and_none_where_nothing_stands():
    assert tip_angle_deg(SQUARE, np.array([5, 5, 5.0])) == pytest.approx(45)
    assert tip_angle_deg(SQUARE, np.array([-5, 5, 5.0])) == pytest.approx(-45)
    assert tip_angle_deg(np.empty((0, 2)), np.array([0, 0, 1.0])) is None
    on_a_line = np.array([[0, 0], [1, 0], [2, 0.0]])
    assert tip_angle_deg(on_a_line, np.array([1, 1, 1.0])) == pytest.approx(-45)
