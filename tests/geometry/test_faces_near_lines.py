"""No face that a line meets is passed over, and few that none meets are looked at."""

import numpy as np
import pytest

from tests import shapes
from viewer.geometry.column_grid import grid_over
from viewer.geometry.face_fours import face_fours
from viewer.geometry.faces_near_lines import faces_near_lines


def places_of_lines(grid) -> np.ndarray:
    """(ny, nx, 2) float64, x and y."""
    row, column = np.mgrid[: grid.ny, : grid.nx]
    x = grid.x0_mm + grid.pitch_mm * (column + grid.shift_u[row])
    y = grid.y0_mm + grid.pitch_mm * (row + grid.shift_v[row])
    return np.stack([x, y], axis=-1)


def boxes_met(corners, lines) -> np.ndarray:
    """(m,) bool: a line stands in the box round each face, seen from above."""
    low, high = corners[:, :, :2].min(axis=1), corners[:, :, :2].max(axis=1)
    flat = lines.reshape(-1, 2)
    return ((flat >= low[:, None]) & (flat <= high[:, None])).all(axis=2).any(axis=1)


@pytest.mark.parametrize("size_mm", [0.05, 1.0, 30.0])
def test_random_faces_of_every_size(size_mm):
    rng = np.random.default_rng(int(100 * size_mm))
    for _ in range(20):
        count = int(rng.integers(1, 400))
        corners = rng.uniform(-20, 20, (count, 1, 3)) + rng.normal(0, size_mm, (count, 3, 3))
        turn, _ = np.linalg.qr(rng.normal(size=(3, 3)))
        turned = corners @ turn.T
        # The box of the lines need not hold all faces: that of the overhangs does not.
        grid = grid_over([-15, -12], [16, 12], int(rng.integers(3, 40)), rng)
        near = faces_near_lines(face_fours(corners), count, turn, grid)
        assert (np.diff(near) > 0).all()
        met = np.flatnonzero(boxes_met(turned, places_of_lines(grid)))
        assert np.isin(met, near).all()


def test_few_faces_of_a_fine_surface_are_looked_at():
    """Besides those whose box meets a line, some that reach over two rows or by the slack."""
    ball = shapes.sphere(10, 6)
    turn, _ = np.linalg.qr(np.random.default_rng(1).normal(size=(3, 3)))
    grid = grid_over([-10, -10], [10, 10], 24, np.random.default_rng(2))
    near = faces_near_lines(face_fours(ball.corners_mm), len(ball.faces), turn, grid)
    met = np.count_nonzero(boxes_met(ball.corners_mm @ turn.T, places_of_lines(grid)))
    assert met <= len(near) <= 1.1 * met
    assert len(near) < 0.1 * len(ball.faces)
