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
_WIDEST = np.float32(WIDEST_MM)
_LEAST = np.float32(1e-12)  # flatter is level, and as wide as the widest
_BLOCK = 512  # faces summed in one go; they stay in the nearest cache


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
    weights = np.empty(_BLOCK, np.float32)
    for start in range(0, len(n_z), _BLOCK):
        stop = min(start + _BLOCK, len(n_z))
        # Slices from 0 let the compiler use vector instructions, offsets do not.
        runs, counted, area = run_of_face[start:stop], counts[start:stop], areas[start:stop]
        weight = weights[: stop - start]
        for f in range(len(runs)):
            counted[f] = higher[runs[f]]
        for f in range(len(runs)):
            weight[f] = area[f] if counted[f] else 0.0
        of_classes = _terms_of_block(
            n_z[start:stop], weight, face_classes[start:stop], np.float32(layer), np.float32(road)
        )
        for number in range(3):
            for k in range(4):
                sums[number, k] += of_classes[number][k]
    return counts, sums


# Free order of additions is what vector instructions need; single precision lasts for one block.
# A sum for each class and term stays in a register; a table of sums would be written at each face.
@compiled(fastmath={"reassoc", "contract", "nsz", "nnan"})
def _terms_of_block(n_z, areas, face_classes, layer, road):
    zero, one = np.float32(0), np.float32(1)
    area_0, width_0, visible_0, cusp_0 = zero, zero, zero, zero
    area_1, width_1, visible_1, cusp_1 = zero, zero, zero, zero
    area_2, width_2, visible_2, cusp_2 = zero, zero, zero, zero
    for f in range(len(n_z)):
        level = min(abs(n_z[f]), one)
        # 1 − n_z² in a form that loses no digits next to level.
        upright = np.sqrt(max((one - level) * (one + level), _LEAST))
        width = min(layer * level / upright, _WIDEST)
        seen = one if width > road else zero
        number, cusp = np.int32(face_classes[f]), layer * level
        in_0 = areas[f] if number == 0 else zero
        in_1 = areas[f] if number == 1 else zero
        in_2 = areas[f] if number == 2 else zero
        area_0, area_1, area_2 = area_0 + in_0, area_1 + in_1, area_2 + in_2
        width_0, width_1 = width_0 + in_0 * width, width_1 + in_1 * width
        width_2, visible_0 = width_2 + in_2 * width, visible_0 + in_0 * seen
        visible_1, visible_2 = visible_1 + in_1 * seen, visible_2 + in_2 * seen
        cusp_0, cusp_1, cusp_2 = cusp_0 + in_0 * cusp, cusp_1 + in_1 * cusp, cusp_2 + in_2 * cusp
    return (
        (area_0, width_0, visible_0, cusp_0),
        (area_1, width_1, visible_1, cusp_1),
        (area_2, width_2, visible_2, cusp_2),
    )
