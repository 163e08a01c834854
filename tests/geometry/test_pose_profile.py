"""The layers of a pose: closed forms (CALC), sums against the measures, invariants (hypothesis)."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests import shapes
from tests.few import few
from viewer.geometry.face_classes import CLASS_A, CLASS_B
from viewer.geometry.face_pass import pass_over_faces
from viewer.geometry.layer_profile import layer_count
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.pose import Pose
from viewer.geometry.pose_profile import TOUCH_CLASSES, PoseProfile, profile_of_pose
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.supports import measure_supports
from viewer.geometry.turned_part import turn_part

CELLS = 512


def profiled(mesh, up=(0, 0, 1), classes=None, islands=(), cells=CELLS, **of_print) -> PoseProfile:
    part, process = prepare_part(mesh), PrintSettings(**of_print)
    if classes is None:
        classes = np.zeros(mesh.face_count, np.uint8)
    turned = turn_part(part.points_mm, Pose(up).up)
    under = pass_over_faces(part, turned, classes, process)[0]
    sums = measure_supports(part, turned, under, classes, process, cells)
    starts = np.array(islands, np.int64)
    return profile_of_pose(part, turned, sums.samples, under.n_z, classes, process, starts)


@pytest.mark.parametrize(
    "shape", [shapes.post_and_cap, shapes.post_touching_cap, shapes.post_inside_cap]
)
def test_a_cap_on_a_post(shape):
    """Rows 22 and 23: 100 layers of post and support, the cap's underside in layer 100."""
    profile = profiled(shape())
    assert profile.z_mm == pytest.approx(0.1 + 0.2 * np.arange(125))
    low, high = slice(0, 100), slice(100, 125)
    # Shells that meet are united after growing by 0.0005 mm.
    assert profile.area_mm2[low] == pytest.approx(100, rel=3e-4)
    assert profile.area_mm2[high] == pytest.approx(900, rel=3e-4)
    assert profile.perimeter_mm[low] == pytest.approx(40, rel=3e-4)
    assert profile.perimeter_mm[high] == pytest.approx(120, rel=3e-4)
    assert profile.support_area_mm2[low] == pytest.approx(800, rel=3e-4)
    assert (profile.support_area_mm2[high] == 0).all()
    assert profile.mixed.tolist() == [True] * 100 + [False] * 25
    assert profile.touch_mm2[100, 2] == pytest.approx(800, rel=3e-4)
    assert np.count_nonzero(profile.touch_mm2) == 1


@pytest.mark.parametrize(("limit", "steepest"), [(45, np.pi / 4), (60, np.pi / 3)])
def test_supports_under_a_ball(limit, steepest):
    """CALC: at height z the supports fill π(ρ² − (2Rz − z²)), ρ = R·sin(limit); each layer of the
    ball has the zone 2πRt (Archimedes), and the ball's section is π(2Rz − z²).
    """
    radius, layer = 10.0, 0.2
    profile = profiled(shapes.sphere(radius), support_limit_deg=limit, layer_mm=layer)
    z = profile.z_mm
    section = np.pi * (2 * radius * z - z**2)
    assert profile.area_mm2 == pytest.approx(section, rel=5e-3)
    assert profile.perimeter_mm == pytest.approx(2 * np.sqrt(np.pi * section), rel=5e-3)
    wide = np.pi * (radius * np.sin(steepest)) ** 2
    expected = np.maximum(wide - section, 0) * (z < radius)
    assert profile.support_area_mm2 == pytest.approx(expected, abs=0.01 * wide)
    top = radius * (1 - np.cos(steepest))
    touched = np.clip(top - layer * np.arange(len(z)), 0, layer) * 2 * np.pi * radius
    assert profile.touch_mm2[:, 2] == pytest.approx(touched, abs=0.12 * touched.max())
    assert profile.touch_mm2.sum() == pytest.approx(touched.sum(), rel=0.01)
    below = 0.05 * wide
    assert profile.mixed[expected > below].all()
    assert not profile.mixed[z > top + layer].any()


def test_touch_goes_to_the_class_and_layer_of_the_underside():
    """Row 26: shelves at z = 20 (A) and 40 (B), layers of 0.2; the upper stands on the lower."""
    mesh = shapes.shelves()
    centres, normals = mesh.corners_mm.mean(axis=1), mesh.face_normals
    classes = np.zeros(mesh.face_count, np.uint8)
    classes[(normals[:, 2] < -0.9) & (abs(centres[:, 2] - 20) < 0.1)] = CLASS_A
    classes[(normals[:, 2] < -0.9) & (abs(centres[:, 2] - 40) < 0.1)] = CLASS_B
    profile = profiled(mesh, classes=classes)
    assert TOUCH_CLASSES == ("A", "B", "unmarked")
    assert profile.touch_mm2[100].tolist() == pytest.approx([400, 0, 0])
    assert profile.touch_mm2[200].tolist() == pytest.approx([0, 400, 0])
    assert np.count_nonzero(profile.touch_mm2) == 2
    expected = np.zeros(225)
    expected[:100] = 400  # up to the lower shelf
    expected[110:200] = 400  # from its upper side at 22 to the upper shelf
    assert profile.support_area_mm2 == pytest.approx(expected, rel=1e-9)


