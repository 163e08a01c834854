"""Poses: R = Rz(spin) · R0 as the command contract words it; the part stands centred on z = 0."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from viewer.errors import RequestProblem
from viewer.geometry.pose import (
    Pose,
    pose_matrix,
    pose_of_rotation,
    posed_vertices_mm,
    rotation,
    shortest_turn_to_z,
)

component = st.floats(-1, 1, allow_nan=False)
directions = st.tuples(component, component, component).filter(lambda v: np.linalg.norm(v) > 1e-3)
spins = st.floats(-720, 720, allow_nan=False)


@given(directions, spins)
def test_rotation_is_proper_and_carries_up_onto_z(up, spin_deg):
    pose = Pose(up, spin_deg)
    matrix = rotation(pose)
    np.testing.assert_allclose(matrix @ matrix.T, np.eye(3), atol=1e-12)
    assert np.linalg.det(matrix) == pytest.approx(1.0, abs=1e-12)
    np.testing.assert_allclose(matrix @ np.asarray(pose.up), [0, 0, 1], atol=1e-12)


@given(directions)
def test_turn_without_spin_is_the_shortest_one(up):
    """The angle of R0 equals the angle between `up` and z (trace R = 1 + 2 cos θ)."""
    up = np.asarray(up) / np.linalg.norm(up)
    trace = np.trace(shortest_turn_to_z(up))
    assert (trace - 1) / 2 == pytest.approx(up[2], abs=1e-9)


@pytest.mark.parametrize("tiny", [1e-3, 1e-6, 1e-9, 1e-12, 1e-15])
def test_shortest_turn_keeps_its_digits_next_to_straight_down(tiny):
    up = np.array([tiny, -2 * tiny, -1.0])
    up /= np.linalg.norm(up)
    matrix = shortest_turn_to_z(up)
    np.testing.assert_allclose(matrix @ matrix.T, np.eye(3), atol=1e-12)
    np.testing.assert_allclose(matrix @ up, [0, 0, 1], atol=1e-12)


def test_straight_down_is_half_a_turn_about_x():
    np.testing.assert_array_equal(rotation(Pose((0, 0, -1))), np.diag([1.0, -1.0, -1.0]))


def test_spin_is_anticlockwise_seen_from_above():
    np.testing.assert_array_equal(rotation(Pose(spin_deg=90)) @ [1, 0, 0], [0, 1, 0])


@given(directions, spins)
def test_pose_of_rotation_gives_the_rotation_back(up, spin_deg):
    matrix = rotation(Pose(up, spin_deg))
    np.testing.assert_allclose(rotation(pose_of_rotation(matrix)), matrix, atol=1e-9)


@given(directions, spins)
def test_posed_part_is_centred_and_stands_on_the_platform(up, spin_deg):
    vertices = np.random.default_rng(1).normal(size=(50, 3)) * [30, 20, 10] + [500, -20, 7]
    posed = posed_vertices_mm(vertices, Pose(up, spin_deg))
    low, high = posed.min(axis=0), posed.max(axis=0)
    np.testing.assert_allclose(low[:2] + high[:2], 0, atol=1e-9)
    assert low[2] == pytest.approx(0, abs=1e-9)
    span = np.linalg.norm(vertices[:, None] - vertices[None], axis=2)
    np.testing.assert_allclose(np.linalg.norm(posed[:, None] - posed[None], axis=2), span)


def test_matrix_is_for_column_vectors():
    matrix = pose_matrix(np.array([[0, 0, 0], [10, 20, 30.0]]), Pose((1, 0, 0)))
    np.testing.assert_allclose(matrix[3], [0, 0, 0, 1])
    np.testing.assert_allclose((matrix @ [10, 0, 0, 1])[2], 10)


@pytest.mark.parametrize("up", [(0, 0, 0), (np.nan, 0, 1), (np.inf, 0, 0)])
def test_a_direction_that_is_none_is_refused_in_one_sentence(up):
    with pytest.raises(RequestProblem, match="build direction"):
        Pose(up)
