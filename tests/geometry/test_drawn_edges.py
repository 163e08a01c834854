"""Edges found in plain numpy are those that the kernels find, in the same order."""

import numpy as np
import pytest

from tests import shapes
from viewer.geometry.drawn_edges import (
    borders_to_draw,
    creases_to_draw,
    plain_borders,
    plain_creases,
)
from viewer.geometry.face_neighbours import face_neighbours
from viewer.geometry.kernel_cache import SETTING, say_kernels_are_ready
from viewer.geometry.mesh import Mesh
from viewer.geometry.regions import borders, creases

PARTS = [
    shapes.c_bracket(),
    shapes.torus(around=30, facets=20),
    shapes.without_faces(shapes.sphere(10, 2), [3, 40]),
    shapes.joined(shapes.cube(), shapes.sealed_cavity()),
]


@pytest.fixture(params=["ready", "not ready"])
def either_way(request, monkeypatch, tmp_path):
    monkeypatch.setenv(SETTING, str(tmp_path))
    if request.param == "ready":
        say_kernels_are_ready()


@pytest.mark.parametrize("mesh", PARTS)
def test_both_ways_find_the_same_edges(mesh: Mesh, either_way):
    neighbours = face_neighbours(mesh.faces)
    labels = np.random.default_rng(1).integers(0, 3, mesh.face_count).astype(np.uint8)
    expected = borders(mesh.faces, neighbours, labels)
    for find in (borders_to_draw, plain_borders):
        found = find(mesh.faces, neighbours, labels)
        assert found.dtype == expected.dtype
        assert np.array_equal(found, expected)
    expected = creases(mesh.faces, neighbours, mesh.face_normals, 40.0)
    for find in (creases_to_draw, plain_creases):
        found = find(mesh.faces, neighbours, mesh.face_normals, 40.0)
        assert found.dtype == expected.dtype
        assert np.array_equal(found, expected)


def test_a_cube_has_twelve_creases():
    """CALC: the diagonals of its sides are none."""
    cube = shapes.cube()
    found = plain_creases(cube.faces, face_neighbours(cube.faces), cube.face_normals, 40.0)
    assert len(found) == 12
    steps = cube.vertices_mm[found[:, 1]] - cube.vertices_mm[found[:, 0]]
    assert np.linalg.norm(steps, axis=1) == pytest.approx(20)
