"""Seams of known width are closed if they are within the tolerance, and left alone if not."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.few import few
from tests.geometry.mend.judges import accepted
from tests.shapes import cube, joined, moved, sphere
from viewer.errors import Cancelled
from viewer.geometry.edge_faults import find_edge_faults
from viewer.geometry.mend.join_pairs import join_pairs
from viewer.geometry.mend.sew_seams import sew_seams
from viewer.geometry.mesh import Mesh
from viewer.progress import Progress


def ball_in_two(gap_mm: float) -> Mesh:
    ball = sphere(10.0, 4)
    upper = ball.corners_mm.mean(axis=1)[:, 2] > 0
    low = Mesh(ball.vertices_mm, ball.faces[~upper])
    return joined(low, moved(Mesh(ball.vertices_mm, ball.faces[upper]), (0, 0, gap_mm)))


def cube_with_a_finer_lid(cells: int, lift_mm: float = 0.0) -> Mesh:
    """The upper side of a cube of 20 has its own corners, `cells` along each of its edges."""
    part = cube(20.0)
    open_cube = Mesh(part.vertices_mm, part.faces[part.face_normals[:, 2] < 0.5])
    at = np.linspace(-10.0, 10.0, cells + 1)
    x, y = np.meshgrid(at, at, indexing="ij")
    points = np.stack([x.ravel(), y.ravel(), np.full(x.size, 10.0)], axis=1)
    a = (np.arange(cells)[:, None] * (cells + 1) + np.arange(cells)).ravel()
    b, c, d = a + cells + 1, a + cells + 2, a + 1
    lid = Mesh(points, np.concatenate([np.stack([a, b, c], 1), np.stack([a, c, d], 1)]))
    return joined(open_cube, moved(lid, (0, 0, lift_mm)))


@pytest.mark.parametrize("gap_mm", [0.001, 0.02, 0.049])
def test_a_seam_within_the_tolerance_is_closed(gap_mm):
    part = ball_in_two(gap_mm)
    done = sew_seams(part, 0.05)
    assert accepted(done.mesh) == ""
    # The seam is a circle of radius 10: what closes it adds no more than its area times the gap.
    ball = sphere(10.0, 4).signed_volume_mm3
    assert ball <= done.mesh.signed_volume_mm3 <= ball + np.pi * 100.0 * gap_mm
    assert np.abs(done.mesh.corners_mm - part.corners_mm[done.origin_face]).max() <= gap_mm + 1e-12


def test_a_wider_seam_stays_and_so_does_a_sound_part():
    for cells in (1, 4):
        assert accepted(sew_seams(cube_with_a_finer_lid(cells, 0.049), 0.05).mesh) == ""
        part = cube_with_a_finer_lid(cells, 0.051)
        assert sew_seams(part, 0.05).mesh is part
    assert sew_seams(cube(20.0), 0.05).mesh.face_count == 12


@pytest.mark.parametrize("cells", [1, 2, 5, 16])
def test_faces_are_cut_where_corners_lie_on_their_edges(cells):
    done = sew_seams(cube_with_a_finer_lid(cells), 0.05)
    assert accepted(done.mesh) == ""
    assert done.mesh.signed_volume_mm3 == pytest.approx(8000.0)
    # The lid keeps its 2·n² faces; each of four edges has one face behind it that becomes n.
    assert done.mesh.face_count == 2 * cells**2 + 10 + 4 * (cells - 1)


@pytest.mark.parametrize("turn_deg", [17.0, 63.0])
def test_the_outcome_does_not_depend_on_how_the_part_lies(turn_deg):
    part = cube_with_a_finer_lid(4)
    c, s = np.cos(np.radians(turn_deg)), np.sin(np.radians(turn_deg))
    about_x = np.array([[1, 0, 0], [0, c, -s], [0, s, c]])
    turn = np.array([[c, -s, 0], [s, c, 0], [0, 0, 1]]) @ about_x
    done = sew_seams(Mesh(part.vertices_mm @ turn.T, part.faces), 0.05)
    assert accepted(done.mesh) == ""
    assert done.mesh.signed_volume_mm3 == pytest.approx(8000.0)


@settings(max_examples=few(16, 50), deadline=None)
@given(seed=st.integers(0, 2**32 - 1))
def test_joined_corners_are_never_joined_by_an_edge(seed):
    """Against sets: pairs in their order, skipped where an edge joins any two of the groups."""
    rng = np.random.default_rng(seed)
    count = 12
    pairs = rng.integers(0, count, (15, 2)).astype(np.int32)
    pairs = np.sort(pairs[pairs[:, 0] != pairs[:, 1]], axis=1)
    edges = rng.integers(0, count, (10, 2))
    banned = rng.random(count) < 0.1
    both = np.concatenate([edges, edges[:, ::-1]])
    both = both[np.argsort(both[:, 0], kind="stable")]
    starts = np.concatenate([[0], np.cumsum(np.bincount(both[:, 0], minlength=count))])
    found = join_pairs(pairs, starts, both[:, 1].astype(np.int32), banned, Progress().stop_flag)
    groups = [{v} for v in range(count)]
    for v, w in pairs.tolist():
        one, other = groups[v], groups[w]
        if banned[v] or banned[w] or one is other:
            continue
        if any((a in one and b in other) for a, b in both.tolist()):
            continue
        whole = one | other
        for each in whole:
            groups[each] = whole
    assert found.tolist() == [min(group) for group in groups]


def test_a_cancel_is_heard():
    stopped = Progress()
    stopped.cancel()
    with pytest.raises(Cancelled):
        sew_seams(ball_in_two(0.02), 0.05, stopped)
    assert len(find_edge_faults(ball_in_two(0.02).faces).open) > 0
