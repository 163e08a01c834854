"""Typed angles and turns about the platform's axes agree with the pose of the command line."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from viewer.geometry.pose import Pose, rotation
from viewer.window.turn_angles import (
    pose_of_angles,
    standing_on,
    turn_about_axis,
    turned,
    typed_angles_deg,
)

angle = st.floats(-179.0, 179.0)
small = st.floats(-1.0, 1.0)
direction = st.tuples(small, small, small).filter(lambda v: np.linalg.norm(v) > 0.1)


@given(angle, st.floats(-89.0, 89.0), angle)
def test_typed_angles_come_back(tilt_x, tilt_y, spin):
    assert typed_angles_deg(pose_of_angles(tilt_x, tilt_y, spin)) == pytest.approx(
        (tilt_x, tilt_y, spin), abs=1e-6
    )


@pytest.mark.parametrize("axis", [0, 1])
@given(angle=st.floats(-89.0, 89.0), spin=angle)
def test_a_tilt_about_one_axis_is_that_turn(axis, angle, spin):
    # CALC: the shortest turn of Rx(−a)·z onto z is Rx(a), so R = Rz(spin)·Rx(a)
    tilts = [0.0, 0.0]
    tilts[axis] = angle
    expected = turn_about_axis(2, spin) @ turn_about_axis(axis, angle)
    assert rotation(pose_of_angles(*tilts, spin)) == pytest.approx(expected, abs=1e-9)


@given(direction, angle, st.integers(0, 2), angle)
def test_a_turn_multiplies_from_the_left(up, spin, axis, by):
    pose = Pose(up, spin)
    expected = turn_about_axis(axis, by) @ rotation(pose)
    assert rotation(turned(pose, axis, by)) == pytest.approx(expected, abs=1e-7)


@pytest.mark.parametrize("axis", range(3))
def test_four_quarter_turns_bring_back_the_very_same_pose(axis):
    pose = Pose()
    for _ in range(4):
        pose = turned(pose, axis, 90.0)
    assert pose == Pose()


@given(direction, angle, direction)
def test_standing_on_a_face_points_it_down_by_the_shortest_turn(up, spin, normal):
    pose = Pose(up, spin)
    normal = np.asarray(normal) / np.linalg.norm(normal)
    before, after = rotation(pose), rotation(standing_on(pose, normal))
    assert after @ normal == pytest.approx([0, 0, -1], abs=1e-7)
    # CALC: the shortest turn has the angle between the face's direction and straight down.
    turn = after @ before.T
    cosine = np.clip(-(before @ normal)[2], -1, 1)
    assert (np.trace(turn) - 1) / 2 == pytest.approx(cosine, abs=1e-6)


def test_a_face_that_points_straight_up_is_turned_over():
    pose = standing_on(Pose(), np.array([0.0, 0.0, 1.0]))
    assert pose.up == (0.0, 0.0, -1.0)
