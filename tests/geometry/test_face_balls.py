"""A ball round a face holds its corners and is no larger than need be."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from viewer.geometry.face_balls import face_balls

corners = st.lists(st.floats(-100, 100, width=32), min_size=9, max_size=9)


@settings(max_examples=300)
@given(corners)
def test_all_corners_lie_in_the_ball(numbers):
    face = np.array(numbers, np.float64).reshape(1, 3, 3)
    balls = face_balls(face)
    middle = np.array([balls.x[0], balls.y[0], balls.z[0]], np.float64)
    away = np.linalg.norm(face[0] - middle, axis=1)
    assert (away <= np.float64(balls.radius_mm[0]) + 1e-30).all()
    # No ball round three points is smaller than half their widest distance, nor need it be larger
    # than 1/√3 of it (Jung 1901, for the plane).
    widest = max(np.linalg.norm(face[0, i] - face[0, j]) for i, j in ((0, 1), (1, 2), (2, 0)))
    assert balls.radius_mm[0] <= widest / np.sqrt(3) * (1 + 1e-4) + 1e-4


def test_known_faces():
    """CALC: equilateral side 2: 2/√3; right-angled 3-4-5: 2.5; blunt: half its longest side."""
    faces = np.array(
        [
            [[0, 0, 0], [2, 0, 0], [1, np.sqrt(3), 0]],
            [[0, 0, 1], [3, 0, 1], [0, 4, 1]],
            [[0, 0, 0], [10, 0, 0], [5, 1, 0]],
            [[1, 1, 1], [1, 1, 1], [1, 1, 1]],
        ]
    )
    balls = face_balls(faces)
    assert balls.radius_mm == pytest.approx([2 / np.sqrt(3), 2.5, 5, 0], rel=1e-5)
    assert np.column_stack(balls[:3]) == pytest.approx(
        np.array([[1, 1 / np.sqrt(3), 0], [1.5, 2, 1], [5, 0, 0], [1, 1, 1]]), abs=1e-5
    )


@pytest.mark.parametrize("base", [1e-3, 1e-6, 1e-9, 0.0])
def test_a_needle_of_two_long_sides(base):
    """CALC: half its long side, however thin it is."""
    balls = face_balls(np.array([[[0, 0, 0], [30, 0.5 * base, 0], [30, -0.5 * base, 0]]]))
    assert balls.radius_mm == pytest.approx(15, rel=1e-5)
