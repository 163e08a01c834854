"""Camera moves keep what they promise: distance, level horizon, the point under the pointer."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from viewer.window.camera_moves import STEEPEST_DEG, Camera, enclosing, orbit, pan, zoom

degrees = st.floats(-170.0, 170.0)
START = Camera(np.array([30.0, -80.0, 40.0]), np.array([1.0, 2.0, 5.0]), np.array([0.0, 0.0, 1.0]))


def distance(camera):
    return np.linalg.norm(camera.position_mm - camera.focal_mm)


@given(degrees, degrees)
def test_orbit_keeps_distance_and_horizon(sideways, upwards):
    moved = orbit(START, sideways, upwards)
    assert distance(moved) == pytest.approx(distance(START))
    assert np.array_equal(moved.focal_mm, START.focal_mm)
    assert np.array_equal(moved.view_up, [0, 0, 1])
    height = np.degrees(np.arcsin((moved.position_mm - moved.focal_mm)[2] / distance(moved)))
    assert abs(height) <= STEEPEST_DEG + 1e-9


def test_orbit_sideways_turns_about_the_upright_axis():
    moved = orbit(START, 90.0, 0.0)
    away = START.position_mm - START.focal_mm
    assert moved.position_mm - moved.focal_mm == pytest.approx([-away[1], away[0], away[2]])


@pytest.mark.parametrize("side", [1.0, -1.0])
def test_orbit_leaves_straight_above_and_below_without_a_jump(side):
    """From above with +y up in the picture the front is −y; coming down shows the front."""
    above = Camera(np.array([0, 0, side * 10.0]), np.zeros(3), np.array([0.0, side, 0.0]))
    moved = orbit(above, 0.0, -side * 30.0)
    assert moved.position_mm[1] < 0
    assert moved.position_mm[0] == pytest.approx(0.0, abs=1e-9)


@given(st.floats(-50, 50), st.floats(-50, 50))
def test_pan_shifts_in_the_plane_of_the_picture(right, up):
    moved = pan(START, right, up)
    shift = moved.position_mm - START.position_mm
    assert moved.focal_mm - START.focal_mm == pytest.approx(shift)
    assert shift @ (START.focal_mm - START.position_mm) == pytest.approx(0.0, abs=1e-6)
    assert np.linalg.norm(shift) == pytest.approx(np.hypot(right, up), abs=1e-6)


@given(st.floats(0.2, 5.0))
def test_zoom_keeps_the_anchor_on_its_line_of_sight(factor):
    anchor = np.array([4.0, -3.0, 9.0])
    moved = zoom(START, factor, anchor)
    assert distance(moved) == pytest.approx(distance(START) / factor)
    before, after = anchor - START.position_mm, anchor - moved.position_mm
    assert after * factor == pytest.approx(before)


@pytest.mark.parametrize("aspect", [0.5, 1.0, 1.7])
def test_enclosing_just_touches_the_ball(aspect):
    # CALC: a ball of radius r seen under the half angle h lies at r / sin h
    centre, radius = np.array([2.0, 3.0, 4.0]), 50.0
    camera = enclosing(START, centre, radius, 30.0, aspect)
    half = np.arcsin(radius / np.linalg.norm(camera.position_mm - centre))
    upright = np.radians(15.0)
    sideways = np.arctan(np.tan(upright) * aspect)
    assert half == pytest.approx(min(upright, sideways))
