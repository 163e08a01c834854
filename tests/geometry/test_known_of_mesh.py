"""Worked out once a mesh, the same for all who ask, gone with the mesh."""

import gc

import numpy as np

from tests import shapes
from viewer.geometry import known_of_mesh
from viewer.geometry.face_neighbours import face_neighbours
from viewer.geometry.known_of_mesh import get_to_know, neighbours_of, shells_of


def test_everyone_gets_the_same_answer():
    mesh = shapes.post_inside_cap()
    get_to_know(mesh)
    assert neighbours_of(mesh) is neighbours_of(mesh)
    assert shells_of(mesh) is shells_of(mesh)
    np.testing.assert_array_equal(neighbours_of(mesh), face_neighbours(mesh.faces))
    assert shells_of(mesh).count == 2
    assert not neighbours_of(mesh).flags.writeable


def test_nothing_outlives_the_mesh():
    gc.collect()
    before = len(known_of_mesh._neighbours), len(known_of_mesh._shells)
    mesh = shapes.cube()
    get_to_know(mesh)
    assert len(known_of_mesh._shells) == before[1] + 1
    del mesh
    gc.collect()
    assert (len(known_of_mesh._neighbours), len(known_of_mesh._shells)) == before
