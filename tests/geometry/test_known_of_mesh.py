"""Worked out once a mesh, the same for all who ask, gone with the mesh."""

import gc

import numpy as np
import pytest

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


@pytest.mark.parametrize("plain", [False, True])
def test_nothing_outlives_the_mesh(plain, monkeypatch):
    monkeypatch.setattr(known_of_mesh, "kernels_at_hand", lambda: not plain)
    kept = known_of_mesh._neighbours, known_of_mesh._shells, known_of_mesh._first_shells
    gc.collect()
    before = [len(each) for each in kept]
    mesh = shapes.cube()
    get_to_know(mesh)
    assert [len(each) for each in kept] == [
        before[0] + 1, before[1] + (not plain), before[2] + plain,
    ]  # fmt: skip
    del mesh
    gc.collect()
    assert [len(each) for each in kept] == before
