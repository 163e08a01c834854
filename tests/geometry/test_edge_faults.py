"""Open, crowded and flipped edges, loops of open edges and how wide they gape."""

import numpy as np
import pytest
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.few import few
from viewer.geometry.edge_faults import find_edge_faults, find_open_loops


def independent(faces):
    """Edges used once and more than twice by trimesh's own listing; flipped by direction."""
    edges = np.sort(trimesh.geometry.faces_to_edges(faces), axis=1)
    unique, uses = np.unique(edges, axis=0, return_counts=True)
    directed, same = np.unique(trimesh.geometry.faces_to_edges(faces), axis=0, return_counts=True)
    twice = {tuple(edge) for edge in unique[uses == 2].tolist()}
    flipped = {tuple(edge) for edge in np.sort(directed[same == 2], axis=1).tolist()} & twice
    return (
        {tuple(edge) for edge in unique[uses == 1].tolist()},
        {tuple(edge) for edge in unique[uses > 2].tolist()},
        flipped,
    )


def as_sets(found):
    return tuple(
        {tuple(sorted(edge)) for edge in edges.tolist()}
        for edges in (found.open, found.crowded, found.flipped)
    )


def test_cube_row_31():
    """Row 31 (CALC): a cube has no faulty edge; one face deleted leaves 3 open ones."""
    cube = trimesh.creation.box((20, 20, 20))
    assert as_sets(find_edge_faults(cube.faces)) == (set(), set(), set())
    found = find_edge_faults(cube.faces[1:])
    assert len(found.open) == 3
    assert set(np.unique(found.open)) == set(cube.faces[0])
    assert len(found.crowded) == len(found.flipped) == 0


def test_one_face_turned_makes_three_flipped_edges():
    faces = trimesh.creation.icosphere(2).faces.copy()
    faces[7] = faces[7, ::-1]
    found = find_edge_faults(faces)
    assert as_sets(found)[2] == {
        tuple(sorted(e)) for e in (faces[7, :2], faces[7, 1:], faces[7, ::2])
    }
    assert 7 in found.flipped_faces
    assert len(found.flipped_faces) == 4
    assert len(found.open) == len(found.crowded) == 0


def test_two_cubes_on_one_edge_share_a_crowded_edge():
    """Like the shared mesh of two cubes joined at one edge: 1 edge with four faces."""
    one, other = trimesh.creation.box((1, 1, 1)), trimesh.creation.box((1, 1, 1))
    other.apply_translation((1, 1, 0))
    both = trimesh.util.concatenate([one, other])
    both.merge_vertices()
    found = find_edge_faults(both.faces)
    assert len(found.crowded) == 1
    assert len(found.crowded_faces) == 4
    x, y = both.vertices[found.crowded[0], :2].T
    assert x.tolist() == y.tolist() == [0.5, 0.5]


def test_open_edges_run_as_their_face_does():
    found = find_edge_faults(np.array([[4, 2, 9]]))
    assert {tuple(edge) for edge in found.open.tolist()} == {(4, 2), (2, 9), (9, 4)}
    assert found.open_faces.tolist() == [0]


def test_a_face_that_names_a_vertex_twice_has_no_edges():
    assert as_sets(find_edge_faults(np.array([[0, 1, 1], [2, 2, 2]]))) == (set(), set(), set())
    assert as_sets(find_edge_faults(np.zeros((0, 3), np.int32))) == (set(), set(), set())


@given(st.integers(0, 10**6), st.integers(4, 60))
@settings(max_examples=few(20, 60), deadline=None)
def test_any_heap_of_faces_against_an_independent_listing(seed, vertices):
    random = np.random.default_rng(seed)
    faces = np.array([random.choice(vertices, 3, replace=False) for _ in range(80)])
    assert as_sets(find_edge_faults(faces)) == independent(faces)


def test_many_edges_at_one_vertex():
    """A fan of 200 faces about vertex 0, each rim edge open, the last spoke left open too."""
    faces = np.array([[0, k, k + 1] for k in range(1, 201)])
    assert as_sets(find_edge_faults(faces)) == independent(faces)


def hole_in_plate(radius, count=720):
    """Open edges of a round hole."""
    turn = 2 * np.pi * np.arange(count) / count
    rim = np.stack([radius * np.cos(turn), radius * np.sin(turn), 0 * turn], axis=1)
    return rim, np.stack([np.arange(count), np.roll(np.arange(count), -1)], axis=1)


def test_width_of_a_round_hole_is_its_radius():
    rim, edges = hole_in_plate(7.0)
    loops = find_open_loops(rim + 100.0, edges)
    assert loops.count == 1
    assert loops.length_mm[0] == pytest.approx(2 * np.pi * 7, rel=1e-4)
    assert loops.width_mm[0] == pytest.approx(7, rel=1e-4)


def test_width_of_a_slit_is_its_gap():
    """A slit 50 long and 0.02 wide: 2·(50·0.02)/(2·50.02) = 0.02 to one part in 2500 (CALC)."""
    corners = np.array([(0, 0, 0), (50, 0, 0), (50, 0.02, 0), (0, 0.02, 0)], float)
    loops = find_open_loops(corners, np.array([(0, 1), (1, 2), (2, 3), (3, 0)]))
    assert loops.width_mm[0] == pytest.approx(0.02, rel=1e-3)


def test_separate_holes_are_counted_and_a_lone_edge_is_as_wide_as_it_is_long():
    one, edges = hole_in_plate(1.0, 12)
    vertices = np.concatenate([one, one + 10, [(0, 0, 50), (0, 0, 53)]])
    loops = find_open_loops(vertices, np.concatenate([edges, edges + 12, [(24, 25)]]))
    assert loops.count == 3
    assert sorted(np.bincount(loops.loop_of_edge).tolist()) == [1, 12, 12]
    assert loops.width_mm[loops.loop_of_edge[-1]] == pytest.approx(3)


def test_no_open_edges_no_loops():
    assert find_open_loops(np.zeros((0, 3)), np.zeros((0, 2), np.int32)).count == 0
