"""All numbers of one pose, in short steps."""

from functools import partial
from typing import Literal

import numpy as np

from viewer.geometry.at_rest import measure_at_rest
from viewer.geometry.face_classes import ByClass
from viewer.geometry.face_pass import pass_over_faces
from viewer.geometry.first_layer import first_layer_segments, section_area_mm2
from viewer.geometry.layer_profile import layer_count
from viewer.geometry.overhang import Undersides
from viewer.geometry.pose import Pose, rotation
from viewer.geometry.pose_measures import FaceFields, PoseMeasures
from viewer.geometry.prepared_part import PreparedPart
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.stability import tip_angle_deg
from viewer.geometry.support_columns import SupportColumns
from viewer.geometry.supports import SupportSums, drawn_columns, measure_supports
from viewer.geometry.sureness import over_allowed
from viewer.geometry.turned_part import turn_part, turn_part_by
from viewer.progress import Progress

# Lines along the longer side of the box around the overhangs. While a part of very many faces is
# turned, fewer must do: most of the time goes by passing over faces.
SAMPLE_CELLS = {"quick": 96, "full": 512}
MANY_FACES = 400_000
_CELLS_OF_MANY = 64
# Of so few faces there is time to measure again with more lines where the sums are too unsure. The
# error falls with about the 1.25th power of their number along a side.
FEW_FACES, MOST_CELLS = 200_000, 1024
_POWER, _RESERVE = 0.8, 1.2
# Samples on level undersides ask rays all round; fewer samples do.
BRIDGE_CELLS = {"quick": 48, "full": 256}
DRAWN_CELLS = {"quick": 112, "full": 192}


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
    turned = turn_part(part.points_mm, pose.up, part.point_blocks)
    progress.report(0.1, "Undersides and terraces")
    under, terraces = pass_over_faces(part, turned, face_classes, settings)
    progress.report(0.3, "Standing")
    standing = first_layer_segments(part, turned, settings.layer_mm)
    centroid = turned.rotation @ part.centroid_mm - [0.0, 0.0, turned.platform_mm]
    progress.report(0.4, "Supports")
    sums = _supports(part, turned, under, face_classes, settings, tier, progress)
    bridged = _at_most(sums.bridged_mm2, under.overhang_mm2)
    error = dict(sums.error)
    faces = FaceFields(partial(_touch_share, under, sums), terraces.counts)
    at_rest = {}
    if tier == "full":
        at_rest, more_error = measure_at_rest(
            part, turned, face_classes, pose, settings, under, faces.touch_share, terraces, sums,
            standing, centroid, progress.part(0.5, 0.9),
        )  # fmt: skip
        error |= more_error
    drawn = _drawn(part, pose, faces, tier, progress) if columns else None
    progress.report(1.0)
    return PoseMeasures(
        tier=tier,
        height_mm=turned.height_mm,
        layers=layer_count(turned.height_mm, settings.layer_mm),
        overhang_area_mm2=under.overhang_mm2,
        touch_area_mm2=_less(under.overhang_mm2, bridged),
        touch_short_mm2=sums.touch_short_mm2,
        bridged_area_mm2=bridged,
        landing_area_mm2=sums.landing_mm2,
        support_volume_mm3=sums.volume_mm3,
        support_plan_area_mm2=sums.plan_mm2,
        platform_contact_mm2=under.platform_contact_mm2,
        first_layer_mm2=section_area_mm2(standing),
        terrace_mean_width_mm=terraces.mean_width_mm,
        terrace_visible_area_mm2=terraces.visible_area_mm2,
        cusp_mean_mm=terraces.cusp_mean_mm,
        tip_angle_deg=tip_angle_deg(standing.reshape(-1, 2), centroid),
        doubtful_share=sums.doubtful_share,
        notes=part.notes,
        error=error,
        faces=faces,
        columns=drawn,
        **at_rest,
    )


def _drawn(part, pose, faces: FaceFields, tier: str, progress) -> SupportColumns:
    progress.report(0.9, "Support columns")
    spun = turn_part_by(part.points_mm, rotation(pose), part.point_blocks)
    return drawn_columns(part, spun, faces.touch_share > 0, DRAWN_CELLS[tier], progress)


def sample_cells(part: PreparedPart, settings: PrintSettings, tier: str) -> int:
    """Lines along the longer side of the box around the overhangs."""
    if settings.bridge_mm:
        return BRIDGE_CELLS[tier]
    if tier == "quick" and len(part.faces) > MANY_FACES:
        return _CELLS_OF_MANY
    return SAMPLE_CELLS[tier]


def _supports(part, turned, under, face_classes, settings, tier, progress) -> SupportSums:
    cells = sample_cells(part, settings, tier)
    sums = measure_supports(part, turned, under, face_classes, settings, cells, progress)
    if tier == "full" and len(part.faces) <= FEW_FACES:
        over = _over_allowed(part, sums)
        if over > 1:
            cells = int(min(_RESERVE * cells * over**_POWER, MOST_CELLS))
            sums = measure_supports(part, turned, under, face_classes, settings, cells, progress)
    return sums


def _over_allowed(part: PreparedPart, sums: SupportSums) -> float:
    """By how much the least sure sum over the supports misses what is allowed."""
    area = float(part.exposed_mm2.sum())
    box = float(np.prod(np.ptp(part.mesh.box_mm, axis=0)))
    pairs = [
        (sums.landing_mm2, sums.error["landing_area_mm2"], area),
        (sums.touch_short_mm2, sums.error["touch_short_mm2"], area),
        ((sums.volume_mm3,), (sums.error["support_volume_mm3"],), box),
    ]
    if "bridged_area_mm2" in sums.error:
        pairs.append((sums.bridged_mm2, sums.error["bridged_area_mm2"], area))
    return max(
        over_allowed(np.array(values), np.array(errors), whole) for values, errors, whole in pairs
    )


def _at_most(bridged: ByClass, overhang: ByClass) -> ByClass:
    """What is bridged overhangs; only samples that share a slope can tell a little more."""
    a, b, unmarked = (min(pair) for pair in zip(bridged[:3], overhang[:3], strict=True))
    return ByClass(a, b, unmarked, a + b + unmarked)


def _less(overhang: ByClass, bridged: ByClass) -> ByClass:
    """Touch: what overhangs less what is bridged."""
    return ByClass(*(max(over - span, 0.0) for over, span in zip(overhang, bridged, strict=True)))


def _touch_share(under: Undersides, sums: SupportSums) -> np.ndarray:
    if sums.bridged_share is None:
        return under.overhang_share
    return under.overhang_share * (1 - sums.bridged_share)
