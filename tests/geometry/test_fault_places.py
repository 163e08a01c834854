"""Groups of faulty faces: together what hangs together, apart what lies apart."""

import numpy as np
import pytest

from tests.shapes import cube, joined, moved, sphere
from viewer.geometry.fault_places import CELLS, MOST_PLACES, fault_places


def test_faces_of_one_side_are_one_place_on_that_side():
    mesh = cube(20.0)
    top = np.flatnonzero(mesh.face_normals[:, 2] > 0.9)
    (place,) = fault_places(mesh, top)
    assert set(place.faces) == set(top)
    assert place.centre_mm[2] == pytest.approx(10.0)
    assert np.allclose(place.normal, (0, 0, 1))
    corners = mesh.vertices_mm[mesh.faces[top]].reshape(-1, 3)
    assert np.linalg.norm(corners - place.centre_mm, axis=1).max() == pytest.approx(place.radius_mm)


def test_two_ends_of_a_part_are_two_places_the_larger_first():
    mesh = sphere(10.0, 5)
    height = mesh.vertices_mm[mesh.faces].mean(axis=1)[:, 2]
    places = fault_places(mesh, np.flatnonzero((height > 9.5) | (height < -9.8)))
    assert [np.sign(p.centre_mm[2]) for p in places] == [1.0, -1.0]
    assert len(places[0].faces) > len(places[1].faces)


def test_loose_faces_close_together_are_one_place_and_far_apart_are_not():
    small = cube(0.1)
    diagonal_mm = 100.0 * np.sqrt(3)
    frame = moved(cube(100.0), (0, 0, 0))
    near, far = 0.5 * diagonal_mm / CELLS, 3.0 * diagonal_mm / CELLS
    for apart_mm, count in ((near, 1), (far, 2)):
        mesh = joined(frame, small, moved(small, (apart_mm, 0, 0)))
        assert len(fault_places(mesh, np.arange(12, 36))) == count


def test_no_faces_no_places_and_never_too_many():
    mesh = joined(*(moved(cube(1.0), (20.0 * i, 20.0 * j, 0)) for i in range(8) for j in range(8)))
    assert fault_places(mesh, np.zeros(0, np.int32)) == ()
    assert len(fault_places(mesh, np.arange(mesh.face_count))) == MOST_PLACES
