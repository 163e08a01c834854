"""A fold planted into a ball goes, the ball stays a ball; what is no small fold is left alone."""

import numpy as np
import pytest

from tests.geometry.mend.judges import accepted
from tests.shapes import cube, joined, moved, sphere
from viewer.errors import Cancelled
from viewer.geometry.mend.smooth_folds import own_crossings, smooth_folds
from viewer.geometry.mesh import Mesh
from viewer.progress import Progress


def with_fold(ball: Mesh, vertex: int, inward_mm: float) -> Mesh:
    """One corner is pushed past its neighbours, sideways through the faces beyond."""
    points = ball.vertices_mm.copy()
    out = points[vertex] / np.linalg.norm(points[vertex])
    other = np.cross(out, [0.3, 0.5, 0.8])
    points[vertex] += inward_mm * 2.0 * other / np.linalg.norm(other) - 0.1 * inward_mm * out
    return Mesh(points, ball.faces)


@pytest.mark.parametrize("vertex", [700, 1500, 2100])
def test_a_fold_is_cut_out_and_closed_as_the_ball_was(vertex):
    ball = sphere(10.0, 4)
    part = with_fold(ball, vertex, 1.0)
    assert len(own_crossings(part)) > 0
    done = smooth_folds(part)
    assert accepted(done.mesh) == ""
    assert len(own_crossings(done.mesh)) == 0
    assert done.mesh.signed_volume_mm3 == pytest.approx(ball.signed_volume_mm3, rel=0.002)
    away = np.linalg.norm(done.vertices_mm, axis=1)
    assert away.min() > 9.8
    assert away.max() < 10.2
    # Far from the fold every face is what it was.
    far = np.linalg.norm(part.corners_mm.mean(axis=1) - ball.vertices_mm[vertex], axis=1) > 6.0
    kept = {tuple(map(tuple, face)) for face in done.mesh.corners_mm.tolist()}
    assert all(tuple(map(tuple, face)) in kept for face in part.corners_mm[far].tolist())


def test_bodies_that_overlap_are_no_folds_and_sound_parts_stay():
    for part in (joined(cube(20), moved(cube(20), (10, 10, 10))), sphere(10.0, 3)):
        assert len(own_crossings(part)) == 0
        np.testing.assert_array_equal(smooth_folds(part).faces, part.faces)


def test_a_cancel_is_heard():
    stopped = Progress()
    stopped.cancel()
    with pytest.raises(Cancelled):
        smooth_folds(with_fold(sphere(10.0, 4), 700, 1.0), stopped)
