"""What must not change, or change in a known way, whatever the part (hypothesis)."""

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tests import shapes
from tests.few import few
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.pose import Pose
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.print_settings import PrintSettings

PARTS = [
    shapes.c_bracket(),
    shapes.post_inside_cap(),
    shapes.sealed_cavity(),
    shapes.torus(around=60, facets=40),
    shapes.cone(10, 25),
]
PREPARED = [prepare_part(mesh) for mesh in PARTS]
AREAS = (
    "overhang_area_mm2", "touch_area_mm2", "landing_area_mm2", "platform_contact_mm2",
    "terrace_visible_area_mm2",
)  # fmt: skip
ups = st.tuples(*[st.floats(-1, 1)] * 3).filter(lambda v: np.linalg.norm(v) > 0.1)
which = st.integers(0, len(PARTS) - 1)
seeds = st.integers(0, 1000)


def painted(index: int, seed: int) -> np.ndarray:
    rng = np.random.default_rng(seed)
    return rng.integers(0, 3, PARTS[index].face_count).astype(np.uint8)


@settings(max_examples=few(10, 25))
@given(which, ups, st.floats(0, 360), seeds)
def test_turning_about_the_build_direction_changes_nothing(index, up, spin, seed):
    part, classes = PREPARED[index], painted(index, seed)
    still = measure_pose(part, classes, Pose(up), PrintSettings(), "quick")
    spun = measure_pose(part, classes, Pose(up, spin), PrintSettings(), "quick")
    for name in (*AREAS, "support_volume_mm3", "terrace_mean_width_mm", "tip_angle_deg"):
        assert getattr(spun, name) == getattr(still, name)
    assert spun.error == still.error


@settings(max_examples=few(10, 25))
@given(which, ups, st.floats(0.3, 3), seeds)
def test_scaling_part_and_lengths_scales_the_measures(index, up, factor, seed):
    # Less than 0.001 mm off level is level, at every size.
    assume(all(part == 0 or abs(part) > 1e-3 * max(map(abs, up)) for part in up))
    classes = painted(index, seed)
    lengths = PrintSettings(layer_mm=0.2, road_mm=0.42)
    larger = PrintSettings(layer_mm=0.2 * factor, road_mm=0.42 * factor)
    one = measure_pose(PREPARED[index], classes, Pose(up), lengths, "quick")
    grown = prepare_part(shapes.scaled(PARTS[index], factor))
    other = measure_pose(grown, classes, Pose(up), larger, "quick")
    # The 0.001 mm within which bodies count as one does not scale; hence 1e-3 for areas.
    area = PARTS[index].face_areas_mm2.sum()
    for name in AREAS:
        scaled = np.array(getattr(one, name)) * factor**2
        slack = 1e-3 * area * factor**2
        assert getattr(other, name) == pytest.approx(scaled, rel=1e-6, abs=slack)
    volume = one.support_volume_mm3 * factor**3
    assert other.support_volume_mm3 == pytest.approx(volume, rel=2e-3, abs=1e-6)
    assert other.layers == pytest.approx(one.layers, abs=1)
    assert other.height_mm == pytest.approx(one.height_mm * factor, rel=1e-9)


@settings(max_examples=few(10, 25))
@given(which, ups, seeds, seeds)
def test_relabelling_moves_area_between_classes_and_keeps_totals(index, up, seed, other_seed):
    part = PREPARED[index]
    one = measure_pose(part, painted(index, seed), Pose(up), PrintSettings(), "quick")
    two = measure_pose(part, painted(index, other_seed), Pose(up), PrintSettings(), "quick")
    for name in ("overhang_area_mm2", "touch_area_mm2", "terrace_visible_area_mm2"):
        a, b = getattr(one, name), getattr(two, name)
        # Terraces are added up in single precision within each block of faces.
        assert a.total == pytest.approx(b.total, rel=1e-6, abs=1e-9)
        assert sum(a[:3]) == pytest.approx(a.total)
    # Small faces share their scale within a class, so sampled numbers move within their error.
    error = 4 * (one.error["support_volume_mm3"] + two.error["support_volume_mm3"])
    slack = error + 0.005 * one.support_volume_mm3 + 1e-9
    assert abs(one.support_volume_mm3 - two.support_volume_mm3) <= slack
    assert sum(one.landing_area_mm2[:4]) == pytest.approx(one.landing_area_mm2.total)


@settings(max_examples=15)
@given(which, ups)
def test_quick_and_full_agree_on_what_is_exact(index, up):
    part, classes = PREPARED[index], painted(index, 1)
    quick = measure_pose(part, classes, Pose(up), PrintSettings(), "quick")
    full = measure_pose(part, classes, Pose(up), PrintSettings(), "full")
    for name in ("overhang_area_mm2", "touch_area_mm2", "platform_contact_mm2", "cusp_mean_mm"):
        assert getattr(quick, name) == getattr(full, name)
    assert quick.first_layer_mm2 == full.first_layer_mm2
    assert quick.tip_angle_deg == full.tip_angle_deg
