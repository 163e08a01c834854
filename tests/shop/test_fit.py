"""Fit on machines: closed forms, every spin and every place tried out, invariants."""

from dataclasses import replace

import msgspec
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.spatial import ConvexHull

from tests.few import few
from tests.shapes import hanging_cone, of_solid, post_and_cap
from tests.shop.made_jobs import ALONE, CONTACT, WHOLE, machine
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.platform_rectangle import best_spin
from viewer.geometry.pose import Pose, posed_vertices_mm
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.stability import convex_hull_2d
from viewer.shop.fit import fit_machine, machines_that_fit
from viewer.shop.machines import ForbiddenArea, Nozzle
from viewer.shop.outline import PoseOutline, outer_points, outline_of
from viewer.shop.placing import Rectangle, _sum_of_convex, free_shift
from viewer.shop.spins import Boxed, least_over, over_mm, spins_that_fit_rad
from viewer.shop.turning_hull import reach_mm, turning_hull

BOX = ((-110.0, -110.0), (110.0, 110.0))


def bar(length_mm, width_mm):
    x, y = length_mm / 2, width_mm / 2
    return np.array([[-x, -y], [x, -y], [x, y], [-x, y]])


def hull_area_mm2(points):
    """Area of the hull by the shoelace formula; 0 for points in a line."""
    x, y = convex_hull_2d(points).T
    return 0.5 * abs(float(np.sum(x * np.roll(y, -1) - np.roll(x, -1) * y)))


def outline(points, supports=None, height_mm=50.0, support_height_mm=20.0):
    hull = None if supports is None else turning_hull(np.asarray(supports, float))
    return PoseOutline(turning_hull(np.asarray(points, float)), hull, height_mm, support_height_mm)


def turned(points, spin_rad):
    c, s = np.cos(spin_rad), np.sin(spin_rad)
    return np.asarray(points) @ np.array([[c, s], [-s, c]])


def test_a_bar_fits_over_the_diagonal():
    """CALC: at 45° a bar of 300 × 10 is (300 + 10)/√2 = 219.2 wide and deep: 220 holds it."""
    boxed = (Boxed(turning_hull(bar(300, 10)), *BOX),)
    assert over_mm(boxed, np.zeros(1))[0] == pytest.approx(80)
    spins = np.degrees(spins_that_fit_rad(boxed)) % 90
    assert spins == pytest.approx(45, abs=0.6)
    assert 45.0 in spins.round(9)


def test_what_a_longer_bar_lacks_is_least_over_the_diagonal():
    """CALC: 310 × 10 is 320/√2 = 226.27 at 45°; the box lacks 6.27 mm."""
    boxed = (Boxed(turning_hull(bar(310, 10)), *BOX),)
    assert len(spins_that_fit_rad(boxed)) == 0
    spin, over = least_over(boxed)
    assert over == pytest.approx(320 / np.sqrt(2) - 220)
    assert np.degrees(spin) % 90 == pytest.approx(45)


def test_a_bar_in_a_platform_that_is_not_square_turns_to_where_both_sides_are_equal():
    """CALC: a needle of length L needs L·cos θ − W = L·sin θ − D."""
    boxed = (Boxed(turning_hull(bar(400, 1e-6)), (-150.0, -100.0), (150.0, 100.0)),)
    spin, over = least_over(boxed)
    angle = np.radians(45) - np.arcsin(100 / (400 * np.sqrt(2)))
    assert over == pytest.approx(400 * np.cos(angle) - 300, abs=1e-4)
    assert min(abs(spin % np.pi - a) for a in (angle, np.pi - angle)) < 1e-6


HULLS = st.lists(
    st.tuples(st.floats(-120, 120), st.floats(-120, 120)), min_size=3, max_size=12
).map(np.array)
BOXES = st.tuples(st.floats(20, 150), st.floats(20, 150)).map(lambda s: ((-s[0], -s[1]), s))


