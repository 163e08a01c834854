"""Corners in one place become one vertex, whatever their order, and only those."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.few import few
from tests.shapes import cube, sphere
from viewer.errors import Cancelled
from viewer.geometry.mend.merge_near import lowest_of_near, merge_near
from viewer.geometry.mesh import Mesh
from viewer.progress import Progress


def lowest_by_all_pairs(points: np.ndarray, within: float) -> list[int]:
    apart = np.linalg.norm(points[:, None] - points[None], axis=2)
    lowest = list(range(len(points)))
    for _ in points:  # labels walk on until nothing changes
        for i, j in np.argwhere(apart <= within):
            lowest[i] = lowest[j] = min(lowest[i], lowest[j])
    return lowest


@settings(max_examples=few(13, 40), deadline=None)
@given(seed=st.integers(0, 2**32 - 1), count=st.integers(1, 40), flat=st.booleans())
def test_groups_are_those_of_all_pairs(seed, count, flat):
    rng = np.random.default_rng(seed)
    points = np.round(rng.random((count, 3)) * 3.0, 1)  # many in one plane, some in one place
    if flat:
        points[:, 2] = 0.0
    found = lowest_of_near(points, 0.15, Progress())
    assert found.tolist() == lowest_by_all_pairs(points, 0.15)


@pytest.mark.parametrize("noise_mm", [0.0, 2e-6])
def test_a_soup_becomes_one_surface_with_the_corners_of_the_shape(noise_mm):
    ball = sphere(10.0, 4)
    rng = np.random.default_rng(1)
    corners = ball.corners_mm.reshape(-1, 3)
    corners = corners + noise_mm * rng.uniform(-0.5, 0.5, corners.shape)
    soup = Mesh(corners, np.arange(len(corners)).reshape(-1, 3))
    done = merge_near(soup, 4e-6)
    assert len(done.vertices_mm) == len(ball.vertices_mm)
    # Euler: a closed surface without handles has V − E + F = 2, with 3F = 2E (MEM).
    assert len(done.vertices_mm) - done.mesh.face_count // 2 == 2
    np.testing.assert_array_equal(done.origin_face, np.arange(ball.face_count))
    assert np.abs(done.mesh.corners_mm - ball.corners_mm).max() <= noise_mm
    # Each is the first of those that were there.
    assert {tuple(p) for p in done.vertices_mm.tolist()} <= {tuple(p) for p in corners.tolist()}


def test_corners_farther_apart_stay_two_and_sound_parts_the_very_same():
    part = cube(20.0)
    assert merge_near(part, 1e-6).mesh is part
    points = np.concatenate([part.vertices_mm, part.vertices_mm[:1] + np.array([2e-6, 0.0, 0.0])])
    faces = part.faces.copy()
    faces[np.argmax((faces == 0).any(axis=1))][faces[np.argmax((faces == 0).any(axis=1))] == 0] = 8
    split = Mesh(points, faces)
    assert len(merge_near(split, 1e-6).vertices_mm) == 9
    assert len(merge_near(split, 3e-6).vertices_mm) == 8


def test_a_cancel_is_heard():
    stopped = Progress()
    stopped.cancel()
    with pytest.raises(Cancelled):
        lowest_of_near(sphere(10.0, 5).vertices_mm, 1e-6, stopped)
