"""Terraces of a pose: which faces step visibly, how wide, how deep the cusps are.

A face counts only where its smooth run (see `smooth_runs`) spans more than one layer in height: a
flat top or fine relief within a layer is no field of terraces. Width s = t / tan α = t·|n_z| /
√(1 − n_z²), capped at 20 mm; cusp C = t·|n_z|.
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.face_classes import ByClass
from viewer.geometry.face_rows import BLOCK, FREE_ORDER

WIDEST_MM = 20.0
_WIDEST = np.float32(WIDEST_MM)
_LEAST = np.float32(1e-12)  # flatter is level, and as wide as the widest


class Terraces(NamedTuple):
    """Means are weighted by area over the faces that count; 0 where none does."""

    mean_width_mm: ByClass
    visible_area_mm2: ByClass
    cusp_mean_mm: ByClass
    counts: np.ndarray  # (m,) bool


def named_terraces(counts: np.ndarray, sums: np.ndarray) -> Terraces:
    """From what `add_block` fills: (m,) bool counts and (3, 4) float64 sums."""
    sums = np.vstack([sums, sums.sum(axis=0)])  # rows: unmarked, A, B, total
    area = np.maximum(sums[:, 0], 1e-300)
    return Terraces(
        _by_class(sums[:, 1] / area), _by_class(sums[:, 2]), _by_class(sums[:, 3] / area), counts
    )


def _by_class(rows):
    unmarked, a, b, total = (float(x) for x in rows)
    return ByClass(a, b, unmarked, total)


@compiled
def add_block(rows, start, stop, face_classes, runs, higher, layer, road, n_z, room, counts, sums):
    """Add the faces from `start` to `stop`, whose `n_z` is known, and tell which of them count.

    start : a multiple of BLOCK
    runs : of the part
    higher : (r,) bool, whether each run is higher than a layer
    room : (BLOCK,) float32, to work in
    sums : by class: area, area · width, visible area, area · cusp
    """
    # Slices from 0 let the compiler use vector instructions, offsets do not.
    counted, weight = counts[start:stop], rows.exposed_mm2[start:stop]
    run = runs.run_of_block[start // BLOCK]
    if run >= 0:
        counted[:] = higher[run]
        if not higher[run]:
            return
    else:
        weight = room[: stop - start]
        _look_up(
            runs.run_of_face[start:stop], higher, rows.exposed_mm2[start:stop], counted, weight
        )
    of_classes = _terms_of_block(
        n_z[: stop - start], weight, face_classes[start:stop], np.float32(layer), np.float32(road)
    )
    for number in range(3):
        for k in range(4):
            sums[number, k] += of_classes[number][k]


@compiled
def _look_up(runs, higher, exposed, counted, area):
    """Whether the run of each face is higher than a layer, and the area that counts for that."""
    for f in range(len(runs)):
        counted[f] = higher[runs[f]]
    for f in range(len(runs)):
        area[f] = exposed[f] * np.float32(counted[f])


# A sum for each class and term stays in a register; a table of sums would be written at each face.
@compiled(fastmath=FREE_ORDER)
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
        # Read before any branch: only then is a branch turned into vector instructions.
        number, cusp, area = face_classes[f], layer * level, areas[f]
        in_0 = area if number == 0 else zero
        in_1 = area if number == 1 else zero
        in_2 = area if number == 2 else zero
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
