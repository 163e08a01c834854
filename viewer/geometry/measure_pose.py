"""All numbers of one pose, in short steps."""

from typing import Literal, NamedTuple

import numpy as np

from viewer.geometry.face_classes import sum_by_class
from viewer.geometry.first_layer import section_area_mm2, section_segments
from viewer.geometry.overhang import ON_PLATFORM, OVERHANG, underside_kinds
from viewer.geometry.pose import Pose, pose_matrix, rotation_about_z, shortest_turn_to_z
from viewer.geometry.pose_measures import FaceFields, Landing, PoseMeasures
from viewer.geometry.prepared_part import PreparedPart
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.stability import tip_angle_deg
from viewer.geometry.support_columns import SupportColumns
from viewer.geometry.supports import SupportSums, measure_supports, standing_supports_on
from viewer.geometry.terraces import Terraces, measure_terraces, run_heights
from viewer.progress import Progress

SAMPLE_CELLS = {"quick": 96, "full": 512}
DRAWN_CELLS = {"quick": 112, "full": 192}
# Sample rows run askew to the part, so that its straight edges do not lie along them.
_SKEW_DEG = 29.3


class _Turned(NamedTuple):
    """The part turned so that z is up; spin is left out, so that no number depends on it."""

    rotation: np.ndarray
    points_mm: np.ndarray
    platform_mm: float
    height_mm: float
    n_z: np.ndarray
    kinds: np.ndarray


def measure_pose(
    part: PreparedPart,
    face_classes: np.ndarray,
    pose: Pose,
    settings: PrintSettings,
    tier: Literal["quick", "full"] = "full",
    progress: Progress | None = None,
    columns: bool = False,
) -> PoseMeasures:
    """Measure a part in a pose; definitions are those of the page "How it measures".

    face_classes : (m,) uint8, see `face_classes`
    tier : "quick" while the part turns, "full" at rest
    columns : also return the support columns for drawing, in the posed frame
    raises Cancelled if `progress` says so
    """
    progress = progress or Progress()
    turned = _turn(part, pose, settings)
    overhangs = (turned.kinds == OVERHANG) & (part.exposed_share > 0)
    overhang_mm2 = np.where(overhangs, part.exposed_mm2, 0.0)
    progress.report(0.2, "Terraces")
    terraces = _terraces(part, turned, face_classes, settings)
    first_layer_mm2, tip_deg = _standing(part, turned, settings)
    progress.report(0.4, "Supports")
    plan_mm2 = overhang_mm2 * np.abs(turned.n_z)
    sums = measure_supports(
        turned.points_mm, part.faces, turned.n_z, overhangs, plan_mm2, face_classes,
        SAMPLE_CELLS[tier],
    )  # fmt: skip
    drawn = None
    if columns:
        progress.report(0.8, "Support columns")
        drawn = support_columns(part, pose, overhangs, DRAWN_CELLS[tier])
    progress.report(1.0)
    overhang = sum_by_class(overhang_mm2, face_classes)
    contact = np.where(turned.kinds == ON_PLATFORM, part.exposed_mm2, 0.0)
    return PoseMeasures(
        tier=tier,
        height_mm=turned.height_mm,
        layers=layer_count(turned.height_mm, settings.layer_mm),
        overhang_area_mm2=overhang,
        touch_area_mm2=overhang,
        landing_area_mm2=_landing(sums.landing_mm2),
        support_volume_mm3=sums.volume_mm3,
        support_plan_area_mm2=float(plan_mm2.sum()),
        platform_contact_mm2=sum_by_class(contact, face_classes),
        first_layer_mm2=first_layer_mm2,
        terrace_mean_width_mm=terraces.mean_width_mm,
        terrace_visible_area_mm2=terraces.visible_area_mm2,
        cusp_mean_mm=terraces.cusp_mean_mm,
        tip_angle_deg=tip_deg,
        doubtful_share=sums.doubtful_share,
        notes=part.notes,
        error=_errors(sums),
        faces=FaceFields(np.where(overhangs, part.exposed_share, np.float32(0)), terraces.counts),
        columns=drawn,
    )


def layer_count(height_mm: float, layer_mm: float) -> int:
    """Number of layers that hold `height_mm`; a thousandth of a layer is rounding, not a layer."""
    return max(int(np.ceil(height_mm / layer_mm - 1e-3)), 1)


def support_columns(
    part: PreparedPart, pose: Pose, needs_support: np.ndarray, cells: int
) -> SupportColumns:
    """The supports on a regular grid in the posed frame, `cells` along the part's longer side."""
    matrix = pose_matrix(part.points_mm, pose)
    posed = part.points_mm @ matrix[:3, :3].T + matrix[:3, 3]
    grid, _, standing = standing_supports_on(posed, part.faces, needs_support, cells)
    row, column = np.divmod(standing.line, grid.nx)
    return SupportColumns(
        origin_mm=np.array([grid.x0_mm, grid.y0_mm]) + 0.5 * grid.pitch_mm,
        pitch_mm=grid.pitch_mm,
        shape=(grid.nx, grid.ny),
        cell=(column * grid.ny + row).astype(np.int32),
        bottom_mm=standing.bottom_mm.astype(np.float32),
        top_mm=standing.top_mm.astype(np.float32),
        bottom_face=standing.bottom_face,
        top_face=standing.top_face,
    )


def _turn(part: PreparedPart, pose: Pose, settings: PrintSettings) -> _Turned:
    up = np.asarray(pose.up)
    turn = rotation_about_z(_SKEW_DEG) @ shortest_turn_to_z(up)
    points = part.points_mm @ turn.T
    z = np.ascontiguousarray(points[:, 2])
    low, high = float(z.min()), float(z.max())
    n_z, kinds = underside_kinds(part.normals, up, part.faces, z - low, settings.support_limit_deg)
    return _Turned(turn, points, low, high - low, n_z, kinds)


def _terraces(part, turned, face_classes, settings) -> Terraces:
    z = np.ascontiguousarray(turned.points_mm[:, 2])
    heights = run_heights(z, part.faces, part.run_of_face, part.runs)
    return measure_terraces(
        turned.n_z, part.exposed_mm2, face_classes, part.run_of_face, heights,
        settings.layer_mm, settings.road_mm,
    )  # fmt: skip


def _standing(part, turned, settings) -> tuple[float, float | None]:
    """First-layer section and tip angle."""
    z = turned.platform_mm + 0.5 * settings.layer_mm
    points = turned.points_mm
    if part.solid_points_mm is not part.points_mm:
        points = part.solid_points_mm @ turned.rotation.T
    segments = section_segments(points, part.solid_faces, z)
    centroid = turned.rotation @ part.centroid_mm - [0.0, 0.0, turned.platform_mm]
    return section_area_mm2(segments), tip_angle_deg(segments.reshape(-1, 2), centroid)


def _landing(sums: np.ndarray) -> Landing:
    unmarked, a, b, platform = (float(x) for x in sums)
    return Landing(a, b, unmarked, platform, float(sums.sum()))


def _errors(sums: SupportSums) -> dict[str, object]:
    unmarked, a, b, platform = (float(x) for x in sums.landing_error_mm2)
    landing = Landing(a, b, unmarked, platform, sums.landing_total_error_mm2)
    return {"support_volume_mm3": sums.volume_error_mm3, "landing_area_mm2": landing}
