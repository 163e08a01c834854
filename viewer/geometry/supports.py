"""Supports of a pose: volume, landing, bridges, short touch, sampled on upright lines.

For an underside at z₁ above the next solid or the platform at z₀, with dA its plan area:
    volume += (z₁ − z₀)·dA,   landing += dA / |n_z of the face below|, or dA on the platform.
What is bridged (see `bridges`) gets no support. Touch over gaps shorter than half a layer is also
added up by itself. How samples become sums: see `weighing`.
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.bridges import STEEPEST_BRIDGE_DEG, bridged_points
from viewer.geometry.column_field import column_field
from viewer.geometry.column_grid import grid_over
from viewer.geometry.compiled import compiled
from viewer.geometry.face_classes import ByClass
from viewer.geometry.face_rows import n_z_of_face
from viewer.geometry.overhang import OVERHANG, Undersides
from viewer.geometry.overhang_plan import box_of_overhangs, large_overhangs
from viewer.geometry.point_box import point_box
from viewer.geometry.pose_measures import Landing
from viewer.geometry.prepared_part import PreparedPart
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.support_columns import SupportColumns
from viewer.geometry.support_samples import NO_SUPPORTS, SupportSamples
from viewer.geometry.support_walk import StandingSupports, stand_supports
from viewer.geometry.turned_part import TurnedPart
from viewer.geometry.weighing import FEW_SAMPLES, scales_of_samples, weigh
from viewer.progress import Progress

STEEPEST_LANDING = 0.02  # |n_z|; a wall steeper than 88.9° is no ground to land on
_SEED = 20240229

# Rows of the table of sample values: three or four follow one another, one for each class
# (unmarked, A, B) and, for landing, the platform.
_VOLUME, _LANDING, _BRIDGED, _SHORT, _BRIDGED_PLAN, _LANDING_TOTAL, _BRIDGED_TOTAL = (
    0, 1, 5, 8, 11, 12, 13,
)  # fmt: skip
_SHORT_TOTAL, _ROWS = 14, 15


class SupportSums(NamedTuple):
    """Numbers of the supports; those of `error` are one standard error.

    bridged_share : (m,) float32, share of each underside that is bridged, or None if nothing is
    """

    plan_mm2: float
    volume_mm3: float
    landing_mm2: Landing
    bridged_mm2: ByClass
    touch_short_mm2: ByClass
    error: dict[str, object]
    doubtful_share: float
    bridged_share: np.ndarray | None
    samples: SupportSamples


def measure_supports(
    part: PreparedPart,
    turned: TurnedPart,
    undersides: Undersides,
    face_classes: np.ndarray,
    settings: PrintSettings,
    cells: int,
    progress: Progress | None = None,
) -> SupportSums:
    """Sums over the supports under all overhangs.

    face_classes : (m,) uint8
    cells : lines along the longer side of the box around the overhangs
    raises Cancelled if `progress` says so
    """
    progress = progress or Progress()
    plan = undersides.overhang_plan_mm2
    if not plan.any():
        zero = np.zeros(_ROWS)
        return _named(zero, zero, 0.0, 0.0, None, NO_SUPPORTS)
    low, high = box_of_overhangs(part, turned, undersides)
    grid = grid_over(low, high, cells, np.random.default_rng(_SEED))
    part.get_ready(progress, "for_lines")
    field = column_field(part.for_lines, turned.rotation, grid, progress)
    standing = stand_supports(field, undersides.kinds == OVERHANG, turned.platform_mm)
    progress.check()
    row, column = np.divmod(standing.line, grid.nx)
    places = np.column_stack(
        [
            grid.x0_mm + (column + grid.shift_u[row]) * grid.pitch_mm,
            grid.y0_mm + (row + grid.shift_v[row]) * grid.pitch_mm,
        ]
    )
    bridged = _bridged(part, turned, undersides, standing, places, grid.nx, settings, progress)
    values = _sample_values(
        standing.top_mm, standing.bottom_mm, standing.top_face, standing.bottom_face, bridged,
        part.rows, turned.up.astype(np.float32), face_classes, settings.layer_mm,
    )  # fmt: skip
    large, large_plan, small_plan = large_overhangs(
        undersides, face_classes, FEW_SAMPLES * grid.pitch_mm**2
    )
    scales = scales_of_samples(standing.top_face, large, large_plan, small_plan, face_classes)
    totals, errors = weigh(values, scales, row, grid.ny)
    share = _bridged_share(standing, bridged, len(part.faces)) if bridged.any() else None
    samples = _samples(standing, ~bridged, places, scales.scale_mm2[scales.stratum], row, grid.ny)
    return _named(totals, errors, float(plan.sum()), standing.doubtful_share, share, samples)


def _samples(standing, kept, places, plan, row, rows) -> SupportSamples:
    of_each = (
        places, standing.bottom_mm, standing.top_mm, standing.bottom_face, standing.top_face,
        plan, row,
    )  # fmt: skip
    if not kept.all():
        of_each = tuple(values[kept] for values in of_each)
    return SupportSamples(*of_each, rows)


def _bridged(
    part, turned, undersides, standing, places, lines_in_row, settings, progress
) -> np.ndarray:
    """(s,) bool: the sample's underside is bridged there."""
    none = np.zeros(len(places), bool)
    if settings.bridge_mm == 0:
        return none
    level = np.abs(undersides.n_z[standing.top_face]) >= np.cos(np.radians(STEEPEST_BRIDGE_DEG))
    # Over a gap of half a layer the chord would run inside the material below.
    asked = level & (standing.top_mm - standing.bottom_mm > 0.5 * settings.layer_mm)
    if not asked.any():
        return none
    points = np.column_stack([places, standing.top_mm + turned.platform_mm])
    part.get_ready(progress, "ray_tree")
    return bridged_points(
        part.ray_tree, turned.rotation, points, asked, standing.line, lines_in_row,
        settings.layer_mm, settings.bridge_mm, progress,
    )  # fmt: skip


