"""Generalised winding numbers of triangles, against closed forms and an exact sum."""

import math

import numpy as np
import pytest

from tests.shapes import cube, sphere, torus
from viewer.geometry.compiled import compiled
from viewer.geometry.mesh import Mesh
from viewer.geometry.winding_tree import build_winding_tree, winding_at


@compiled
def _at(tree, points):
    found = np.empty(len(points))
    for i in range(len(points)):
        found[i] = winding_at(tree, points[i, 0], points[i, 1], points[i, 2])
    return found


def windings(mesh: Mesh, points) -> np.ndarray:
    return _at(build_winding_tree(mesh.vertices_mm, mesh.faces), np.asarray(points, float))


def exact_sum(mesh: Mesh, points) -> np.ndarray:
    """All solid angles over 4π, one by one (Van Oosterom & Strackee 1983)."""
    found = np.zeros(len(points))
    for i, point in enumerate(np.asarray(points, float)):
        a, b, c = (mesh.corners_mm - point).transpose(1, 0, 2)
        x, y, z = (np.linalg.norm(v, axis=1) for v in (a, b, c))
        dots = [np.einsum("ij,ij->i", u, v) for u, v in ((a, b), (b, c), (c, a))]
        volume = np.einsum("ij,ij->i", a, np.cross(b, c))
        rest = x * y * z + dots[0] * z + dots[1] * x + dots[2] * y
        found[i] = (2.0 * np.arctan2(volume, rest)).sum() / (4.0 * math.pi)
    return found


@pytest.mark.parametrize("mesh", [cube(20.0), sphere(10.0, 4), torus(around=40, facets=24)])
def test_one_inside_and_nothing_outside_of_what_is_closed(mesh):
    rng = np.random.default_rng(5)
    points = rng.uniform(-30.0, 30.0, (400, 3))
    exact = exact_sum(mesh, points)
    assert np.abs(exact - exact.round()).max() < 1e-9
    assert np.abs(windings(mesh, points) - exact).max() < 0.01


def test_a_square_covers_a_share_of_the_view_in_closed_form():
    """At height h over the middle of a square of side 2a: 4 asin(a² / (a² + h²)) (MEM)."""
    corners = np.array([(-1, -1, 0), (1, -1, 0), (1, 1, 0), (-1, 1, 0)]) * 5.0
    square = Mesh(corners, [(0, 1, 2), (0, 2, 3)])
    for height_mm in (0.1, 1.0, 5.0, 40.0):
        share = 4.0 * math.asin(25.0 / (25.0 + height_mm**2)) / (4.0 * math.pi)
        below, above = windings(square, [(0, 0, -height_mm), (0, 0, height_mm)])
        assert below == pytest.approx(share, abs=0.002)
        assert above == pytest.approx(-share, abs=0.002)


def test_of_an_open_surface_it_is_near_the_exact_sum():
    ball = sphere(10.0, 5)
    half = Mesh(ball.vertices_mm, ball.faces[ball.corners_mm[:, :, 2].mean(axis=1) < 0.0])
    points = np.random.default_rng(6).uniform(-15.0, 15.0, (300, 3))
    assert np.abs(windings(half, points) - exact_sum(half, points)).max() < 0.01