@given(HULLS, HULLS, BOXES, BOXES)
@settings(max_examples=few(13, 40))
def test_the_least_is_found_among_all_spins(first, second, box, other):
    """Independent: the corners turned one by one at 720 spins."""
    boxed = (Boxed(turning_hull(first), *box), Boxed(turning_hull(second), *other))
    spins = np.linspace(0, 2 * np.pi, 720, endpoint=False)
    found = []
    for spin in spins:
        a, b = turned(first, spin), turned(second, spin)
        over = -np.inf
        for axis in (0, 1):
            low = max(box[0][axis] - a[:, axis].min(), other[0][axis] - b[:, axis].min())
            high = min(box[1][axis] - a[:, axis].max(), other[1][axis] - b[:, axis].max())
            over = max(over, low - high)
        found.append(over)
    np.testing.assert_allclose(over_mm(boxed, spins), found, atol=1e-6)
    spin, least = least_over(boxed)
    assert least <= min(found) + 1e-6
    assert least == pytest.approx(over_mm(boxed, np.array([spin]))[0], abs=1e-6)
    step = 2 * np.pi / len(spins) * 400
    assert min(found) <= least + step
    fitting = spins_that_fit_rad(boxed)
    assert (len(fitting) > 0) == (least <= 1e-7) or abs(least) < 1e-6
    if len(fitting):
        assert over_mm(boxed, fitting).max() <= 1e-6


@given(HULLS, BOXES)
def test_one_hull_in_one_box_fits_as_the_platform_rectangle_finds(points, box):
    """Independent: the calipers of `platform_rectangle`."""
    if hull_area_mm2(points) < 1:
        return
    width, depth = np.subtract(box[1], box[0])
    _, least = least_over((Boxed(turning_hull(points), *box),))
    assert max(least, 0) == pytest.approx(best_spin(points, width, depth).over_mm, abs=1e-6)


@given(HULLS, st.floats(0, 6.3))
def test_the_reach_of_a_turning_hull_is_that_of_its_turned_points(points, spin):
    at = turned(points, spin)
    reach = reach_mm(turning_hull(points), np.array([spin]))[0]
    np.testing.assert_allclose(reach, [at.min(axis=0), at.max(axis=0)], atol=1e-9)


@given(
    HULLS,
    st.lists(st.tuples(st.floats(-60, 40), st.floats(-60, 40), st.floats(5, 60), st.floats(5, 60)),
             min_size=1, max_size=3),
)  # fmt: skip
@settings(max_examples=few(20, 60))
def test_a_free_place_is_free_and_none_is_missed(points, rectangles):
    """Independent: shapely would do; here every place of a grid is tried with separating lines."""
    if hull_area_mm2(points) < 10:
        return
    hull = points[ConvexHull(points).vertices]
    obstacles = tuple(Rectangle((x, y), (x + w, y + h)) for x, y, w, h in rectangles)
    shifts = Rectangle((-40.0, -30.0), (40.0, 30.0))
    found = free_shift(hull, shifts, obstacles, np.zeros(2))

    def overlap(at, obstacle):
        corners = hull + at
        box = bar(1, 1) * np.subtract(obstacle.high_mm, obstacle.low_mm)
        box = box + 0.5 * np.add(obstacle.high_mm, obstacle.low_mm)
        side = np.roll(corners, -1, axis=0) - corners
        axes = np.concatenate([np.column_stack([side[:, 1], -side[:, 0]]), np.eye(2)])
        axes /= np.linalg.norm(axes, axis=1, keepdims=True)
        a, b = corners @ axes.T, box @ axes.T
        return np.minimum(a.max(0) - b.min(0), b.max(0) - a.min(0)).min()

    grid = np.stack(np.meshgrid(np.linspace(-40, 40, 21), np.linspace(-30, 30, 21)), -1)
    free = [
        at for at in grid.reshape(-1, 2) if max(overlap(at, each) for each in obstacles) <= -1e-6
    ]
    if found is None:
        assert not free
    else:
        assert max(overlap(found, each) for each in obstacles) <= 1e-5
        assert (np.abs(found) <= [40 + 1e-6, 30 + 1e-6]).all()


def two_reaches():
    """A platform of 200 × 200; the left nozzle misses 30 mm at the right, the other at the left."""
    left = Nozzle(name="left", reach_low_mm=(-100, -100, 0), reach_high_mm=(70, 100, 200))
    right = Nozzle(name="right", reach_low_mm=(-70, -100, 0), reach_high_mm=(100, 100, 150))
    return machine(nozzles=(left, right))


def test_each_material_has_to_be_in_reach_of_its_nozzle():
    """CALC: a part 170 long fits the left nozzle; supports under its right end do not."""
    part = bar(170, 20)
    both = two_reaches()
    alone = fit_machine(outline(part), both, ALONE)
    assert alone.fits
    assert alone.place_mm == pytest.approx((-15, 0))
    # Supports at the right end: there the right nozzle reaches 100, so they stand at up to 70.
    right_end = part[part[:, 0] > 0] - [[2.0, 0], [0, 0]]
    at_right = fit_machine(outline(part, right_end), both, WHOLE)
    assert at_right.fits
    assert at_right.nozzles == (0, 1)
    # Supports under both ends need 170 within 70 + 70: no, unless it is turned.
    ends = fit_machine(outline(part, part), both, WHOLE)
    assert ends.fits
    assert ends.spin_deg != 0
    assert ends.why == f"Fits when its spin is {ends.spin_deg:g}°."
    wide = bar(170, 170)
    never = fit_machine(outline(wide, wide), both, WHOLE)
    assert not never.fits
    assert never.over_mm == pytest.approx(30)  # 170 − 140, best at right angles


