"""Outline and hatch of what sticks out of a box, against closed forms."""

import numpy as np
import pytest

from tests.shapes import box, cylinder
from viewer.shop.sticking_out import sticking_out


def lengths_mm(lines):
    return np.linalg.norm(lines[:, 1] - lines[:, 0], axis=1)


def test_nothing_is_drawn_of_what_lies_inside():
    mesh = box((0, 0, 0), (10, 10, 10))
    rim, hatch = sticking_out(mesh.vertices_mm, mesh.faces, (0, 0, 0), (10, 10, 10))
    assert len(rim) == len(hatch) == 0


def test_the_outline_of_a_bar_is_its_section_where_it_leaves_the_box():
    """CALC: a bar of 30 × 10 × 5 leaves a box of 20 at x = 20: outline 2·(10 + 5) = 30."""
    mesh = box((0, 0, 0), (30, 10, 5))
    rim, hatch = sticking_out(mesh.vertices_mm, mesh.faces, (-1, -1, -1), (20, 11, 6))
    assert np.all(np.isclose(rim[..., 0], 20.0))
    assert lengths_mm(rim).sum() == pytest.approx(30.0)
    assert len(hatch)
    assert hatch[..., 0].min() >= 20.0 - 1e-9


def test_a_corner_beyond_two_sides_is_outlined_on_both():
    """CALC: a cube of 10 leaves at x = 8 and y = 8: on each side 8 + 10 + 8 mm of line, the
    vertical line in which both sides meet lies inside the cube."""
    mesh = box((0, 0, 0), (10, 10, 10))
    rim, _ = sticking_out(mesh.vertices_mm, mesh.faces, (-1, -1, -1), (8, 8, 11))
    assert lengths_mm(rim).sum() == pytest.approx(2 * (8 + 10 + 8))


def test_too_high_a_cylinder_is_outlined_by_a_circle_and_hatched_above_only():
    mesh = cylinder(10.0, 100.0)
    rim, hatch = sticking_out(mesh.vertices_mm, mesh.faces, (-50, -50, -1), (50, 50, 60))
    assert lengths_mm(rim).sum() == pytest.approx(2 * np.pi * 10, rel=1e-3)
    assert hatch[..., 2].min() >= 60.0 - 1e-9
    radius = np.hypot(hatch[..., 0], hatch[..., 1])
    assert radius.max() <= 10.0 + 1e-9
