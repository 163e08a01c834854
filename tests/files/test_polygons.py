"""Splitting polygons: areas by the shoelace formula, outlines kept, dents respected."""

import manifold3d
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from viewer.files.polygons import split_polygons


def split(outline):
    outline = np.asarray(outline, float)
    starts = np.array([0, len(outline)])
    return split_polygons(outline, starts, np.arange(len(outline), dtype=np.int32))[0]


def areas(points, faces):
    a, b, c = (np.asarray(points, float)[faces[:, k]] for k in range(3))
    return np.cross(b - a, c - a)[:, 2] / 2


def shoelace(points):
    x, y = np.asarray(points, float).T[:2]
    return (x * np.roll(y, -1) - y * np.roll(x, -1)).sum() / 2


@given(
    st.lists(st.floats(0.2, 3.0), min_size=4, max_size=14),
    st.floats(0, 6.3),
    st.booleans(),
)
def test_a_star_shaped_polygon_is_covered_exactly_once(radii, turn, tilted):
    """Star-shaped about the origin, so it is simple and the shoelace formula gives its area."""
    angles = turn + np.linspace(0, 2 * np.pi, len(radii), endpoint=False)
    flat = np.stack([radii * np.cos(angles), radii * np.sin(angles), 0 * angles], axis=1)
    slope = np.array([[1, 0, 0], [0, 1, 0], [0.7, -0.4, 1]]).T if tilted else np.eye(3)
    faces = split(flat @ slope.T)
    assert faces.shape == (len(radii) - 2, 3)
    signed = areas(flat, faces)
    assert signed.sum() == pytest.approx(shoelace(flat))
    assert np.all(signed >= -1e-6)  # none turned over: none outside the outline


@pytest.mark.parametrize("start", range(4))
def test_a_quad_with_a_dent_is_split_at_the_dent(start):
    arrow = np.roll([[0, 0, 0], [4, 2, 0], [0, 4, 0], [1, 2, 0]], start, axis=0)
    assert np.all(areas(arrow, split(arrow)) > 0)


def test_every_edge_of_the_outline_is_an_edge_of_one_triangle():
    comb = [[0, 0, 0], [6, 0, 0], [6, 3, 0], [5, 1, 0], [4, 3, 0], [3, 1, 0], [2, 3, 0], [1, 1, 0]]
    faces = split([*comb, [0, 3, 0]])
    edges = [tuple(f[[k, (k + 1) % 3]]) for f in faces for k in range(3)]
    assert all(edges.count((k, (k + 1) % 9)) == 1 for k in range(9))


def test_polygons_keep_their_order_and_say_whose_a_triangle_is():
    points = np.array([[0, 0, 0], [1, 0, 0], [1, 1, 0], [0, 1, 0]], float)
    corners = np.array([0, 1, 2, 3, 0, 1, 0, 1, 2], np.int32)
    faces, owners = split_polygons(points, np.array([0, 4, 4, 6, 9]), corners)
    assert owners.tolist() == [0, 0, 3]
    assert faces[2].tolist() == [0, 1, 2]


def test_a_crossed_polygon_still_gives_all_its_triangles():
    star = [[np.cos(k * 4 * np.pi / 5), np.sin(k * 4 * np.pi / 5), 0] for k in range(5)]
    assert split(star).shape == (3, 3)


def test_the_triangulator_underneath_keeps_collinear_corners():
    """What the splitter relies on: no corner is dropped, so neighbours still share edges."""
    square = np.array([[0, 0], [1, 0], [2, 0], [2, 2], [1, 1], [0, 2]], float)
    assert len(np.unique(manifold3d.triangulate([square]))) == 6
