"""Hull, margin and tip angle (CALC)."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.spatial import ConvexHull

from tests import shapes
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.pose import Pose
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.stability import convex_hull_2d, distance_inside_mm, tip_angle_deg

SQUARE = np.array([[0, 0], [10, 0], [10, 10], [0, 10]], np.float64)


@given(st.integers(3, 2000), st.integers(0, 100))
def test_hull_agrees_with_qhull(count, seed):
    """An independent library, scipy's qhull."""
    points = np.random.default_rng(seed).normal(size=(count, 2)) * [3, 1]
    corners = {tuple(p) for p in convex_hull_2d(points)}
    assert corners == {tuple(p) for p in points[ConvexHull(points).vertices]}


def test_hull_runs_anticlockwise_and_drops_points_on_its_edges():
    hull = convex_hull_2d(np.vstack([SQUARE, [[5, 0], [5, 5], [10, 5]]]))
    assert {tuple(p) for p in hull} == {tuple(p) for p in SQUARE}
    x, y = hull.T
    assert np.sum(x * np.roll(y, -1) - y * np.roll(x, -1)) / 2 == pytest.approx(100)


@pytest.mark.parametrize(
    ("point", "distance"),
    [((5, 5), 5), ((1, 5), 1), ((0, 5), 0), ((-2, 5), -2), ((13, 14), -5), ((5, 10), 0)],
)
def test_distance_inside(point, distance):
    assert distance_inside_mm(SQUARE, np.array(point, float)) == pytest.approx(distance)


def test_tip_angle_has_a_sign_and_none_where_nothing_stands():
    assert tip_angle_deg(SQUARE, np.array([5, 5, 5.0])) == pytest.approx(45)
    assert tip_angle_deg(SQUARE, np.array([-5, 5, 5.0])) == pytest.approx(-45)
    assert tip_angle_deg(np.empty((0, 2)), np.array([0, 0, 1.0])) is None
    on_a_line = np.array([[0, 0], [1, 0], [2, 0.0]])
    assert tip_angle_deg(on_a_line, np.array([1, 1, 1.0])) == pytest.approx(-45)


# --- of a pose: CALC


def of_pose(mesh, up=(0, 0, 1), **of_print):
    classes = np.zeros(mesh.face_count, np.uint8)
    return measure_pose(prepare_part(mesh), classes, Pose(up), PrintSettings(**of_print))


@pytest.mark.parametrize(
    ("mesh", "angle"),
    [
        (shapes.cube(20.0), 45.0),
        (shapes.cylinder(10, 100), 11.31),
        (shapes.cone(10, 40), 45.0),
        (shapes.box((0, 0, 0), (10, 40, 100)), 5.71),
    ],
)
def test_row_38_and_the_worst_while_printed(mesh, angle):
    got = of_pose(mesh)
    assert got.tip_angle_deg == pytest.approx(angle, abs=0.15)
    assert got.tip_angle_supported_deg == pytest.approx(angle, abs=0.15)
    assert got.tip_angle_worst_deg == pytest.approx(angle, abs=0.15)  # it grows taller and taller
    assert got.tip_angle_worst_mm == pytest.approx(got.height_mm, rel=0.01)


def test_row_39_a_leaning_prism_falls_at_the_end():
    got = of_pose(shapes.sheared_prism())
    assert got.tip_angle_deg == pytest.approx(0, abs=0.1)
    assert got.tip_angle_worst_deg == pytest.approx(0, abs=0.1)
    assert got.tip_angle_worst_mm == pytest.approx(60, abs=0.2)


def test_a_counterweight_built_later_does_not_help_in_between():
    """A foot 10 wide, an arm of 30 × 10 × 10 that leans out to +x above it, then a block that leans
    out as far to −x: the whole is balanced, but not when the arm is just done. No supports.
    """
    foot = shapes.box((-5, -5, 0), (5, 5, 20))
    arm = shapes.box((-5, -5, 20), (25, 5, 30))
    block = shapes.box((-25, -5, 30), (5, 5, 40))
    got = of_pose(shapes.joined(foot, arm, block), support_limit_deg=0)
    assert got.tip_angle_deg == pytest.approx(np.degrees(np.arctan(5 / 25)), abs=0.1)
    centre = 30 * 10 / (20 + 30)  # of foot (20 · 0) and arm (30 · 10)
    height = (20 * 10 + 30 * 25) / 50
    worst = -np.degrees(np.arctan((centre - 5) / height))
    assert got.tip_angle_worst_deg == pytest.approx(worst, abs=0.15)
    assert got.tip_angle_worst_mm == pytest.approx(30, abs=0.3)


def test_supports_widen_the_stand():
    """Row 22: the cap's supports stand all round the post, 30 × 30 instead of 10 × 10."""
    got = of_pose(shapes.post_and_cap())
    height = (100 * 20 * 10 + 900 * 5 * 22.5) / (2000 + 4500)
    assert got.tip_angle_deg == pytest.approx(np.degrees(np.arctan(5 / height)), abs=0.05)
    support = 0.2 * 16000
    height = (100 * 20 * 10 + 900 * 5 * 22.5 + support * 10) / (6500 + support)
    assert got.tip_angle_supported_deg == pytest.approx(np.degrees(np.arctan(15 / height)), abs=0.5)
    assert got.centre_of_mass_mm[2] == pytest.approx((20000 + 101250) / 6500)
    side = got.contact_polygon_mm
    assert np.ptp(side, axis=0) == pytest.approx([10, 10])  # in the posed frame, without the skew


def test_what_floats_has_no_tip_angle_alone_but_with_supports():
    got = of_pose(shapes.sphere(10.0, 5), layer_mm=0.2)
    assert got.tip_angle_supported_deg > got.tip_angle_deg
