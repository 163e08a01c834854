"""Wedges of material at edges of more than two faces, however their corners are rounded."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.shapes import box, joined
from viewer.geometry.face_neighbours import face_neighbours
from viewer.geometry.merge_vertices import merge_vertices
from viewer.geometry.mesh import Mesh
from viewer.geometry.solid_neighbours import join_at_crowded_edges


def pairs_about(angles_deg, outward, reverse):
    """Faces about the edge from (0, 0, 0) to (0, 0, 1); which of them are joined across it.

    outward : +1 where material ends at the face as one goes round anticlockwise from above, −1
        where it begins; reverse : the upper end of the edge has the lower number
    """
    lower, upper = (1, 0) if reverse else (0, 1)
    points, faces = [[0.0, 0.0, float(reverse)], [0.0, 0.0, float(not reverse)]], []
    for k, angle in enumerate(np.radians(angles_deg)):
        points.append([np.cos(angle), np.sin(angle), 0.3 * k])
        # Anticlockwise seen from outside: where material ends a face runs along the edge upwards.
        way = [lower, upper] if outward[k] > 0 else [upper, lower]
        faces.append([*way, k + 2])
    faces = np.array(faces, np.int32)
    joined_to = join_at_crowded_edges(np.array(points), faces, face_neighbours(faces))
    found = set()
    for k, row in enumerate(joined_to):
        found |= {frozenset((k, int(other))) for other in row if other >= 0}
    return found


@given(
    turn=st.floats(0, 360),
    noise=st.lists(st.floats(-1e-5, 1e-5), min_size=2, max_size=2),
    reverse=st.booleans(),
)
@settings(deadline=None)
def test_a_slit_parts_two_wedges_whatever_the_rounding(turn, noise, reverse):
    """Material from 0° to 180° with a slit of no width at 90°: (0, 90) and (90, 180)."""
    angles = np.array([0.0, 90.0 + noise[0], 90.0 + noise[1], 180.0]) + turn
    assert pairs_about(angles, [-1, 1, -1, 1], reverse) == {frozenset((0, 1)), frozenset((2, 3))}


@given(
    turn=st.floats(0, 360),
    noise=st.lists(st.floats(-1e-5, 1e-5), min_size=2, max_size=2),
    reverse=st.booleans(),
)
@settings(deadline=None)
def test_a_sheet_of_no_thickness_is_apart_from_what_it_stands_on(turn, noise, reverse):
    """Material from 180° to 360°, and both sides of a sheet at 90°."""
    angles = np.array([180.0, 90.0 + noise[0], 90.0 + noise[1], 360.0]) + turn
    assert pairs_about(angles, [-1, 1, -1, 1], reverse) == {frozenset((0, 3)), frozenset((1, 2))}


@pytest.mark.parametrize("reverse", [False, True])
def test_wedges_of_two_boxes_that_share_an_edge(reverse):
    angles, outward = np.array([0.0, 90.0, 180.0, 270.0]) + 17.0, [-1, 1, -1, 1]
    assert pairs_about(angles, outward, reverse) == {frozenset((0, 1)), frozenset((2, 3))}


def test_two_boxes_in_one_mesh_are_two_solids():
    pair = joined(box([0] * 3, [10] * 3), box([10, 10, 0], [20, 20, 10]))
    points, index = merge_vertices(pair.vertices_mm)
    mesh = Mesh(points, index[pair.faces])
    neighbours = join_at_crowded_edges(mesh.vertices_mm, mesh.faces, face_neighbours(mesh.faces))
    assert (neighbours >= 0).all()
    first = np.arange(mesh.face_count) < 12
    assert (first[neighbours] == first[:, None]).all()
