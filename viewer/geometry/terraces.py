"""Terraces of a pose: which faces step visibly, how wide, how deep the cusps are.

A face counts only where its smooth run (see `smooth_runs`) spans more than one layer in height: a
flat top or fine relief within a layer is no field of terraces. Width s = t / tan α = t·|n_z| /
√(1 − n_z²), capped at 20 mm; cusp C = t·|n_z|.
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.face_classes import ByClass

WIDEST_MM = 20.0


class Terraces(NamedTuple):
    """Means are weighted by area over the faces that count; 0 where none does."""

    mean_width_mm: ByClass
    visible_area_mm2: ByClass
    cusp_mean_mm: ByClass
    counts: np.ndarray  # (m,) bool


def measure_terraces(
    n_z: np.ndarray,
    areas_mm2: np.ndarray,
    face_classes: np.ndarray,
    run_of_face: np.ndarray,
    run_heights_mm: np.ndarray,
    layer_mm: float,
    road_mm: float,
) -> Terraces:
    """Terrace width, visible terraces and cusp height by class.

    n_z : (m,) float, normal · build direction
    areas_mm2 : (m,) float64, surface of the union only
    face_classes : (m,) uint8
    run_of_face : (m,) int32
    run_heights_mm : (r,) float64, height each run spans in this pose
    """
    high = run_heights_mm > layer_mm
    counts, sums = _sum_terraces(n_z, areas_mm2, face_classes, run_of_face, high, layer_mm, road_mm)
    sums = np.vstack([sums, sums.sum(axis=0)])  # rows: unmarked, A, B, total
    area = np.maximum(sums[:, 0], 1e-300)
    return Terraces(
        _by_class(sums[:, 1] / area), _by_class(sums[:, 2]), _by_class(sums[:, 3] / area), counts
    )


def _by_class(rows):
    unmarked, a, b, total = (float(x) for x in rows)
    return ByClass(a, b, unmarked, total)


@compiled
def _sum_terraces(n_z, areas, face_classes, run_of_face, high, layer, road):
    counts = np.empty(len(n_z), np.bool_)
    sums = np.zeros((3, 4))  # by class: area, area · width, visible area, area · cusp
    for f in range(len(n_z)):
        counts[f] = high[run_of_face[f]]
        if not counts[f]:
            continue
        c = face_classes[f]
        flat = min(abs(float(n_z[f])), 1.0)
        upright = np.sqrt(1.0 - flat * flat)
        width = WIDEST_MM
        if layer * flat < WIDEST_MM * upright:
            width = layer * flat / upright
        area = areas[f]
        sums[c, 0] += area
        sums[c, 1] += area * width
        if width > road:
            sums[c, 2] += area
        sums[c, 3] += area * layer * flat
    return counts, sums


@compiled
def run_heights(z_mm, faces, run_of_face, runs):
    """(r,) float64: the height each run of faces spans.

    z_mm : (n,) float64 vertex heights; faces : (m, 3) int32; run_of_face : (m,) int32
    """
    low = np.full(runs, np.inf)
    high = np.full(runs, -np.inf)
    for f in range(len(faces)):
        a, b, c = z_mm[faces[f, 0]], z_mm[faces[f, 1]], z_mm[faces[f, 2]]
        r = run_of_face[f]
        low[r] = min(low[r], a, b, c)
        high[r] = max(high[r], a, b, c)
    return high - low
