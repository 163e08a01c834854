"""Faces without area, faces that are there twice."""

import numpy as np
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.few import few
from viewer.geometry.face_faults import find_face_faults
from viewer.geometry.mesh import Mesh


def test_a_sound_sphere_has_none():
    sphere = trimesh.creation.icosphere(3)
    found = find_face_faults(Mesh(sphere.vertices, sphere.faces))
    assert len(found.degenerate) == len(found.duplicate) == len(found.opposite) == 0


def test_each_way_to_have_no_area():
    vertices = [(0, 0, 0), (1, 0, 0), (0, 1, 0), (3, 0, 0), (1, 0, 0)]
    faces = [[0, 1, 2], [0, 1, 3], [0, 1, 1], [1, 4, 2], [2, 2, 2]]
    assert find_face_faults(Mesh(vertices, faces)).degenerate.tolist() == [1, 2, 3, 4]


def test_twins_are_counted_from_the_second_on_and_told_by_their_side():
    faces = [[0, 1, 2], [3, 4, 5], [1, 2, 0], [2, 1, 0], [5, 4, 3], [0, 1, 3]]
    vertices = np.random.default_rng(1).uniform(size=(6, 3))
    found = find_face_faults(Mesh(vertices, faces))
    assert found.duplicate.tolist() == [2, 3, 4]
    assert found.opposite.tolist() == [3, 4]


@given(st.integers(0, 10**6))
@settings(max_examples=few(20, 60), deadline=None)
def test_any_heap_of_faces_against_sorting(seed):
    random = np.random.default_rng(seed)
    faces = np.array([random.choice(7, 3, replace=False) for _ in range(40)])
    found = find_face_faults(Mesh(random.uniform(size=(7, 3)), faces))
    first = np.unique(np.sort(faces, axis=1), axis=0, return_index=True)[1]
    assert found.duplicate.tolist() == sorted(set(range(40)) - set(first.tolist()))


def test_slivers_are_told_by_their_height_over_the_longest_side():
    """Heights 0.0009 and 0.0011 over a side of 10, of a needle and of a cap; SLIVER_MM is 0.001."""
    for apex in (0.0, 5.0):
        vertices = [(0, 0, 0), (10, 0, 0), (apex, 0.0009, 0), (apex, 0.0011, 0)]
        found = find_face_faults(Mesh(vertices, [[0, 1, 2], [0, 1, 3], [0, 1, 1]]))
        assert found.sliver.tolist() == [0]
        assert found.degenerate.tolist() == [2]