def test_the_other_nozzle_may_take_the_model():
    """CALC: 160 high is too high for the right nozzle (150) but not for the left one."""
    both = two_reaches()
    swapped = msgspec.structs.replace(both, nozzles=both.nozzles[::-1])
    fit = fit_machine(outline(bar(50, 50), bar(20, 20), height_mm=160), swapped, WHOLE)
    assert fit.fits
    assert fit.nozzles == (1, 0)
    high = fit_machine(outline(bar(50, 50), height_mm=212.5), swapped, ALONE)
    assert not high.fits
    assert high.over_mm == pytest.approx(12.5)
    assert high.why == 'Higher than nozzle "left" reaches, by 12.5 mm.'


def test_a_machine_with_too_few_materials_fits_only_without_supports():
    one = machine(shared_nozzle=True, materials=1)
    assert fit_machine(outline(bar(50, 50)), one, WHOLE).fits
    fit = fit_machine(outline(bar(50, 50), bar(10, 10)), one, CONTACT)
    assert not fit.fits
    assert "needs 2 materials" in fit.why


def test_a_forbidden_corner_is_kept_free():
    """CALC: 190 × 190 on 200 × 200 with a corner of 20 × 20 taken has no room, by 5 mm a side.

    The part can shift by 5 mm at most from the middle, so 20 − 10 = 10 mm overlap remain; the
    corner has to shrink by 10 mm in x or y to be free, or by 10 on all of its sides.
    """
    corner = ForbiddenArea(low_mm=(-100.0, -100.0), high_mm=(-80.0, -80.0))
    on = machine(forbidden=(corner,))
    assert fit_machine(outline(bar(180, 180)), on, ALONE).place_mm == pytest.approx(
        (10, 0), abs=1e-9
    )
    tight = fit_machine(outline(bar(190, 190)), on, ALONE)
    assert not tight.fits
    assert tight.over_mm == pytest.approx(10, abs=0.01)
    # An eight-sided part of that width does: its own corners are missing.
    cut = np.array([[95, 70], [70, 95], [-70, 95], [-95, 70], [-95, -70], [-70, -95], [70, -95]])
    assert fit_machine(outline(cut), on, ALONE).fits


def test_the_purged_body_takes_its_place():
    """CALC: beside 160 × 190 on 200 × 200 stands a body of 40 × 60, and none of 41 × 60."""
    on = machine()
    part = outline(bar(160, 190), bar(10, 10))
    fit = fit_machine(part, on, WHOLE, 0.0, (40.0, 60.0, 10.0))
    assert fit.fits
    assert fit.spin_deg == 0
    low, high = np.array(fit.purge_body.low_mm), np.array(fit.purge_body.high_mm)
    assert sorted(high - low) == [40, 60]
    assert (np.abs([low, high]) <= 100 + 1e-9).all()
    part_low = np.array(fit.place_mm) - [80, 95]
    assert (low >= part_low + np.array([160, 190]) - 1e-6).any() or (high <= part_low + 1e-6).any()
    no = fit_machine(part, on, WHOLE, 0.0, (41.0, 60.0, 10.0))
    assert not no.fits
    assert no.over_mm == pytest.approx(1.0, abs=1e-3)
    high = fit_machine(part, on, WHOLE, 0.0, (40.0, 60.0, 210.0))
    assert not high.fits
    assert high.over_mm == pytest.approx(10)


@given(HULLS, st.floats(0, 359), st.sampled_from([1.0, 1.3, 2.0]))
@settings(max_examples=few(13, 40))
def test_a_larger_platform_never_fits_less(points, spin, factor):
    small = fit_machine(outline(points), machine(), ALONE, spin)
    reach = {"reach_low_mm": (-100 * factor,) * 2 + (0.0,), "reach_high_mm": (100 * factor,) * 3}
    nozzles = tuple(Nozzle(name=name, **reach) for name in "ab")
    large = machine(build_volume_mm=(200 * factor, 200 * factor, 200.0), nozzles=nozzles)
    fit = fit_machine(outline(points), large, ALONE, spin)
    assert fit.fits or not small.fits
    assert fit.over_mm <= small.over_mm + 1e-6
    assert (small.over_mm > 0) == (not small.fits)


