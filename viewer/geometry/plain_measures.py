"""The measures of a pose in plain numpy, without any compiled code.

They are shown while the measuring code is still being compiled, and the compiled measures are
tested against them: both follow the same definitions by different ways. Not worked out here:
graze, bridges (everything that overhangs counts as touch), columns to draw.
"""

import numpy as np

from viewer.geometry.face_classes import ByClass, sum_by_class
from viewer.geometry.plain_part import PlainPart, enclosed
from viewer.geometry.plain_supports import CELLS, plain_supports, random_places
from viewer.geometry.pose import Pose, rotation_about_z, shortest_turn_to_z
from viewer.geometry.pose_measures import FaceFields, PoseMeasures
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.stability import tip_angle_deg
from viewer.progress import Progress
from viewer.words import later, say

LIMIT_TOLERANCE_DEG = 0.01  # equality is self-supporting
PLATFORM_ANGLE_DEG, PLATFORM_HEIGHT_MM = 0.1, 0.001
WIDEST_TERRACE_MM = 20.0
FIRST_NUMBERS = later(
    "First numbers, from a coarse grid. The exact ones follow when the measuring code is ready "
    "(once for each installation, some minutes)."
)
NO_BRIDGES = later("Bridges are not in the first numbers; all that overhangs counts as touch.")
_SKEW_DEG = 29.3


def measure_plainly(
    part: PlainPart,
    face_classes: np.ndarray,
    pose: Pose,
    settings: PrintSettings,
    progress: Progress | None = None,
) -> PoseMeasures:
    """Coarse measures of a part in a pose, tier "quick"; see `measure_pose`.

    face_classes : (m,) uint8
    raises Cancelled if `progress` says so
    """
    progress = progress or Progress()
    turn = rotation_about_z(_SKEW_DEG) @ shortest_turn_to_z(np.asarray(pose.up))
    points = part.points_mm @ turn.T
    used = points[part.faces[:, 0], 2], points[part.faces[:, 1], 2], points[part.faces[:, 2], 2]
    low = np.minimum(np.minimum(used[0], used[1]), used[2])
    high = np.maximum(np.maximum(used[0], used[1]), used[2])
    platform = float(low.min())
    height_mm = float(high.max()) - platform
    n_z = part.normals @ turn[2]
    progress.check()
    on_platform, overhangs = _undersides(n_z, high, platform, settings.support_limit_deg)
    overhang_mm2 = np.where(overhangs, part.exposed_mm2, 0.0)
    overhang = sum_by_class(overhang_mm2, face_classes)
    contact = sum_by_class(np.where(on_platform, part.exposed_mm2, 0.0), face_classes)
    supports = plain_supports(
        points, part.faces, n_z, overhang_mm2 * np.abs(n_z), face_classes, platform,
        settings.layer_mm,
    )  # fmt: skip
    progress.check()
    stepped = _in_high_runs(part, low, high, settings.layer_mm)
    width, visible, cusp = _terraces(n_z, part.exposed_mm2 * stepped, face_classes, settings)
    whole = np.where(part.areas_mm2 > 0, part.areas_mm2, 1.0)
    touch_share = (overhang_mm2 / whole).astype(np.float32)
    section_z = platform + 0.5 * settings.layer_mm
    outline = _section(points, part.faces, low, high, section_z)
    centroid = turn @ part.centroid_mm - [0.0, 0.0, platform]
    notes = (say(FIRST_NUMBERS), *([say(NO_BRIDGES)] if settings.bridge_mm else []), *part.notes)
    return PoseMeasures(
        tier="quick",
        height_mm=height_mm,
        layers=max(int(np.ceil(height_mm / settings.layer_mm - 1e-3)), 1),
        overhang_area_mm2=overhang,
        touch_area_mm2=overhang,
        touch_short_mm2=supports.touch_short_mm2,
        landing_area_mm2=supports.landing_mm2,
        support_volume_mm3=supports.volume_mm3,
        support_plan_area_mm2=supports.plan_mm2,
        platform_contact_mm2=contact,
        first_layer_mm2=_section_area(part, points, outline, section_z),
        terrace_mean_width_mm=width,
        terrace_visible_area_mm2=visible,
        cusp_mean_mm=cusp,
        tip_angle_deg=tip_angle_deg(outline.reshape(-1, 2), centroid),
        doubtful_share=supports.doubtful_share,
        notes=notes,
        error=supports.error,
        faces=FaceFields(touch_share, stepped),
    )


