"""The nearest face and distance, against an independent library; marks carried to a new mesh."""

import numpy as np
import trimesh

from tests.shapes import cube, sphere, torus
from viewer.geometry.nearest_face import carried_over, nearest_faces


def test_distances_equal_those_of_trimesh():
    rng = np.random.default_rng(3)
    for mesh in (cube(20.0), sphere(10.0, 2), torus(around=40, facets=24)):
        points = rng.normal(scale=15.0, size=(200, 3))
        got = nearest_faces(mesh.vertices_mm, mesh.faces, points)
        every = np.array([_to_every_face(mesh, point) for point in points])
        truth = every.min(axis=1)
        assert np.allclose(got.distances_mm, truth, atol=1e-9)
        assert np.allclose(every[np.arange(len(points)), got.faces], truth, atol=1e-9)


def _to_every_face(mesh, point):
    places = trimesh.triangles.closest_point(mesh.corners_mm, np.tile(point, (mesh.face_count, 1)))
    return np.linalg.norm(places - point, axis=1)


def test_faces_without_area_are_the_pieces_they_have_shrunk_to():
    vertices = np.array([[0.0, 0, 0], [10, 0, 0], [10, 0, 0], [5, 5, 5]])
    got = nearest_faces(
        vertices, np.array([[0, 1, 2], [3, 3, 3]], np.int32), [[4.0, 3, 0], [5, 6, 5]]
    )
    assert got.faces.tolist() == [0, 1]
    assert np.allclose(got.distances_mm, [3.0, 1.0])


def test_marks_stay_where_they_were_on_a_finer_mesh():
    coarse, fine = sphere(10.0, 3), sphere(10.0, 4)
    marked = (coarse.corners_mm.mean(axis=1)[:, 2] > 0).astype(np.uint8)
    carried = carried_over(coarse.vertices_mm, coarse.faces, marked, fine)
    height = fine.corners_mm.mean(axis=1)[:, 2]
    clear = abs(height) > 0.6  # a coarse face that lies across the equator has one class only
    assert clear.mean() > 0.8
    assert (carried == (height > 0))[clear].all()
    assert carried.dtype == np.uint8


def test_one_class_all_over_stays_so():
    whole = np.full(12, 2, np.uint8)
    mesh = cube(10.0)
    assert (carried_over(mesh.vertices_mm, mesh.faces, whole, sphere(5.0, 1)) == 2).all()