def test_machines_that_need_no_turn_come_first():
    fits = {
        "needs a turn": fit_machine(outline(bar(240, 10)), machine(), ALONE),
        "too small": fit_machine(outline(bar(300, 10)), machine(), ALONE),
        "fits": fit_machine(outline(bar(100, 10)), machine(), ALONE),
    }
    assert machines_that_fit(fits) == ("fits", "needs a turn")


def test_the_outline_of_a_posed_part_holds_it_and_its_supports():
    """Post and cap of row 22: supports stand below the rim of the cap, 20 mm high."""
    mesh = post_and_cap()
    classes = np.zeros(mesh.face_count, np.uint8)
    measures = measure_pose(prepare_part(mesh), classes, Pose(), PrintSettings())
    found = outline_of(mesh, (0, 0, 1), measures)
    assert found.height_mm == pytest.approx(25)
    assert found.support_height_mm == pytest.approx(20)
    for hull in (found.part, found.supports):
        reach = reach_mm(hull, np.zeros(1))[0]
        np.testing.assert_allclose(reach, [[0, 0], [30, 30]], atol=1e-9)
    lying = outline_of(mesh, (1, 0, 0), measures)
    posed = posed_vertices_mm(mesh.vertices_mm, Pose((1, 0, 0)))
    reach = reach_mm(lying.part, np.zeros(1))[0]
    np.testing.assert_allclose(reach[1] - reach[0], np.ptp(posed[:, :2], axis=0))


@given(st.integers(0, 2**32 - 1), st.sampled_from(["ball", "ring", "square", "line"]))
@settings(max_examples=few(10, 30))
def test_no_corner_of_a_hull_is_dropped(seed, kind):
    """Independent: scipy's hull of all points."""
    random = np.random.default_rng(seed)
    points = random.normal(size=(3000, 2)) * [10, 3] + [100, -50]
    if kind == "ring":
        turns = random.uniform(0, 2 * np.pi, 3000)
        radii = random.uniform(19, 20, 3000)
        points = np.column_stack([radii * np.cos(turns), radii * np.sin(turns)])
    elif kind == "square":
        points = random.integers(0, 30, (3000, 2)).astype(float)
    elif kind == "line":
        points = np.column_stack([points[:, 0], 2 * points[:, 0]])
        kept = outer_points(points.T)
        assert {points[:, 0].min(), points[:, 0].max()} <= set(kept[:, 0])
        return
    corners = {tuple(p) for p in points[ConvexHull(points).vertices]}
    kept = outer_points(points.T)
    assert corners <= {tuple(p) for p in kept}
    if kind in ("ball", "ring"):
        assert len(kept) < 700


@given(st.integers(0, 2**31), st.integers(3, 40), st.integers(3, 40))
def test_the_sum_of_convex_outlines_is_the_hull_of_all_sums(seed, one, two):
    """By definition of the Minkowski sum; the hull of all pairs by the monotone chain."""
    random = np.random.default_rng(seed)
    first, second = (convex_hull_2d(random.normal(size=(n, 2))) for n in (one, two))
    found = _sum_of_convex(first, -second)
    wanted = convex_hull_2d((first[:, None] - second[None]).reshape(-1, 2))
    apart = np.linalg.norm(found[:, None] - wanted[None], axis=2)
    assert apart.min(axis=0).max() < 1e-9
    assert hull_area_mm2(found) == pytest.approx(hull_area_mm2(wanted))
    x, y = found.T
    shoelace = 0.5 * np.sum(x * np.roll(y, -1) - np.roll(x, -1) * y)
    assert shoelace == pytest.approx(hull_area_mm2(wanted))


def test_supports_that_only_an_island_needs_are_in_the_outline():
    """CALC: the tip of the cone hangs at (5, 0), 8 mm above the platform."""
    mesh = of_solid(hanging_cone())
    classes = np.zeros(mesh.face_count, np.uint8)
    measures = measure_pose(prepare_part(mesh), classes, Pose(), PrintSettings())
    (place,) = measures.island_places
    alone = outline_of(mesh, (0, 0, 1), replace(measures, faces=None))
    corners = alone.supports.corners_mm
    assert corners.mean(axis=0) == pytest.approx((5, 0), abs=0.01)
    assert alone.support_height_mm == pytest.approx(8)
    assert hull_area_mm2(corners) == pytest.approx(place.area_mm2, rel=0.03)
    both = outline_of(mesh, (0, 0, 1), measures)
    assert both.support_height_mm > 8