def _undersides(n_z, high, platform, support_limit_deg):
    """(m,) bool each: lies on the platform; overhangs."""
    level = n_z <= -np.cos(np.radians(PLATFORM_ANGLE_DEG))
    on_platform = level & (high <= platform + PLATFORM_HEIGHT_MM)
    strict_deg = support_limit_deg - LIMIT_TOLERANCE_DEG
    steepest = -np.cos(np.radians(strict_deg)) if strict_deg > 0 else -2.0
    return on_platform, (n_z < steepest) & ~on_platform


def _in_high_runs(part: PlainPart, low, high, layer_mm):
    """(m,) bool: the face's smooth run spans more than one layer in height."""
    first, members = part.run_starts[:-1], part.run_members
    if not len(first):
        return np.zeros(0, bool)
    height = np.maximum.reduceat(high[members], first) - np.minimum.reduceat(low[members], first)
    stepped = np.empty(len(members), bool)
    stepped[members] = np.repeat(height > layer_mm, np.diff(part.run_starts))
    return stepped


def _terraces(n_z, areas, face_classes, settings: PrintSettings):
    """Mean width s = t·|n_z|/√(1 − n_z²), visible area, mean cusp t·|n_z|, each by class."""
    level = np.minimum(np.abs(n_z), 1.0)
    upright = np.sqrt(1.0 - level * level)
    run = settings.layer_mm * level
    capped = run >= WIDEST_TERRACE_MM * upright
    width = np.where(capped, WIDEST_TERRACE_MM, run / np.where(capped, 1.0, upright))
    visible = sum_by_class(areas * (width > settings.shown_terrace_mm), face_classes)
    mean_width = _mean_by_class(width, areas, face_classes)
    return mean_width, visible, _mean_by_class(run, areas, face_classes)


def _mean_by_class(values, areas, face_classes) -> ByClass:
    sums, area = sum_by_class(areas * values, face_classes), sum_by_class(areas, face_classes)
    return ByClass(*(s / a if a > 0 else 0.0 for s, a in zip(sums, area, strict=True)))


def _section(points, faces, low, high, z):
    """(s, 2, 2) outline of the section at height z, the material on the left of each segment."""
    cut = faces[(low <= z) & (high > z)]
    segments = np.empty((len(cut), 2, 2))
    corners = points[cut]
    below = corners[..., 2] <= z
    for k in range(3):
        a, b = corners[:, k], corners[:, (k + 1) % 3]
        for rises, end in ((True, 1), (False, 0)):
            here = np.flatnonzero((below[:, k] == rises) & (below[:, (k + 1) % 3] != rises))
            share = (z - a[here, 2]) / (b[here, 2] - a[here, 2])
            step = share[:, None] * (b[here, :2] - a[here, :2])
            segments[here, end] = a[here, :2] + step
    return segments


def _section_area(part: PlainPart, points, outline, z):
    """Green's theorem; where shells touch or overlap, the share of random places inside."""
    if not len(outline):
        return 0.0
    ends = outline.reshape(-1, 2)
    if part.overlapping:
        places, _, pitch = random_places(ends.min(axis=0), ends.max(axis=0), 2 * CELLS)
        here = np.column_stack([places, np.full(len(places), z)])
        return float(enclosed(points, part.faces, here).sum() * pitch**2)
    a, b = outline[:, 0] - ends.mean(axis=0), outline[:, 1] - ends.mean(axis=0)
    return max(0.0, float(0.5 * np.sum(a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0])))
