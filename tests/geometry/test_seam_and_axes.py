"""Seam and axes against closed forms: boxes, prisms, a cylinder; and what must not change them."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests import shapes
from tests.few import few
from viewer.geometry.mesh import Mesh
from viewer.geometry.pose import Pose, posed_vertices_mm, rotation
from viewer.geometry.seam_and_axes import (
    facing_mm2,
    gather_area_vectors,
    outlines_mm2,
    seam_away,
    share_along,
    spin_of_side,
    walls_along,
)

UP = (0.0, 0.0, 1.0)
BOX = shapes.box((0, 0, 0), (10, 20, 30))  # faces of 600 mm² towards x, 300 towards y, 200 up


def turned(mesh, spin_deg):
    return Mesh(mesh.vertices_mm @ rotation(Pose(UP, spin_deg)).T, mesh.faces)


def outlines(mesh, chosen=None, up=UP):
    chosen = np.ones(mesh.face_count, bool) if chosen is None else chosen
    return outlines_mm2(gather_area_vectors(mesh, chosen), np.array(up))


def prism(sides, radius_mm=10.0, height_mm=5.0):
    """A regular prism with a face towards +x, open above and below."""
    angles = 2 * np.pi * (np.arange(sides) + 0.5) / sides
    ring = radius_mm * np.stack([np.cos(angles), np.sin(angles)], axis=1)
    points = np.vstack([np.c_[ring, np.zeros(sides)], np.c_[ring, np.full(sides, height_mm)]])
    k, after = np.arange(sides), (np.arange(sides) + 1) % sides
    faces = np.vstack([np.c_[k, after, after + sides], np.c_[k, after + sides, k + sides]])
    return Mesh(points, faces)


def apart_deg(one, other, period=360.0):
    return abs((one - other + period / 2) % period - period / 2)


def test_area_vectors_of_one_plane_are_one_and_keep_their_direction():
    mesh = shapes.sphere(10, 3)
    chosen = mesh.face_normals[:, 0] > 0
    vectors = gather_area_vectors(mesh, chosen)
    whole = (mesh.face_normals * mesh.face_areas_mm2[:, None])[chosen].sum(axis=0)
    assert vectors.sum(axis=0) == pytest.approx(whole)
    boxed = gather_area_vectors(BOX, np.ones(12, bool))
    expected = [(-600, 0, 0), (0, -300, 0), (0, 0, -200), (0, 0, 200), (0, 300, 0), (600, 0, 0)]
    assert sorted(map(tuple, np.round(boxed, 9))) == expected
    assert gather_area_vectors(BOX, np.zeros(12, bool)).shape == (0, 3)


def test_what_faces_the_back_is_the_area_seen_from_there():
    """CALC: of a box, 600·|sin spin| + 300·|cos spin|; of a ball, π r²."""
    spins = np.array([0.0, 30.0, 90.0, 215.0])
    expected = 600 * abs(np.sin(np.radians(spins))) + 300 * abs(np.cos(np.radians(spins)))
    assert facing_mm2(outlines(BOX), spins) == pytest.approx(expected)
    ball = outlines(shapes.sphere(10, 5))
    assert facing_mm2(ball, spins) == pytest.approx(np.pi * 100, rel=0.005)


@pytest.mark.parametrize("axis", [(1, 0, 0), (-1, 0, 0), (0, 1, 0), (0, -1, 0)])
def test_the_seam_falls_on_the_side_opposite_to_the_only_one_that_shows(axis):
    """CALC: one face that shows is hidden from half of all sides; the middle is its opposite."""
    shown = BOX.face_normals @ np.array(axis, float) > 0.9
    found = seam_away(outlines(BOX, shown))
    assert found.facing_mm2 == pytest.approx(0.0, abs=1e-6)
    assert found.most_mm2 == pytest.approx(600.0 if axis[0] else 300.0)
    looks = rotation(Pose(UP, found.spin_deg)) @ -np.array(axis, float)
    assert looks == pytest.approx((0, 1, 0), abs=0.02)  # steps of half a degree


def test_the_seam_spares_class_b_where_class_a_leaves_a_choice():
    normals = BOX.face_normals
    front, right = normals[:, 1] < -0.9, normals[:, 0] > 0.9
    alone = seam_away(outlines(BOX, front))
    both = seam_away(outlines(BOX, front), outlines(BOX, right))
    assert alone.spin_deg == pytest.approx(0.0, abs=0.5)
    # CALC: A hides from the half round +y, B from the half round −x: the quarter between, 135°.
    side = rotation(Pose(UP, both.spin_deg)).T @ np.array([0.0, 1.0, 0.0])
    assert side == pytest.approx((-np.sqrt(0.5), np.sqrt(0.5), 0.0), abs=0.02)
    assert both.facing_mm2 == pytest.approx(0.0, abs=1e-6)


def test_where_all_sides_are_alike_there_is_no_side_for_the_seam():
    assert seam_away(outlines(prism(180))) is None
    assert seam_away(np.zeros((0, 2))) is None
    lying = outlines(BOX, BOX.face_normals[:, 2] > 0.9)  # what faces up has no side
    assert seam_away(lying) is None


def test_a_chosen_side_comes_to_the_back():
    up, side = np.array([0.6, 0.0, 0.8]), np.array([0.1, -0.7, 0.3])
    spin = spin_of_side(up, side)
    at = rotation(Pose(tuple(up), spin)) @ side
    assert at[0] == pytest.approx(0.0, abs=1e-9)
    assert at[1] > 0
    assert spin_of_side(up, up + np.array([0.0, 0.01, 0.0])) is None


@pytest.mark.parametrize("spin_deg", [0.0, 12.25, 30.0, 75.5, 200.0])
def test_the_walls_of_a_box_come_to_lie_along_the_axes(spin_deg):
    found = walls_along(outlines(turned(BOX, spin_deg)))
    assert apart_deg(found.spin_deg, -spin_deg, 90.0) < 1e-6
    assert found.share == pytest.approx(1.0)
    posed = posed_vertices_mm(turned(BOX, spin_deg).vertices_mm, Pose(UP, found.spin_deg))
    assert sorted(np.ptp(posed, axis=0)) == pytest.approx([10, 20, 30])


def test_of_a_hexagon_one_pair_of_walls_lies_along_an_axis():
    """CALC: 2 of 6 equal walls, as 60° is no quarter turn; of a square all; of an octagon half."""
    for sides, share in ((4, 1.0), (6, 1 / 3), (8, 1 / 2)):
        found = walls_along(outlines(turned(prism(sides), 17.0)))
        assert found.share == pytest.approx(share), sides


def test_the_longest_wall_decides():
    """A wedge of 30°: the slope is the longest of its walls, seen from above."""
    points = np.array([[0, 0], [np.sqrt(3), 0], [0, 1.0]]) * 10
    prism_points = np.vstack([np.c_[points, np.zeros(3)], np.c_[points, np.full(3, 4.0)]])
    sides = [(0, 1, 4), (0, 4, 3), (1, 2, 5), (1, 5, 4), (2, 0, 3), (2, 3, 5)]
    mesh = Mesh(prism_points, np.array(sides))
    found = walls_along(outlines(mesh))
    # CALC: the legs, √3 and 1, lie along both axes together: 2.73 of 4.73; the slope alone is 2.
    assert found.share == pytest.approx((1 + np.sqrt(3)) / (3 + np.sqrt(3)))
    slope = np.isclose(mesh.face_normals[:, 0], 0.5)
    only = walls_along(outlines(mesh, slope))
    assert apart_deg(only.spin_deg, -60.0, 90.0) < 1e-6  # its normal lies 60° from x
    assert only.share == pytest.approx(1.0)


def test_a_round_wall_has_no_direction():
    assert walls_along(outlines(prism(360))) is None
    assert walls_along(np.zeros((0, 2))) is None
    assert share_along(outlines(prism(360)), 0.0) == pytest.approx(4 / 360)


@settings(max_examples=few(10, 25), deadline=None)
@given(st.floats(0, 360), st.integers(3, 9))
def test_turning_the_part_turns_what_is_found(spin_deg, sides):
    mesh = prism(sides)
    shown = np.zeros(mesh.face_count, bool)
    shown[[0, sides]] = True
    still, moved = outlines(mesh, shown), outlines(turned(mesh, spin_deg), shown)
    assert apart_deg(walls_along(still).spin_deg, walls_along(moved).spin_deg + spin_deg, 90) < 1e-6
    away, away_moved = seam_away(still), seam_away(moved)
    assert away.most_mm2 == pytest.approx(away_moved.most_mm2, rel=1e-4)
    assert apart_deg(away.spin_deg, away_moved.spin_deg + spin_deg) <= 1.0
