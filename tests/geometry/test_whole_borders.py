"""Distances from a border, and marks smoothed by whole faces, within a face's size."""

import numpy as np
import pytest

from tests.shapes import sphere
from viewer.errors import Cancelled
from viewer.geometry.face_classes import CLASS_A, CLASS_B
from viewer.geometry.mesh import Mesh
from viewer.geometry.whole_borders import border_distances_mm, smooth_marks
from viewer.progress import Progress


def sheet(side=40.0, count=80):
    """A flat square of small right triangles, open all round."""
    line = np.linspace(0.0, side, count + 1)
    x, y = np.meshgrid(line, line, indexing="ij")
    points = np.stack([x.ravel(), y.ravel(), np.zeros(x.size)], axis=1)
    i, j = np.meshgrid(np.arange(count), np.arange(count), indexing="ij")
    a = (i * (count + 1) + j).ravel()
    b, c, d = a + count + 1, a + count + 2, a + 1
    return Mesh(points, np.concatenate([np.stack([a, b, c], 1), np.stack([a, c, d], 1)]))


def capped_ball(angle_deg=40.0):
    ball = sphere(10.0, 6)
    middles = ball.corners_mm.mean(axis=1)
    polar = np.degrees(np.arccos(middles[:, 2] / np.linalg.norm(middles, axis=1)))
    return ball, np.where(polar < angle_deg, CLASS_A, 0).astype(np.uint8)


def test_the_distance_is_that_of_brute_force_on_a_sheet():
    flat = sheet(20.0, 40)
    middles = flat.corners_mm.mean(axis=1)
    classes = np.zeros(flat.face_count, np.uint8)
    classes[(middles[:, 0] < 10.0) & (middles[:, 1] < 7.0)] = CLASS_B
    far_mm = border_distances_mm(flat, classes, 3.2)
    x, y = middles[:, 0] - 10.0, middles[:, 1] - 7.0
    beyond = np.hypot(np.maximum(x, 0.0), np.maximum(y, 0.0))  # from the corner's quarter
    outside = classes == 0
    near = outside & (beyond <= 3.2)
    assert np.allclose(far_mm[near], beyond[near])
    assert np.array_equal(outside & (far_mm <= 3.2), near)


def test_smoothing_keeps_a_straight_run_and_takes_spikes_and_specks():
    flat = sheet()
    middles = flat.corners_mm.mean(axis=1)
    x, y = middles[:, 0], middles[:, 1]
    straight = np.where(x < 20.0, CLASS_A, 0).astype(np.uint8)
    assert np.array_equal(smooth_marks(flat, straight, 3.0), straight)
    rough = straight.copy()
    rough[(np.abs(y - 20.0) < 0.5) & (x < 26.0)] = CLASS_A  # a spike 1 mm wide
    rough[(np.abs(y - 10.0) < 0.5) & (x > 14.0)] = 0  # a notch
    rough[(np.hypot(x - 33.0, y - 33.0)) < 1.0] = CLASS_B  # a speck
    smoothed = smooth_marks(flat, rough, 3.0)
    assert np.all(np.abs(x[smoothed != straight] - 20.0) < 0.5)  # within a face of the line
    assert not np.any(smoothed == CLASS_B)


def test_smoothing_rounds_a_corner():
    flat = sheet()
    middles = flat.corners_mm.mean(axis=1)
    square = (np.abs(middles[:, :2] - 20.0) < 10.0).all(axis=1)
    smoothed = smooth_marks(flat, np.where(square, CLASS_A, 0).astype(np.uint8), 4.0) == CLASS_A
    assert not np.any(smoothed & ~square)
    lost = square & ~smoothed
    # Only near the corners: farther than the radius along a side the run is straight.
    offset = np.abs(middles[:, :2] - 20.0)
    assert lost.any()
    assert np.all(offset[lost].min(axis=1) > 10.0 - 4.0 - 0.5)


def test_nothing_marked_and_all_marked_stay_as_they_are():
    ball = sphere(10.0, 3)
    for value in (0, CLASS_A):
        classes = np.full(ball.face_count, value, np.uint8)
        assert np.all(np.isinf(border_distances_mm(ball, classes, 5.0)))
        assert np.array_equal(smooth_marks(ball, classes, 5.0), classes)


def test_a_cancel_is_heard():
    ball, classes = capped_ball()
    progress = Progress()
    progress.cancel()
    for work in (
        lambda: border_distances_mm(ball, classes, 2.0, progress),
        lambda: smooth_marks(ball, classes, 2.0, progress),
    ):
        with pytest.raises(Cancelled):
            work()
