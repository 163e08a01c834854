"""The smallest rectangle and the best spin against brute force over all spins."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from viewer.geometry.platform_rectangle import best_spin, smallest_rectangle


def _extents(points, spin_deg):
    angle = np.radians(np.atleast_1d(spin_deg))[:, None]
    x = np.cos(angle) * points[:, 0] - np.sin(angle) * points[:, 1]
    y = np.sin(angle) * points[:, 0] + np.cos(angle) * points[:, 1]
    return np.ptp(x, axis=1), np.ptp(y, axis=1)


CLOUDS = st.integers(0, 10_000).map(
    lambda seed: np.random.default_rng(seed).normal(size=(3 + seed % 40, 2)) * (1.0 + seed % 7, 1.0)
)


@given(CLOUDS)
def test_no_spin_gives_a_smaller_rectangle(points):
    """Brute force over 0.05° steps; the area moves by less than 0.1 % in half a step (CALC)."""
    found = smallest_rectangle(points)
    widths, depths = _extents(points, np.arange(0, 180, 0.05))
    assert found.area_mm2 <= (widths * depths).min() * (1 + 1e-12)
    width, depth = _extents(points, found.spin_deg)
    assert (width[0], depth[0]) == pytest.approx((found.width_mm, found.depth_mm))
    assert found.width_mm >= found.depth_mm * (1 - 1e-12)


@given(CLOUDS, st.floats(0.2, 12), st.floats(0.2, 12))
def test_no_spin_fits_better(points, width_mm, depth_mm):
    found = best_spin(points, width_mm, depth_mm)
    widths, depths = _extents(points, np.arange(0, 180, 0.02))
    over = np.maximum(np.maximum(widths - width_mm, depths - depth_mm), 0).min()
    size = np.ptp(points, axis=0).max() * 2
    assert over - size * np.radians(0.02) <= found.over_mm <= over + 1e-9 * size
    width, depth = _extents(points, found.spin_deg)
    assert max(width[0] - width_mm, depth[0] - depth_mm, 0) == pytest.approx(
        found.over_mm, abs=1e-8 * size
    )


def test_a_turned_rectangle_and_a_long_part_across_a_platform():
    """CALC: 40 × 10 turned by 27°; 105 × 5 fits 80 × 80 only across (80·√2 − 5 = 108 long)."""
    box = np.array([[0, 0], [40, 0], [40, 10], [0, 10.0]])
    c, s = np.cos(np.radians(27)), np.sin(np.radians(27))
    found = smallest_rectangle(box @ np.array([[c, s], [-s, c]]))
    assert (found.width_mm, found.depth_mm) == pytest.approx((40, 10))
    assert found.spin_deg == pytest.approx(180 - 27)
    bar = np.array([[0, 0], [105, 0], [105, 5], [0, 5.0]])
    across = best_spin(bar, 80, 80)
    assert across.over_mm == 0
    assert abs(across.spin_deg % 90 - 45) < 3
    longer = bar * (110 / 105, 1)
    # Across at 45° both sides are (110 + 5) / √2 (CALC).
    assert best_spin(longer, 80, 80).over_mm == pytest.approx(115 / 2**0.5 - 80)


@pytest.mark.parametrize("points", [[[1, 2]], [[0, 0], [3, 4]], [[0, 0], [1, 0], [2, 0]]])
def test_points_without_area(points):
    found = smallest_rectangle(np.array(points, np.float64))
    assert found.depth_mm == pytest.approx(0, abs=1e-12)
    assert found.width_mm == pytest.approx(np.linalg.norm(np.ptp(points, axis=0)))
