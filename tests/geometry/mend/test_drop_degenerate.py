"""Faces without area go, and what was closed stays closed, of the same shape and volume."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.few import few
from tests.geometry.mend.judges import accepted
from tests.shapes import cube, sphere
from viewer.geometry.mend.drop_degenerate import drop_degenerate, thin_faces
from viewer.geometry.mesh import Mesh
from viewer.geometry.mesh_faults import find_mesh_faults

THIN_MM = 1e-5


def with_a_cap(mesh: Mesh, face: int, share: float) -> Mesh:
    """An edge of a face gets a corner on that side only, and the crack a face of no height."""
    a, b, c = mesh.faces[face]
    middle = len(mesh.vertices_mm)
    place = (1.0 - share) * mesh.vertices_mm[a] + share * mesh.vertices_mm[b]
    points = np.append(mesh.vertices_mm, [place], axis=0)
    more = np.array([(a, middle, c), (middle, b, c), (a, b, middle)], np.int32)
    return Mesh(points, np.concatenate([np.delete(mesh.faces, face, axis=0), more]))


def with_a_needle(mesh: Mesh, vertex: int, step_mm: float) -> Mesh:
    """A corner is split in two a hair apart: two needles fill the cut between them."""
    around = np.flatnonzero((mesh.faces == vertex).any(axis=1))
    corner = mesh.faces[around[0]]
    k = int(np.flatnonzero(corner == vertex)[0])
    first, last = int(corner[(k + 1) % 3]), int(corner[(k + 2) % 3])
    copy = len(mesh.vertices_mm)
    middle = mesh.corners_mm[around[0]].mean(axis=0) - mesh.vertices_mm[vertex]
    place = mesh.vertices_mm[vertex] + step_mm * middle / np.linalg.norm(middle)
    faces = mesh.faces.copy()
    faces[around[0]][k] = copy
    more = np.array([(vertex, first, copy), (vertex, copy, last)], np.int32)
    return Mesh(np.append(mesh.vertices_mm, [place], axis=0), np.concatenate([faces, more]))


@settings(max_examples=few(13, 40), deadline=None)
@given(seed=st.integers(0, 2**32 - 1), caps=st.integers(0, 5), needles=st.integers(0, 5))
def test_planted_caps_and_needles_go(seed, caps, needles):
    rng = np.random.default_rng(seed)
    ball = sphere(10.0, 3)
    part = ball
    for _ in range(needles):
        part = with_a_needle(part, int(rng.integers(len(ball.vertices_mm))), 0.5 * THIN_MM)
    for _ in range(caps):
        whole = np.flatnonzero(~thin_faces(part, THIN_MM))
        part = with_a_cap(part, int(rng.choice(whole)), float(rng.uniform(0.2, 0.8)))
    assert accepted(part) == ""
    done = drop_degenerate(part, THIN_MM).mesh
    assert accepted(done) == ""
    assert not thin_faces(done, THIN_MM).any()
    assert done.face_count <= part.face_count - 2 * needles
    # Nothing moved by more than the hair in a pass: the volume changes by less than its area's.
    area = float(ball.face_areas_mm2.sum())
    assert abs(done.signed_volume_mm3 - part.signed_volume_mm3) < 10 * THIN_MM * area


def test_a_face_that_names_a_corner_twice_goes_and_the_rest_stays():
    part = cube(20.0)
    a, b, _ = part.faces[0]
    faulty = Mesh(part.vertices_mm, np.concatenate([part.faces, [(a, a, b), (b, b, b)]]))
    done = drop_degenerate(faulty, THIN_MM)
    np.testing.assert_array_equal(done.faces, part.faces)
    assert done.mesh.signed_volume_mm3 == pytest.approx(8000.0)


def test_sound_parts_stay_the_very_same_and_thin_ones_are_told_by_height():
    part = cube(20.0)
    assert drop_degenerate(part, THIN_MM).mesh is part
    assert not len(find_mesh_faults(part).faces.degenerate)
    for height, is_thin in ((0.9e-5, True), (1.1e-5, False)):
        face = Mesh([(0, 0, 0), (10, 0, 0), (5, height, 0)], [(0, 1, 2)])
        assert thin_faces(face, THIN_MM).tolist() == [is_thin]
