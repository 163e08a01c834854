"""What is looked at in one place of a fault: its faces, the ball around them, their side."""

import numpy as np
import pytest

from tests.shapes import cube, joined, moved, sphere, without_faces
from viewer.geometry.fault_places import look_at_place
from viewer.geometry.mesh_health import check_mesh


def test_faces_of_one_side_are_seen_from_that_side():
    mesh = cube(20.0)
    top = np.flatnonzero(mesh.face_normals[:, 2] > 0.9)
    point = mesh.vertices_mm[mesh.faces[top[0]]].mean(axis=0)
    sight = look_at_place(mesh, top, point, 20.0 * np.sqrt(2))
    assert set(sight.faces) == set(top)
    assert np.array_equal(sight.centre_mm, point)
    assert np.allclose(sight.normal, (0, 0, 1))
    corners = mesh.vertices_mm[mesh.faces[top]].reshape(-1, 3)
    assert np.linalg.norm(corners - point, axis=1).max() == pytest.approx(sight.radius_mm)


def test_every_place_of_a_fault_leads_to_its_own_faces():
    small = moved(
        without_faces(cube(4.0), [0]), (9.0, 0, 0)
    )  # holes 9 and 11 mm across, 6 mm apart
    large = without_faces(cube(8.0), [0, 1])
    mesh = joined(large, small)
    (fault,) = [f for f in check_mesh(mesh).faults if f.kind == "open_edges"]
    sights = [look_at_place(mesh, fault.faces, p.point_mm, p.size_mm) for p in fault.places]
    assert len(sights) == 2
    own = [set(s.faces) for s in sights]
    assert own[0] | own[1] == set(fault.faces)
    assert own[0] == {f for f in fault.faces if f < large.face_count}
    for sight, place in zip(sights, fault.places, strict=True):
        assert np.array_equal(sight.centre_mm, place.point_mm)


def test_no_more_is_looked_at_than_lies_within_the_size_of_the_place():
    mesh = sphere(10.0, 4)
    every = np.arange(mesh.face_count)
    sight = look_at_place(mesh, every, np.array([0.0, 0.0, 10.0]), 2.0)
    away = np.linalg.norm(mesh.corners_mm - [0, 0, 10], axis=2).min(axis=1)
    assert np.array_equal(sight.faces, np.flatnonzero(away <= 2.0))
    assert sight.normal[2] > 0.95


def test_a_place_smaller_than_its_face_still_has_that_face():
    mesh = cube(20.0)
    sight = look_at_place(mesh, np.array([3]), mesh.corners_mm[3].mean(axis=0), 0.0)
    assert list(sight.faces) == [3]
