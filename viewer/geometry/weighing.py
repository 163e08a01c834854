"""Scale samples on upright lines to exact plan areas, and add them up with a standard error.

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

from viewer.geometry.compiled import compiled

# A face on which fewer samples are to be expected shares its scale with others. To go by the
# samples found instead would prefer faces that happen to be met often, and bias the sums.
FEW_SAMPLES = 12


class Scales(NamedTuple):
    """How much plan area each sample stands for.

    stratum : (s,) int32, of each sample; 0..2 gather the small faces of each class
    counts : (t,) int64, samples in each stratum
    scale_mm2 : (t,) float64, plan area per sample
    missed_share : share of the plan area in strata that no line met
    """

    stratum: np.ndarray
    counts: np.ndarray
    scale_mm2: np.ndarray
    missed_share: float


def scales_of_samples(
    top_face: np.ndarray,
    large: np.ndarray,
    large_plan_mm2: np.ndarray,
    small_plan_mm2: np.ndarray,
    face_classes: np.ndarray,
) -> Scales:
    """Strata and scales.

    top_face : (s,) int32, underside on which each sample lies
    large : (u,) int32, undersides large enough for a scale of their own, rising
    large_plan_mm2 : (u,) float64, their exact plan areas
    small_plan_mm2 : (3,) float64, the sum of all others, by class
    face_classes : (m,) uint8
    """
    exact = np.concatenate([small_plan_mm2, large_plan_mm2])
    stratum = face_classes[top_face].astype(np.int32)
    if len(large):
        place = np.minimum(np.searchsorted(large, top_face), len(large) - 1)
        stratum = np.where(large[place] == top_face, 3 + place, stratum).astype(np.int32)
    counts = np.bincount(stratum, minlength=len(exact))
    met = counts > 0
    missed = float(exact[~met].sum())
    scale = exact / np.maximum(counts, 1) * met
    if met.any():
        scale *= 1.0 + missed / max(float(exact[met].sum()), 1e-300)
    return Scales(stratum, counts, scale, missed / max(float(exact.sum()), 1e-300))


def weigh(
    values: np.ndarray, scales: Scales, row: np.ndarray, rows: int
) -> tuple[np.ndarray, np.ndarray]:
    """Sum of each kind of value over the plan, and its standard error.

    values : (k, s) float64, per plan area
    row : (s,) int32, row of lines of each sample; there are `rows` of them
    returns (k,) and (k,) float64
    """
    totals, by_row = _sum_rows(values, scales.stratum, scales.counts, scales.scale_mm2, row, rows)
    if rows < 3:
        errors = np.sqrt((by_row**2).sum(axis=1))
    else:
        second = by_row[:, :-2] - 2 * by_row[:, 1:-1] + by_row[:, 2:]
        errors = np.sqrt((second**2).sum(axis=1) / 6.0 * rows / (rows - 2))
    # What no line met counts as wholly unknown.
    return totals, errors + scales.missed_share * np.abs(totals)


@compiled
def _sum_rows(values, stratum, counts, scale, row, rows):
    kinds = len(values)
    totals, by_row = np.zeros(kinds), np.zeros((kinds, rows))
    mean = np.empty(len(counts))
    for k in range(kinds):
        value = values[k]
        mean[:] = 0.0
        for i in range(len(stratum)):
            mean[stratum[i]] += value[i]
        for s in range(len(counts)):
            totals[k] += scale[s] * mean[s]
            mean[s] /= max(counts[s], 1)
        for i in range(len(stratum)):
            s = stratum[i]
            # A mean taken from n samples leaves deviations too small by (n − 1) / n in square.
            spread = np.sqrt(counts[s] / max(counts[s] - 1, 1))
            by_row[k, row[i]] += spread * scale[s] * (value[i] - mean[s])
    return totals, by_row
