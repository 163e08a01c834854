"""Moves and roads against the check values, rows 33 to 36."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from viewer.shop.extrusion import (
    fed_speed_mm_s,
    filament_area_mm2,
    filament_length_mm,
    flow_mm3_s,
    mass_g,
    road_area_mm2,
)
from viewer.shop.motion import move_time_s, pace_s_mm

POSITIVE = st.floats(0.01, 1000.0)


def test_row_33_filament():
    """CALC: 1.75 mm, 1.24 g/cm³; 10 cm³ weigh 12.4 g and are 4.158 m; 1 kg is 335 m."""
    assert filament_area_mm2(1.75) == pytest.approx(2.4053, abs=5e-5)
    assert mass_g(10_000, 1.24) == pytest.approx(12.4)
    assert filament_length_mm(10_000, 1.75) == pytest.approx(4158, abs=0.6)
    kilogram_mm3 = 1000 / 1.24 * 1000
    assert mass_g(kilogram_mm3, 1.24) == pytest.approx(1000)
    assert filament_length_mm(kilogram_mm3, 1.75) == pytest.approx(335_000, abs=500)


def test_row_34_road_and_flow():
    """CALC on the MEM section: w 0.45, t 0.2, v 60."""
    section = road_area_mm2(0.45, 0.2)
    assert section == pytest.approx(0.08142, abs=5e-6)
    assert flow_mm3_s(section, 60) == pytest.approx(4.885, abs=5e-4)


def test_row_35_time_of_a_volume():
    """CALC: 100 cm³ at 5 mm³/s take 5.556 h."""
    section = road_area_mm2(0.45, 0.2)
    speed = fed_speed_mm_s(1e6, section, 5.0, 50.0)
    assert flow_mm3_s(section, speed) == pytest.approx(5.0)
    length_mm = 100_000 / section
    assert length_mm / speed / 3600 == pytest.approx(5.556, abs=5e-4)


def test_row_36_moves():
    """CALC: 60 mm/s, 1000 mm/s²."""
    assert move_time_s(10, 60, 1000) == pytest.approx(0.2267, abs=5e-5)
    assert move_time_s(2, 60, 1000) == pytest.approx(0.0894, abs=5e-5)
    assert move_time_s(0, 60, 1000) == 0


def test_a_move_at_the_length_that_just_reaches_its_speed_is_the_same_by_both_formulas():
    length = 60**2 / 1000
    assert move_time_s(length, 60, 1000) == pytest.approx(2 * np.sqrt(length / 1000), rel=1e-14)


@given(length=POSITIVE, speed=POSITIVE, acceleration=st.floats(10, 10_000))
def test_the_speed_over_that_time_covers_the_length(length, speed, acceleration):
    """Independent: the speed profile, integrated by scipy, gives the length back."""
    took = float(move_time_s(length, speed, acceleration))

    def speed_at(t):
        return min(acceleration * t, speed, acceleration * (took - t))

    top = min(speed, acceleration * took / 2)
    covered, _ = quad(speed_at, 0, took, points=[top / acceleration, took - top / acceleration])
    assert covered == pytest.approx(length, rel=1e-6)


@given(length=POSITIVE, longer=POSITIVE, speed=POSITIVE, faster=POSITIVE)
def test_longer_moves_take_longer_but_less_for_each_mm(length, longer, speed, faster):
    assert move_time_s(length + longer, speed, 1000) >= move_time_s(length, speed, 1000)
    assert pace_s_mm(length + longer, speed, 1000) <= pace_s_mm(length, speed, 1000) * (1 + 1e-12)
    assert move_time_s(length, speed + faster, 1000) <= move_time_s(length, speed, 1000) + 1e-12


def test_a_road_narrower_than_it_is_high_has_the_section_of_an_ellipse():
    """CALC: at w = t both formulas give π·t²/4."""
    assert road_area_mm2(0.2, 0.2) == pytest.approx(np.pi / 4 * 0.04)
    assert road_area_mm2(0.1, 0.2) == pytest.approx(np.pi / 4 * 0.02)
