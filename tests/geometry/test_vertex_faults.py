"""Corners in which surfaces meet only in a point."""

import networkx
import numpy as np
import pytest
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.few import few
from viewer.geometry.face_neighbours import face_neighbours
from viewer.geometry.mesh import Mesh
from viewer.geometry.mesh_health import check_mesh
from viewer.geometry.vertex_faults import find_split_vertices


def found(faces, count=None):
    faces = np.asarray(faces, np.int32)
    count = int(faces.max()) + 1 if count is None else count
    return find_split_vertices(faces, face_neighbours(faces), count).tolist()


def independent(faces):
    """Vertices whose faces, joined where they share an edge at it, fall apart (networkx)."""
    split = []
    for v in np.unique(faces):
        graph = networkx.Graph()
        for f in np.flatnonzero((faces == v).any(axis=1)):
            a, b = (int(w) for w in faces[f] if w != v)
            graph.add_edge(("rim", a), ("rim", b))
        split += [int(v)] * (networkx.number_connected_components(graph) > 1)
    return split


def test_sound_shapes_have_none():
    for made in (trimesh.creation.icosphere(3), trimesh.creation.torus(20, 5)):
        assert found(made.faces) == []


def test_two_cubes_on_one_corner_meet_in_a_point_and_on_one_edge_they_do_not():
    for shift, wanted in (((1, 1, 1), 1), ((1, 1, 0), 0)):
        other = trimesh.creation.box((1, 1, 1))
        other.apply_translation(shift)
        both = trimesh.util.concatenate([trimesh.creation.box((1, 1, 1)), other])
        both.merge_vertices()
        split = found(both.faces)
        assert len(split) == wanted
        if wanted:
            assert both.vertices[split[0]].tolist() == [0.5, 0.5, 0.5]
            report = check_mesh(Mesh(both.vertices * 20, both.faces))
            (fault,) = [one for one in report.faults if one.kind == "nonmanifold_vertices"]
            assert (fault.from_mm, fault.to_mm) == pytest.approx((20, 20))
            assert fault.places[0].point_mm == pytest.approx([10, 10, 10])
            assert report.verdict == "printable with care"


@given(st.integers(0, 10**6), st.integers(4, 40))
@settings(max_examples=few(26, 80), deadline=None)
def test_any_heap_of_faces_against_a_graph_library(seed, vertices):
    random = np.random.default_rng(seed)
    faces = np.array([random.choice(vertices, 3, replace=False) for _ in range(40)])
    assert found(faces) == independent(faces)


def test_a_face_that_names_a_vertex_twice_is_left_out():
    assert found([[0, 1, 2], [2, 2, 3], [3, 4, 4]]) == []
    assert found(np.zeros((0, 3)), 0) == []
