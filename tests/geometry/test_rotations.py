"""Turns against SciPy's, and by what turns have in common."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays
from scipy.spatial.transform import Rotation

from viewer.geometry.rotations import (
    quarter_turns,
    turn_angle_deg,
    turn_of_vector,
    turns_of_quaternions,
)

PART = st.floats(-3.0, 3.0, allow_subnormal=False)


@given(arrays(float, 3, elements=PART))
def test_a_vector_turns_as_in_scipy(vector):
    expected = Rotation.from_rotvec(vector).as_matrix()
    assert turn_of_vector(vector) == pytest.approx(expected, abs=1e-12)


@given(arrays(float, (3, 4), elements=PART).filter(lambda q: np.linalg.norm(q, axis=1).min() > 0.1))
def test_quaternions_turn_as_in_scipy(quaternions):
    expected = Rotation.from_quat(quaternions).as_matrix()
    assert turns_of_quaternions(quaternions) == pytest.approx(expected, abs=1e-12)


def test_the_24_turns_of_a_cube():
    turns = quarter_turns()
    assert turns.shape == (24, 3, 3)
    assert np.array_equal(turns[0], np.eye(3))
    ours = {tuple(np.round(turn).astype(int).ravel()) for turn in turns}
    group = Rotation.create_group("O").as_matrix()
    assert ours == {tuple(np.round(turn).astype(int).ravel()) for turn in group}


@given(arrays(float, 3, elements=PART))
def test_the_angle_is_that_of_scipy(vector):
    turn = turn_of_vector(vector)
    expected = np.degrees(Rotation.from_matrix(turn).magnitude())
    assert turn_angle_deg(turn) == pytest.approx(expected, abs=1e-5)


@pytest.mark.parametrize("angle_deg", [0.0, 1e-7, 1e-3, 1.0, 90.0, 179.999, 180.0])
def test_the_angle_is_exact_at_both_ends(angle_deg):
    axis = np.array([2.0, -1.0, 2.0]) / 3.0
    turn = turn_of_vector(np.radians(angle_deg) * axis)
    assert turn_angle_deg(turn) == pytest.approx(angle_deg, abs=1e-9, rel=1e-9)
