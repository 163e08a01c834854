"""Support volume and landing of a pose, sampled on upright lines and weighed by exact areas.

For an underside at z₁ above the next solid or the platform at z₀, with dA its plan area:
    volume += (z₁ − z₀)·dA,   landing += dA / |n_z of the face below|, or dA on the platform.

The lines only tell *how high* supports are and *where* they land. How much underside there is, is
known exactly from the faces, so each face's samples are scaled to its exact plan area (stratified
ratio estimator); small faces share one scale with others of their class. A box or a bracket comes
out exact on the coarsest grid.

Standard error: each row of lines has random shifts of its own, so rows are independent samples of
neighbouring strips. With R_j the sum over row j of the samples' deviations from their face's mean,
the variance is Σ (R_{j−1} − 2R_j + R_{j+1})² / 6 (second differences, which trends along the part
do not enlarge; Wolter 1985, Introduction to Variance Estimation, ch. 8; MEM).
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.column_field import ColumnField, ColumnGrid, column_field, grid_over
from viewer.geometry.compiled import compiled
from viewer.geometry.overhang import OVERHANG, Undersides
from viewer.geometry.prepared_part import PreparedPart
from viewer.geometry.support_walk import StandingSupports, stand_supports
from viewer.geometry.turned_part import TurnedPart

# A face on which fewer samples are to be expected shares its scale with others. To go by the
# samples found instead would prefer faces that happen to be met often, and bias the sums.
FEW_SAMPLES = 12
STEEPEST_LANDING = 0.02  # |n_z|; a wall steeper than 88.9° is no ground to land on
_SEED = 20240229
_PLATFORM = 3  # column of the landing sums; 0..2 are the face classes


class SupportSums(NamedTuple):
    """Numbers of the supports; sampled ones with one standard error.

    landing_mm2, landing_error_mm2 : (4,) float64: unmarked, A, B, platform
    """

    plan_mm2: float
    volume_mm3: float
    volume_error_mm3: float
    landing_mm2: np.ndarray
    landing_error_mm2: np.ndarray
    landing_total_error_mm2: float
    doubtful_share: float


def measure_supports(
    part: PreparedPart,
    turned: TurnedPart,
    undersides: Undersides,
    face_classes: np.ndarray,
    cells: int,
) -> SupportSums:
    """Volume and landing of the supports under all overhangs.

    face_classes : (m,) uint8
    cells : lines along the longer side of the box around the overhangs
    """
    found = _plan_of_overhangs(
        undersides.kinds, undersides.n_z, part.exposed_mm2, part.faces, turned.points_mm
    )
    under, plan, low, high = found
    nothing = np.zeros(4)
    if not len(under):
        return SupportSums(0.0, 0.0, 0.0, nothing, nothing, 0.0, 0.0)
    grid = grid_over(low, high, cells, np.random.default_rng(_SEED))
    field = column_field(turned.points_mm, part.faces, grid)
    standing = stand_supports(field, undersides.kinds == OVERHANG, turned.platform_mm)
    return _weigh(standing, grid, undersides.n_z, under, plan, face_classes)


@compiled
def _plan_of_overhangs(kinds, n_z, exposed, faces, points):
    """Overhanging faces, their plan areas, and the box around them in plan."""
    count = 0
    for f in range(len(kinds)):
        count += kinds[f] == OVERHANG
    under = np.empty(count, np.int32)
    plan = np.empty(count)
    low, high = np.full(2, np.inf), np.full(2, -np.inf)
    count = 0
    for f in range(len(kinds)):
        if kinds[f] != OVERHANG:
            continue
        under[count] = f
        plan[count] = exposed[f] * abs(np.float64(n_z[f]))
        count += 1
        for k in range(3):
            for axis in range(2):
                x = points[faces[f, k], axis]
                low[axis] = min(low[axis], x)
                high[axis] = max(high[axis], x)
    return under, plan, low, high


def _weigh(standing, grid, n_z, under, plan, face_classes):
    """Scale the samples to the exact plan areas and add them up with their errors."""
    stratum, exact, counts = _strata(standing.top_face, under, plan, face_classes, grid.pitch_mm)
    seen = counts > 0
    missed = exact[~seen].sum()
    scale = np.zeros(len(exact))
    scale[seen] = exact[seen] / counts[seen]
    if seen.any():
        scale *= 1.0 + missed / max(exact[seen].sum(), 1e-300)
    values = _sample_values(standing, n_z, face_classes)
    totals = np.array([np.sum(scale[stratum] * v) for v in values])
    spread = np.sqrt(counts / np.maximum(counts - 1, 1)) * scale
    row = standing.line // grid.nx
    errors = []
    for value in (*values, values[1:].sum(axis=0)):
        mean = np.bincount(stratum, value, len(exact)) / np.maximum(counts, 1)
        deviation = spread[stratum] * (value - mean[stratum])
        errors.append(_row_error(np.bincount(row, deviation, grid.ny)))
    # What no line met counts as wholly unknown.
    errors = np.array(errors) + missed * np.append(np.abs(totals), 0) / max(exact.sum(), 1e-300)
    return SupportSums(
        float(exact.sum()), float(totals[0]), float(errors[0]), totals[1:], errors[1:5],
        float(errors[5]), standing.doubtful_share,
    )  # fmt: skip


def _strata(top_face, under, plan, face_classes, pitch):
    """Stratum of each sample, exact plan area and number of samples of each stratum.

    The first three strata gather the small faces of each class; `under` rises.
    """
    large = plan >= FEW_SAMPLES * pitch**2
    alone = under[large]
    exact = np.bincount(face_classes[under[~large]], plan[~large], 3)
    exact = np.concatenate([exact, plan[large]])
    stratum = face_classes[top_face].astype(np.int32)
    if len(alone):
        place = np.minimum(np.searchsorted(alone, top_face), len(alone) - 1)
        stratum = np.where(alone[place] == top_face, 3 + place, stratum)
    return stratum, exact, np.bincount(stratum, minlength=len(exact))


def _sample_values(standing, n_z, face_classes):
    """(5, s): height of each support, and its landing per plan area on each class and platform."""
    values = np.zeros((5, len(standing.line)))
    values[0] = standing.top_mm - standing.bottom_mm
    on_part = standing.bottom_face >= 0
    ground = np.where(on_part, standing.bottom_face, 0)
    place = np.where(on_part, face_classes[ground], _PLATFORM)
    slope = np.maximum(np.abs(n_z[ground].astype(np.float64)), STEEPEST_LANDING)
    values[1 + place, np.arange(len(place))] = np.where(on_part, 1.0 / slope, 1.0)
    return values


def _row_error(sums: np.ndarray) -> float:
    if len(sums) < 3:
        return float(np.sqrt(np.sum(sums**2)))
    second = sums[:-2] - 2 * sums[1:-1] + sums[2:]
    return float(np.sqrt(np.sum(second**2) / 6.0 * len(sums) / len(second)))


def standing_supports_on(
    posed_mm: np.ndarray, faces: np.ndarray, needs_support: np.ndarray, cells: int
) -> tuple[ColumnGrid, ColumnField, StandingSupports]:
    """Supports on a regular grid in the posed frame, for drawing.

    posed_mm : (n, 3) float64, posed, platform at z = 0
    faces : (m, 3) int32, wound outward
    needs_support : (m,) bool
    cells : lines along the longer side of the part
    """
    grid = grid_over(posed_mm[:, :2].min(axis=0), posed_mm[:, :2].max(axis=0), cells, None)
    field = column_field(posed_mm, faces, grid)
    return grid, field, stand_supports(field, needs_support, 0.0)
