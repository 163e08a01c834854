"""A table of measures made up for tests that need numbers and no part."""

from dataclasses import replace

from viewer.geometry.face_classes import ByClass
from viewer.geometry.pose_measures import Landing, PoseMeasures

NONE = ByClass(0.0, 0.0, 0.0, 0.0)


def by_class(a: float = 0.0, b: float = 0.0, unmarked: float = 0.0) -> ByClass:
    return ByClass(a, b, unmarked, a + b + unmarked)


PLAIN = PoseMeasures(
    tier="full",
    height_mm=40.0,
    layers=200,
    overhang_area_mm2=NONE,
    touch_area_mm2=NONE,
    landing_area_mm2=Landing(0.0, 0.0, 0.0, 0.0, 0.0),
    support_volume_mm3=0.0,
    support_plan_area_mm2=0.0,
    platform_contact_mm2=NONE,
    first_layer_mm2=100.0,
    terrace_mean_width_mm=NONE,
    terrace_visible_area_mm2=NONE,
    cusp_mean_mm=NONE,
    ra_ideal_um=NONE,
    ra_estimate_um=NONE,
    tip_angle_deg=30.0,
    graze_area_mm2=NONE,
    islands=0,
    island_support_mm3=0.0,
    unreachable_support_mm3=0.0,
    sealed_support_mm3=0.0,
    tip_angle_supported_deg=30.0,
    tip_angle_worst_deg=30.0,
    tip_angle_worst_mm=40.0,
    flat_off_grid_mm2=NONE,
)


def measures(**changes: object) -> PoseMeasures:
    """Measures of a part that stands well and needs nothing, with some fields replaced."""
    return replace(PLAIN, **changes)
