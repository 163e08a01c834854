"""What is drawn in place of a large part, and what it is reduced to."""

import numpy as np
import pytest
from scipy.spatial import cKDTree

from tests.shapes import box, torus
from viewer.errors import Cancelled
from viewer.geometry import known_of_mesh
from viewer.geometry.known_of_mesh import get_to_know, get_to_know_pieces, stand_ins_of
from viewer.geometry.mesh import Mesh
from viewer.geometry.reduce_part import WITHIN_MM, reduce_part
from viewer.geometry.stand_in import stand_in
from viewer.progress import Progress

RING = torus(20.0, 6.0, 160, 90)


@pytest.mark.parametrize("most", [500, 3000, 12_000])
def test_a_stand_in_lies_on_the_part_and_knows_its_faces(most):
    found = stand_in(RING, most)
    coarse = found.mesh
    assert most / 3 < coarse.face_count <= most
    cell_mm = np.sqrt(2.0 * RING.face_areas_mm2.sum() / most) * 1.5
    middles = RING.corners_mm.mean(axis=1)
    # Each face lies by the one it stands for, and looks the same way.
    apart = np.linalg.norm(coarse.corners_mm.mean(axis=1) - middles[found.face], axis=1)
    assert apart.max() < 2.0 * cell_mm
    alike = np.einsum("ij,ij->i", coarse.face_normals, RING.face_normals[found.face])
    assert np.average(alike > 0.5, weights=coarse.face_areas_mm2) > 0.97
    # None of the surface is left out: closed form of a torus, 4π²Rr and 2π²Rr².
    far, _ = cKDTree(coarse.vertices_mm).query(RING.vertices_mm)
    assert far.max() < 2.0 * cell_mm
    assert coarse.face_areas_mm2.sum() == pytest.approx(4 * np.pi**2 * 20 * 6, rel=0.1)
    assert coarse.signed_volume_mm3 == pytest.approx(2 * np.pi**2 * 20 * 36, rel=0.2)


def test_the_same_three_corners_are_drawn_once_for_each_side():
    twice = Mesh(RING.vertices_mm, np.concatenate([RING.faces, RING.faces, RING.faces[:, ::-1]]))
    once, both = stand_in(RING, 2000), stand_in(twice, 2000)
    assert both.mesh.face_count <= 2000
    edges = np.sort(both.mesh.faces, axis=1)
    _, count = np.unique(edges, axis=0, return_counts=True)
    assert count.max() == 2
    assert once.mesh.face_count == len(np.unique(once.mesh.faces, axis=0))


def test_small_parts_have_none_and_a_cancel_ends_it():
    assert stand_in(box((0, 0, 0), (1, 2, 3)), 500) is None
    stopped = Progress()
    stopped.cancel()
    with pytest.raises(Cancelled):
        stand_in(RING, 500, stopped)


def test_only_large_parts_get_stand_ins_and_pieces_share_those_of_their_faces(monkeypatch):
    get_to_know(RING)
    assert stand_ins_of(RING) == (None, None)
    monkeypatch.setattr(known_of_mesh, "LARGE_FACES", 10_000)
    monkeypatch.setattr(known_of_mesh, "MOVING_FACES", 900)
    large = Mesh(RING.vertices_mm, RING.faces)
    get_to_know(large)
    resting, moving = stand_ins_of(large)
    assert resting is None
    assert 0 < moving.mesh.face_count <= 900
    monkeypatch.setattr(known_of_mesh, "VAST_FACES", 20_000)
    monkeypatch.setattr(known_of_mesh, "RESTING_FACES", 5000)
    vast = Mesh(RING.vertices_mm, RING.faces)
    get_to_know(vast)
    assert 900 < stand_ins_of(vast).resting.mesh.face_count <= 5000
    pieces = Mesh(vast.vertices_mm, vast.faces)
    get_to_know_pieces(pieces, vast, np.arange(vast.face_count))
    assert stand_ins_of(pieces) is stand_ins_of(vast)


def test_a_reduced_part_keeps_its_surface_and_the_borders_of_its_marks():
    fine = torus(2.0, 0.6, 160, 90)
    classes = (fine.corners_mm.mean(axis=1)[:, 0] > 0.0).astype(np.uint8)
    reduced = reduce_part(fine, classes, 16_000)
    assert 0 < reduced.mesh.face_count <= 16_000
    assert set(np.unique(reduced.face_classes)) == {0, 1}
    # Against the torus itself: every vertex lies within the tolerance of it.
    x, y, z = reduced.mesh.vertices_mm.T
    off = np.abs(np.hypot(np.hypot(x, y) - 2.0, z) - 0.6)
    assert off.max() <= WITHIN_MM
    assert reduced.mesh.signed_volume_mm3 == pytest.approx(fine.signed_volume_mm3, rel=2e-3)
    marked = reduced.mesh.face_areas_mm2[reduced.face_classes == 1].sum()
    assert marked == pytest.approx(fine.face_areas_mm2[classes == 1].sum(), rel=2e-3)


def test_what_is_open_or_would_move_too_far_is_not_reduced():
    none = np.zeros(RING.face_count, np.uint8)
    assert reduce_part(RING, none, 100) is None
    opened = Mesh(RING.vertices_mm, RING.faces[1:])
    assert reduce_part(opened, none[1:], 20_000) is None
