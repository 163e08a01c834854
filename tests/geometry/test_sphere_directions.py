"""Even spreads over the sphere: counts, spacing, nesting, rings."""

import numpy as np
import pytest

from viewer.geometry.sphere_directions import (
    angles_deg,
    apart,
    icosphere,
    ring_around,
    spacing_deg,
    spread_directions,
)


@pytest.mark.parametrize(
    ("subdivisions", "count"), [(0, 12), (1, 42), (2, 162), (3, 642), (4, 2562), (5, 10242)]
)
def test_the_icosphere_has_its_counts(subdivisions, count):
    """Row 41 (CALC). The triangles close the sphere: χ = 2, outward, solid angle 4π (CALC)."""
    directions, triangles = icosphere(subdivisions)
    assert len(directions) == count
    assert len(triangles) == 2 * (count - 2)
    np.testing.assert_allclose(np.linalg.norm(directions, axis=1), 1, rtol=1e-12)
    a, b, c = directions[triangles].transpose(1, 0, 2)
    # Solid angle of a triangle (Van Oosterom & Strackee 1983; MEM).
    volume = np.einsum("ij,ij->i", a, np.cross(b, c))
    dots = [np.einsum("ij,ij->i", p, q) for p, q in ((a, b), (b, c), (c, a))]
    assert (volume > 0).all()
    assert np.sum(2 * np.arctan2(volume, 1 + sum(dots))) == pytest.approx(4 * np.pi)


def test_coarse_levels_come_first_and_are_even():
    """Row 41 (CALC): mean spacing √(4π/N), 1,000 → 6.4°, 10,000 → 2.0°."""
    fine = icosphere(4).directions
    for level, count in enumerate((12, 42, 162, 642)):
        np.testing.assert_array_equal(fine[:count], icosphere(level).directions)
    assert spacing_deg(1000) == pytest.approx(6.4, abs=0.05)
    assert spacing_deg(10_000) == pytest.approx(2.0, abs=0.05)


@pytest.mark.parametrize("count", [1, 5, 100, 300, 1000, 2562])
def test_no_direction_is_far_from_all(count):
    directions = spread_directions(count)
    assert directions.shape == (count, 3)
    np.testing.assert_allclose(np.linalg.norm(directions, axis=1), 1, rtol=1e-12)
    if count < 100:
        return
    asked = np.random.default_rng(1).normal(size=(4000, 3))
    asked /= np.linalg.norm(asked, axis=1)[:, None]
    nearest = np.degrees(np.arccos(np.clip((asked @ directions.T).max(axis=1), -1, 1)))
    assert nearest.max() < spacing_deg(count)
    first = directions[: count // 4]
    nearest = np.degrees(np.arccos(np.clip((asked @ first.T).max(axis=1), -1, 1)))
    assert nearest.max() < 1.5 * spacing_deg(len(first))


@pytest.mark.parametrize(
    "up", [(0, 0, 1), (0, 0, -1), (1, 0, 0), (0.6, 0, 0.8), (-0.48, 0.6, 0.64)]
)
def test_a_ring_lies_at_its_angle(up):
    ring = ring_around(np.array(up), 3.0, 8)
    assert angles_deg(ring, np.array(up)) == pytest.approx(3.0)
    np.testing.assert_allclose(np.linalg.norm(ring, axis=1), 1, rtol=1e-12)
    gaps = [angles_deg(ring[k : k + 1], ring[k - 1])[0] for k in range(8)]
    assert gaps == pytest.approx([gaps[0]] * 8)


def test_distinct_ones_lie_apart_and_the_first_stays():
    directions = spread_directions(642)
    chosen = apart(directions, 15.0, 1000)
    assert chosen[0] == 0
    picked = directions[chosen]
    for i, up in enumerate(picked):
        assert (angles_deg(np.delete(picked, i, axis=0), up) >= 15.0).all()
    # Nothing more could be added.
    assert all(angles_deg(picked, up).min() < 15.0 for up in directions)
    assert list(apart(directions, 15.0, 3)) == list(chosen[:3])
