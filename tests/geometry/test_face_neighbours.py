"""Neighbours across edges, against a plain dictionary of edges."""

import numpy as np
import pytest

from tests import shapes
from viewer.geometry.face_neighbours import face_neighbours


def neighbours_by_dictionary(faces: np.ndarray) -> np.ndarray:
    edges: dict[tuple[int, int], list[tuple[int, int]]] = {}
    for face, corners in enumerate(faces.tolist()):
        if len(set(corners)) < 3:
            continue
        for k in range(3):
            pair = sorted((corners[k], corners[(k + 1) % 3]))
            edges.setdefault(tuple(pair), []).append((face, k))
    expected = np.full(faces.shape, -1, np.int32)
    for sides in edges.values():
        if len(sides) == 2:
            (one, k), (other, j) = sides
            expected[one, k], expected[other, j] = other, one
    return expected


@pytest.mark.parametrize("vertex_count", [5, 12, 60, 2000])
def test_agrees_with_a_dictionary_on_random_triangles(vertex_count):
    """Few vertices make many edges of three and more faces, and faces that name a vertex twice."""
    faces = np.random.default_rng(vertex_count).integers(0, vertex_count, (900, 3), np.int32)
    assert np.array_equal(face_neighbours(faces), neighbours_by_dictionary(faces))


def test_fan_of_many_faces_at_one_vertex():
    rim = np.arange(1, 5001, dtype=np.int32)
    fan = np.stack([np.zeros(5000, np.int32), rim, np.roll(rim, -1)], axis=1)
    found = face_neighbours(fan)
    assert np.array_equal(found, neighbours_by_dictionary(fan))
    assert (found[:, 1] == -1).all()


def test_tetrahedron_and_no_faces():
    tetrahedron = np.array([[0, 2, 1], [0, 1, 3], [1, 2, 3], [2, 0, 3]], np.int32)
    assert face_neighbours(tetrahedron).tolist() == [[3, 2, 1], [0, 2, 3], [0, 3, 1], [0, 1, 2]]
    assert face_neighbours(np.empty((0, 3), np.int32)).shape == (0, 3)


@pytest.mark.parametrize("turned_over", [False, True])
@pytest.mark.parametrize("left_out", [0, 7])
def test_agrees_with_a_dictionary_on_nearly_whole_surfaces(turned_over, left_out):
    """Holes, faces wound the wrong way, and a fin at which three faces meet, in a ball."""
    rng = np.random.default_rng(left_out)
    faces = shapes.sphere(1, 3).faces.copy()
    if turned_over:
        some = rng.integers(0, len(faces), 40)
        faces[some] = faces[some][:, ::-1]
    faces = np.delete(faces, rng.integers(0, len(faces), left_out), axis=0)
    assert np.array_equal(face_neighbours(faces), neighbours_by_dictionary(faces))
    fin = np.vstack([faces, [[faces[5, 0], faces[5, 1], faces.max() + 1]]]).astype(np.int32)
    assert np.array_equal(face_neighbours(fin), neighbours_by_dictionary(fin))
