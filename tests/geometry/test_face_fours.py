"""A ball round each four holds its faces; their corners are kept within half a step of it."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.few import few
from viewer.errors import Cancelled
from viewer.geometry.face_fours import STEPS, face_fours
from viewer.progress import Progress

numbers = st.lists(st.floats(-100, 100, width=32), min_size=9, max_size=90)


def kept_corners(fours) -> np.ndarray:
    """(4k, 3, 3) float64, what fills up the last four included."""
    steps = fours.corners.view(np.int8).reshape(-1, 3, 3, 4).astype(np.float64)
    step_mm = fours.radius_mm.astype(np.float64)[:, None, None, None] / STEPS
    middle = np.column_stack([fours.x, fours.y, fours.z]).astype(np.float64)
    places = np.moveaxis(steps, 3, 1) * step_mm + middle[:, None, None, :]
    return places.reshape(-1, 3, 3)


@settings(max_examples=few(66, 200), deadline=None)
@given(numbers)
def test_a_ball_holds_its_four_and_corners_are_near(given_numbers):
    faces = np.array(given_numbers[: len(given_numbers) // 9 * 9], np.float64).reshape(-1, 3, 3)
    fours = face_fours(faces)
    filled = np.concatenate([faces, np.repeat(faces[-1:, :1], -len(faces) % 4, 0).repeat(3, 1)])
    of_each = filled.reshape(-1, 12, 3)
    middle = np.column_stack([fours.x, fours.y, fours.z]).astype(np.float64)
    away = np.linalg.norm(of_each - middle[:, None], axis=2)
    assert (away <= fours.radius_mm.astype(np.float64)[:, None] + 1e-30).all()
    # About the middle of its box, no ball is larger than half the box's diagonal.
    half = 0.5 * np.linalg.norm(np.ptp(of_each, axis=1), axis=1)
    assert (fours.radius_mm <= half * (1 + 1e-4) + 1e-4).all()
    allowed = np.repeat(fours.radius_mm, 4)[:, None, None] / STEPS * (0.5 + 1e-3) + 1e-30
    assert (np.abs(kept_corners(fours) - filled) <= allowed).all()


def test_a_cancel_is_heard():
    progress = Progress()
    progress.cancel()
    with pytest.raises(Cancelled):
        face_fours(np.zeros((1, 3, 3)), progress)