@compiled
def _sample_values(top, bottom, top_face, bottom_face, bridged, rows, up, face_classes, layer):
    """(15, s): what each sample adds for each unit of plan area."""
    values = np.zeros((_ROWS, len(top)))
    for i in range(len(top)):
        slope = abs(np.float64(n_z_of_face(rows, up, top_face[i])))
        own = face_classes[top_face[i]]
        if bridged[i]:
            values[_BRIDGED + own, i] = 1.0 / slope
            values[_BRIDGED_TOTAL, i] = 1.0 / slope
            values[_BRIDGED_PLAN, i] = 1.0
            continue
        values[_VOLUME, i] = top[i] - bottom[i]
        if top[i] - bottom[i] < 0.5 * layer:
            values[_SHORT + own, i] = 1.0 / slope
            values[_SHORT_TOTAL, i] = 1.0 / slope
        landing, place = 1.0, 3
        if bottom_face[i] >= 0:
            ground = abs(np.float64(n_z_of_face(rows, up, bottom_face[i])))
            landing = 1.0 / max(ground, STEEPEST_LANDING)
            place = face_classes[bottom_face[i]]
        values[_LANDING + place, i] = landing
        values[_LANDING_TOTAL, i] = landing
    return values


def _bridged_share(standing: StandingSupports, bridged: np.ndarray, faces: int) -> np.ndarray:
    met = np.bincount(standing.top_face, minlength=faces)
    return (np.bincount(standing.top_face, bridged, faces) / np.maximum(met, 1)).astype(np.float32)


def _by_class(sums: np.ndarray, first: int, total: int) -> ByClass:
    unmarked, a, b = (float(x) for x in sums[first : first + 3])
    return ByClass(a, b, unmarked, float(sums[total]))


def _landing(sums: np.ndarray) -> Landing:
    unmarked, a, b, platform = (float(x) for x in sums[_LANDING : _LANDING + 4])
    return Landing(a, b, unmarked, platform, float(sums[_LANDING_TOTAL]))


def _named(totals, errors, plan_mm2, doubtful_share, bridged_share, samples) -> SupportSums:
    error: dict[str, object] = {
        "support_volume_mm3": float(errors[_VOLUME]),
        "landing_area_mm2": _landing(errors),
        "touch_short_mm2": _by_class(errors, _SHORT, _SHORT_TOTAL),
    }
    bridged = _by_class(totals, _BRIDGED, _BRIDGED_TOTAL)
    if bridged.total > 0:
        error["bridged_area_mm2"] = _by_class(errors, _BRIDGED, _BRIDGED_TOTAL)
        error["touch_area_mm2"] = error["bridged_area_mm2"]
        error["support_plan_area_mm2"] = float(errors[_BRIDGED_PLAN])
    return SupportSums(
        plan_mm2=max(plan_mm2 - float(totals[_BRIDGED_PLAN]), 0.0),
        volume_mm3=float(totals[_VOLUME]),
        landing_mm2=_landing(totals),
        bridged_mm2=bridged,
        touch_short_mm2=_by_class(totals, _SHORT, _SHORT_TOTAL),
        error=error,
        doubtful_share=doubtful_share,
        bridged_share=bridged_share,
        samples=samples,
    )


def drawn_columns(
    part: PreparedPart,
    turned: TurnedPart,
    needs_support: np.ndarray,
    cells: int,
    progress: Progress | None = None,
) -> SupportColumns:
    """The supports on a regular grid along the platform's axes, for drawing.

    turned : the part in its pose, spin included
    needs_support : (m,) bool
    cells : lines along the longer side of the part
    raises Cancelled if `progress` says so
    """
    progress = progress or Progress()
    part.get_ready(progress, "for_lines")
    (low, high), _ = point_box(turned.points_mm)
    grid = grid_over(low, high, cells, None)
    field = column_field(part.for_lines, turned.rotation, grid, progress)
    standing = stand_supports(field, needs_support, turned.platform_mm)
    row, column = np.divmod(standing.line, grid.nx)
    # In the posed frame the middle of the box stands at x = y = 0.
    corner = np.array([grid.x0_mm, grid.y0_mm]) - 0.5 * (low + high)[:2]
    return SupportColumns(
        origin_mm=corner + 0.5 * grid.pitch_mm,
        pitch_mm=grid.pitch_mm,
        shape=(grid.nx, grid.ny),
        cell=(column * grid.ny + row).astype(np.int32),
        bottom_mm=standing.bottom_mm.astype(np.float32),
        top_mm=standing.top_mm.astype(np.float32),
        bottom_face=standing.bottom_face,
        top_face=standing.top_face,
    )