def test_moments_of_part_and_supports():
    """Row 24, CALC: the gap's centre is 20 + 2.5 in x where the whole bracket's is 20."""
    mesh = shapes.c_bracket()
    part = prepare_part(mesh)
    turned = turn_part(part.points_mm, (0.0, 0.0, 1.0))
    profile = profiled(mesh)
    middle = slice(30, 120)  # between the arms: the back alone, 5 × 20, and the supports, 35 × 20
    for moment, area, x in (
        (profile.moment_mm3, 100, 2.5), (profile.support_moment_mm3, 700, 22.5)
    ):  # fmt: skip
        centre = turned.rotation @ (np.array([x, 10.0, 0.0]) - part.centre_mm)
        expected = np.tile(area * centre[:2], (90, 1))
        assert moment[middle] == pytest.approx(expected, rel=2e-3, abs=0.02 * area)


def test_islands_are_counted_where_they_start():
    profile = profiled(shapes.cube(), islands=(3, 3, 99))
    assert profile.islands.dtype == np.int32
    assert np.flatnonzero(profile.islands).tolist() == [3, 99]
    assert profile.islands[[3, 99]].tolist() == [2, 1]
    assert (profiled(shapes.cube()).islands == 0).all()


def test_a_part_without_supports():
    profile = profiled(shapes.cube())
    assert not profile.mixed.any()
    assert not profile.support_area_mm2.any()
    assert not profile.touch_mm2.any()


PARTS = {
    "bracket": shapes.c_bracket(),
    "overlapping": shapes.post_inside_cap(),
    "cavity": shapes.sealed_cavity(),
    "ring": shapes.torus(around=60, facets=40),
    "cone": shapes.cone(10, 25),
}
ups = st.tuples(*[st.floats(-1, 1)] * 3).filter(lambda v: np.linalg.norm(v) > 0.1)


@settings(max_examples=few(10, 25))
@given(st.sampled_from(sorted(PARTS)), ups, st.integers(0, 1000), st.floats(0.02, 0.3))
def test_layers_add_up_to_the_measures(name, up, seed, layer):
    """Touch by class, support volume, part volume; as many layers as the measure says."""
    mesh = PARTS[name]
    part = prepare_part(mesh)
    classes = np.random.default_rng(seed).integers(0, 3, mesh.face_count).astype(np.uint8)
    profile = profiled(mesh, up, classes, cells=96, layer_mm=layer)
    measures = measure_pose(part, classes, Pose(up), PrintSettings(layer_mm=layer), "quick")
    assert len(profile.area_mm2) == measures.layers == layer_count(measures.height_mm, layer)
    area, box = mesh.face_areas_mm2.sum(), np.prod(mesh.box_mm[1] - mesh.box_mm[0])
    touch = measures.touch_area_mm2
    # Small faces share one scale within a class, so their slopes are averaged.
    assert profile.touch_mm2.sum(axis=0) == pytest.approx(touch[:3], rel=0.02, abs=1e-3 * area)
    volume = profile.support_area_mm2.sum() * layer
    plan = measures.support_plan_area_mm2
    assert volume == pytest.approx(measures.support_volume_mm3, abs=plan * layer + 1e-9 * box)
    # Level faces that lie between two middles: at most half a layer of them.
    assert profile.area_mm2.sum() * layer == pytest.approx(part.volume_mm3, abs=0.5 * layer * area)
    both = (profile.area_mm2 > 1e-6) & (profile.support_area_mm2 > 0)
    assert (profile.mixed == both).all()
    assert (profile.support_area_mm2 >= 0).all()


@settings(max_examples=15)
@given(st.sampled_from(sorted(PARTS)), ups, st.floats(0.4, 3))
def test_scaling_part_and_layers_scales_the_profile(name, up, factor):
    mesh = PARTS[name]
    one = profiled(mesh, up, cells=96, layer_mm=0.2)
    other = profiled(shapes.scaled(mesh, factor), up, cells=96, layer_mm=0.2 * factor)
    assert len(other.area_mm2) == len(one.area_mm2)
    # The 0.001 mm within which bodies count as one does not scale.
    area = one.area_mm2.sum() * factor**2
    assert other.area_mm2.sum() == pytest.approx(area, rel=5e-3)
    support = one.support_area_mm2.sum() * factor**2
    assert other.support_area_mm2.sum() == pytest.approx(support, rel=5e-3, abs=1e-3 * area)
