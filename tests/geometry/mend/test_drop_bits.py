"""Loose bits and surfaces lost in the material go; bodies, cavities and what is in them stay."""

import numpy as np
import pytest

from tests.geometry.mend.judges import accepted
from tests.shapes import box, cube, joined, moved, sealed_cavity, turned_inside_out
from viewer.geometry.mend.drop_bits import drop_bits, lost_inside
from viewer.geometry.mend.plan_mending import plan_mending, take_all
from viewer.geometry.mesh import Mesh

SQUARE = Mesh([(-3, -3, 0), (3, -3, 0), (3, 3, 0), (-3, 3, 0)], [(0, 1, 2), (0, 2, 3)])


def test_a_bit_below_the_size_goes_and_one_above_it_stays():
    # A cube of side a has a diagonal of √3·a: 1.0 → 1.73 mm, 1.2 → 2.08 mm (CALC).
    body, small, large = cube(20.0), moved(cube(1.0), (20, 0, 0)), moved(cube(1.2), (30, 0, 0))
    done = drop_bits(joined(small, body, large), 2.0)
    assert done.mesh.signed_volume_mm3 == pytest.approx(8000.0 + 1.2**3)
    np.testing.assert_array_equal(done.origin_face, np.arange(12, 36))


def test_what_lies_in_a_bit_goes_with_it_and_the_largest_always_stays():
    hollow_bit = joined(cube(1.0), turned_inside_out(cube(0.5)))
    done = drop_bits(joined(cube(20.0), moved(hollow_bit, (20, 0, 0))), 2.0)
    assert done.mesh.face_count == 12
    assert drop_bits(cube(0.5), 2.0).mesh.face_count == 12
    assert drop_bits(joined(cube(0.5), moved(cube(0.4), (3, 0, 0))), 2.0).mesh.face_count == 12


def test_small_cavities_stay():
    part = joined(cube(20.0), turned_inside_out(cube(0.5)))
    assert drop_bits(part, 2.0).mesh is part


@pytest.mark.parametrize("turned", [False, True])
def test_a_surface_lost_in_the_material_goes_for_good(turned):
    lost = turned_inside_out(SQUARE) if turned else SQUARE
    part = joined(cube(20.0), lost)
    assert lost_inside(part).tolist() == [False, True]
    plan = plan_mending(part)
    assert [step.name for step in plan] == ["drop-bits"]
    done = take_all(plan, part)
    assert accepted(done.mesh) == ""
    np.testing.assert_array_equal(done.mesh.corners_mm, cube(20.0).corners_mm)


def test_a_surface_in_a_cavity_or_in_the_open_is_not_lost():
    hollow = joined(sealed_cavity(), moved(SQUARE, (10, 10, 10)))
    assert not lost_inside(hollow).any()
    beside = joined(cube(20.0), moved(SQUARE, (30, 0, 0)))
    assert not lost_inside(beside).any()
    # It gets a wall of 0.84, and the body stays solid: 8000 + 36 · 0.84 (CALC).
    done = take_all(plan_mending(beside), beside).mesh
    assert accepted(done) == ""
    assert done.signed_volume_mm3 == pytest.approx(8000.0 + 36.0 * 0.84)


def test_an_open_body_inside_another_is_no_lost_surface():
    inner = box([-5, -5, -5], [5, 5, 5])
    part = joined(cube(20.0), Mesh(inner.vertices_mm, inner.faces[1:]))
    assert not lost_inside(part).any()
