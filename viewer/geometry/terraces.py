"""Terraces of a pose: which faces step visibly, how wide, how deep the cusps are.

A face counts only where its smooth run (see `smooth_runs`) spans more than one layer in height: a
flat top or fine relief within a layer is no field of terraces. Width s = t / tan α = t·|n_z| /
√(1 − n_z²), capped at 20 mm; cusp C = t·|n_z|.
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.face_classes import ByClass
from viewer.geometry.prepared_part import PreparedPart
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.smooth_runs import runs_higher_than

WIDEST_MM = 20.0


class Terraces(NamedTuple):
    """Means are weighted by area over the faces that count; 0 where none does."""

    mean_width_mm: ByClass
    visible_area_mm2: ByClass
    cusp_mean_mm: ByClass
    counts: np.ndarray  # (m,) bool


def measure_terraces(
    part: PreparedPart,
    up: np.ndarray,
    n_z: np.ndarray,
    face_classes: np.ndarray,
    settings: PrintSettings,
) -> Terraces:
    """Terrace width, visible terraces and cusp height by class.

    up : (3,) float64, build direction in part coordinates
    n_z : (m,) float32, normal · build direction
    face_classes : (m,) uint8
    """
    higher = runs_higher_than(part.runs, part.points_mm, part.faces, up, settings.layer_mm)
    counts, sums = _sum_terraces(
        n_z, part.exposed_mm2, face_classes, part.runs.run_of_face, higher,
        settings.layer_mm, settings.road_mm,
    )  # fmt: skip
    sums = np.vstack([sums, sums.sum(axis=0)])  # rows: unmarked, A, B, total
    area = np.maximum(sums[:, 0], 1e-300)
    return Terraces(
        _by_class(sums[:, 1] / area), _by_class(sums[:, 2]), _by_class(sums[:, 3] / area), counts
    )


def _by_class(rows):
    unmarked, a, b, total = (float(x) for x in rows)
    return ByClass(a, b, unmarked, total)


@compiled
def _sum_terraces(n_z, areas, face_classes, run_of_face, higher, layer, road):
    counts = np.empty(len(n_z), np.bool_)
    sums = np.zeros((3, 4))  # by class: area, area · width, visible area, area · cusp
    for f in range(len(n_z)):
        counts[f] = higher[run_of_face[f]]
        if not counts[f]:
            continue
        level = min(abs(np.float64(n_z[f])), 1.0)
        upright = np.sqrt(1.0 - level * level)
        width = WIDEST_MM
        if layer * level < WIDEST_MM * upright:
            width = layer * level / upright
        area = areas[f]
        row = sums[face_classes[f]]
        row[0] += area
        row[1] += area * width
        row[2] += area * (width > road)
        row[3] += area * layer * level
    return counts, sums
