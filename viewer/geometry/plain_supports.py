"""Supports of a pose from a coarse field of random upright lines, in plain numpy.

As in `supports`, the lines only tell how high supports are and where they land; how much underside
there is, is known from the faces, to which the samples are scaled.
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.face_classes import ByClass
from viewer.geometry.plain_lines import Crossings, crossings
from viewer.geometry.pose_measures import Landing

CELLS = 64  # lines along the longer side of the box around the overhangs
FEW_SAMPLES = 12  # a face on which fewer are expected shares its scale with others of its class
STEEPEST_LANDING = 0.02  # |n_z|; a wall steeper than 88.9° is no ground to land on
CLOSED_GAP_MM = 0.001  # bodies closer than this are one body
_SEED = 20251125


class PlainSupports(NamedTuple):
    """Sums over all supports; those of `error` are one standard error."""

    plan_mm2: float
    volume_mm3: float
    landing_mm2: Landing
    touch_short_mm2: ByClass
    error: dict[str, object]
    doubtful_share: float


class Standing(NamedTuple):
    """Supports met by the lines; heights in the frame of the points, bottom_face −1: platform."""

    line: np.ndarray
    bottom_mm: np.ndarray
    top_mm: np.ndarray
    bottom_face: np.ndarray
    top_face: np.ndarray
    doubtful_share: float


def plain_supports(
    points_mm: np.ndarray,
    faces: np.ndarray,
    n_z: np.ndarray,
    plan_mm2: np.ndarray,
    face_classes: np.ndarray,
    platform_mm: float,
    layer_mm: float,
) -> PlainSupports:
    """Sums over the supports under all overhangs.

    points_mm : (n, 3) float64, z up; faces : (m, 3) int, wound outward
    n_z : (m,) float64
    plan_mm2 : (m,) float64, plan area of what overhangs of each face, 0 where nothing does
    face_classes : (m,) uint8
    """
    under = np.flatnonzero(plan_mm2 > 0)
    if not len(under):
        none = ByClass(0.0, 0.0, 0.0, 0.0)
        return PlainSupports(0.0, 0.0, Landing(0.0, 0.0, 0.0, 0.0, 0.0), none, {}, 0.0)
    plan = points_mm[:, :2][faces[under]]
    places, row, pitch = random_places(plan.min(axis=(0, 1)), plan.max(axis=(0, 1)), CELLS)
    standing = stand(crossings(points_mm, faces, places), plan_mm2 > 0, platform_mm)
    scale, stratum, missed = _scales(standing.top_face, under, plan_mm2, face_classes, pitch)
    values = _values(standing, n_z, face_classes, layer_mm)
    totals = values @ scale
    # Deviations from the mean of their stratum, summed by row of lines: rows are independent, and
    # their second differences leave out what changes steadily along the part (see `weighing`).
    count = np.bincount(stratum)
    deviations = np.zeros((len(values), int(row.max()) + 1))
    for kind, value in enumerate(values):
        mean = np.bincount(stratum, value) / np.maximum(count, 1)
        off = scale * (value - mean[stratum])
        deviations[kind] = np.bincount(row[standing.line], off, deviations.shape[1])
    if deviations.shape[1] > 2:
        deviations = np.diff(deviations, n=2) / np.sqrt(6.0)
    errors = np.sqrt((deviations**2).sum(axis=1)) + missed * np.abs(totals)
    error = {
        "support_volume_mm3": float(errors[0]),
        "landing_area_mm2": _landing(errors),
        "touch_short_mm2": _by_class(errors),
    }
    return PlainSupports(
        float(plan_mm2.sum()), float(totals[0]), _landing(totals), _by_class(totals), error,
        standing.doubtful_share,
    )  # fmt: skip


def random_places(
    low_mm: np.ndarray, high_mm: np.ndarray, cells: int
) -> tuple[np.ndarray, np.ndarray, float]:
    """One random place in each square cell over a box, the row of cells of each, and the pitch.

    low_mm, high_mm : (2,) float64; cells : along the longer side
    """
    rng = np.random.default_rng(_SEED)
    size = np.maximum(high_mm - low_mm, 1e-6)
    pitch = float(size.max() / cells)
    nx, ny = (int(n) for n in np.maximum(np.ceil(size / pitch - 1e-9), 1))
    corner = 0.5 * (low_mm + high_mm - pitch * np.array([nx, ny]))
    row, column = (each.ravel() for each in np.mgrid[0:ny, 0:nx])
    places = corner + pitch * (np.column_stack([column, row]) + rng.random((nx * ny, 2)))
    return places, row, pitch


def stand(met: Crossings, needs_support: np.ndarray, platform_mm: float) -> Standing:
    """Walk up all lines at once; solid where the winding is above 0, as in `support_walk`."""
    if not len(met.line):
        nothing = np.empty(0, np.int64)
        return Standing(nothing, np.empty(0), np.empty(0), nothing, nothing, 0.0)
    place = np.arange(len(met.line))
    first = np.concatenate([[True], met.line[1:] != met.line[:-1]])
    start = np.maximum.accumulate(np.where(first, place, 0))
    group = np.cumsum(first) - 1
    balance = np.bincount(group, met.sign)
    open_line = balance[group] != 0
    total = np.cumsum(met.sign)
    winding = total - (total[start] - met.sign[start])
    enters = met.sign > 0
    after_side = first | np.concatenate([[False], ~enters[:-1]])
    begins = enters & np.where(open_line, after_side, winding == 1)
    ends = ~enters & (open_line | (winding == 0))
    last_end = np.concatenate([[-1], np.maximum.accumulate(np.where(ends, place, -1))[:-1]])
    on_part = last_end >= start
    floor = np.where(on_part, met.z_mm[last_end], platform_mm)
    apart = ~on_part | (met.z_mm - floor >= CLOSED_GAP_MM)
    kept = np.flatnonzero(begins & apart & needs_support[met.face])
    return Standing(
        met.line[kept], floor[kept], met.z_mm[kept],
        np.where(on_part, met.face[last_end], -1)[kept], met.face[kept],
        float(np.mean(balance != 0)),
    )  # fmt: skip


def _scales(top_face, under, plan, face_classes, pitch):
    """Plan area that each sample stands for, its stratum, and the share of area no line met."""
    alone = np.zeros(len(plan), np.int64)
    large = under[plan[under] >= FEW_SAMPLES * pitch**2]
    alone[large] = 3 + np.arange(len(large))
    stratum_of_face = np.where(alone > 0, alone, face_classes)
    exact = np.bincount(stratum_of_face[under], plan[under], 3 + len(large))
    stratum = stratum_of_face[top_face]
    count = np.bincount(stratum, minlength=len(exact))
    met = count > 0
    missed = exact[~met].sum()
    scale = np.where(met, exact / np.maximum(count, 1), 0.0)
    if met.any():
        scale *= 1.0 + missed / exact[met].sum()
    return scale[stratum], stratum, float(missed / exact.sum())


def _values(standing: Standing, n_z, face_classes, layer):
    """(8, s): volume, landing by class and on the platform, short touch by class, per plan area."""
    gap = standing.top_mm - standing.bottom_mm
    on_part = standing.bottom_face >= 0
    steep = np.maximum(np.abs(n_z[standing.bottom_face]), STEEPEST_LANDING)
    landing = np.where(on_part, 1.0 / steep, 1.0)
    ground = np.where(on_part, face_classes[standing.bottom_face], 3)
    short = np.where(gap < 0.5 * layer, 1.0 / np.abs(n_z[standing.top_face]), 0.0)
    own = face_classes[standing.top_face]
    rows = [
        gap,
        *(landing * (ground == k) for k in range(4)),
        *(short * (own == k) for k in range(3)),
    ]
    return np.stack(rows)


def _landing(sums) -> Landing:
    unmarked, a, b, platform = (float(x) for x in sums[1:5])
    return Landing(a, b, unmarked, platform, unmarked + a + b + platform)


def _by_class(sums) -> ByClass:
    unmarked, a, b = (float(x) for x in sums[5:8])
    return ByClass(a, b, unmarked, unmarked + a + b)
