"""Distances to triangles, against brute force over many points of both shapes."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from viewer.geometry.distances import piece_piece_mm, piece_triangle_mm

number = st.floats(-10, 10, allow_nan=False, width=32)
point = st.tuples(number, number, number)
STEPS = 60


def on_piece(p, q, steps=STEPS):
    return np.linspace(np.asarray(p, float), np.asarray(q, float), steps)


def on_triangle(a, b, c, steps=STEPS):
    i, j = np.triu_indices(steps)
    u, v = i / (steps - 1), (steps - 1 - j) / (steps - 1)
    a, b, c = (np.asarray(x, float) for x in (a, b, c))
    return a + np.outer(u, b - a) + np.outer(v, c - a)


def least(first, second):
    return np.sqrt(((first[:, None] - second[None]) ** 2).sum(-1)).min()


def reach(*points):
    """How far a sampled point can lie from the nearest point sought."""
    points = np.array(points, float)
    return 2.0 * np.linalg.norm(np.ptp(points, axis=0)) / (STEPS - 1) + 1e-6


@given(point, point, point, point)
def test_point_to_triangle_is_the_least_of_many(p, a, b, c):
    sampled = least(np.array([p], float), on_triangle(a, b, c))
    exact = piece_triangle_mm(p, p, a, b, c)
    assert exact <= sampled + 1e-4
    assert exact >= sampled - reach(a, b, c)


@given(point, point, point, point)
def test_piece_to_piece_is_the_least_of_many(p, q, a, b):
    sampled = least(on_piece(p, q), on_piece(a, b))
    exact = piece_piece_mm(p, q, a, b)
    assert exact <= sampled + 1e-4
    assert exact >= sampled - reach(p, q) - reach(a, b)


@given(point, point, point, point, point)
def test_piece_to_triangle_is_the_least_of_many(p, q, a, b, c):
    sampled = least(on_piece(p, q), on_triangle(a, b, c))
    exact = piece_triangle_mm(p, q, a, b, c)
    assert exact <= sampled + 1e-4
    assert exact >= sampled - reach(p, q) - reach(a, b, c)


@pytest.mark.parametrize(
    ("p", "distance"),
    [
        ((1.0, 1.0, 3.0), 3.0),  # above the inside
        ((-3.0, -4.0, 0.0), 5.0),  # beyond a corner
        ((4.0, -2.0, 0.0), 2.0),  # beyond an edge
        ((5.0, 5.0, 1.0), 1.0),  # above the long edge
        ((10.0, 10.0, 0.0), np.hypot(5, 5)),  # beyond the long edge
    ],
)
def test_point_to_triangle_in_closed_form(p, distance):
    a, b, c = (0.0, 0.0, 0.0), (10.0, 0.0, 0.0), (0.0, 10.0, 0.0)
    assert piece_triangle_mm(p, p, a, b, c) == pytest.approx(distance, abs=1e-12)


def test_a_piece_through_a_triangle_has_no_distance():
    a, b, c = (0.0, 0.0, 0.0), (10.0, 0.0, 0.0), (0.0, 10.0, 0.0)
    assert piece_triangle_mm((2.0, 2.0, -50.0), (2.0, 2.0, 50.0), a, b, c) == 0.0
    assert piece_triangle_mm((8.0, 8.0, -50.0), (8.0, 8.0, 50.0), a, b, c) == pytest.approx(
        np.hypot(3, 3)
    )
