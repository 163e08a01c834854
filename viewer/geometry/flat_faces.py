"""Level faces that lie inside one layer: they have no stairs, but a height that layers may miss.

A floor or ceiling whose height is no whole number of layers comes out at the nearest one instead.
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.face_classes import ByClass

LEVEL_DEG = 0.5
SAME_HEIGHT_MM = 0.001
OFF_GRID_MM = 0.01  # finer than a height axis resolves (common practice, no source)
MOST_LISTED = 200


class FlatFace(NamedTuple):
    """All level faces at one height that look the same way.

    off_grid_mm : height less the nearest whole number of layers, −t/2 to t/2
    """

    height_mm: float
    up: bool
    area_mm2: ByClass
    off_grid_mm: float


class FlatFaces(NamedTuple):
    """Level faces, largest first, at most MOST_LISTED of them, and the area off the layer grid."""

    faces: tuple[FlatFace, ...]
    off_grid_mm2: ByClass


def measure_flat_faces(
    points_mm: np.ndarray,
    faces: np.ndarray,
    n_z: np.ndarray,
    areas_mm2: np.ndarray,
    face_classes: np.ndarray,
    left_out: np.ndarray,
    platform_mm: float,
    layer_mm: float,
) -> FlatFaces:
    """Level faces of a turned part.

    points_mm : (n, 3) float64, z along the build direction; faces : (m, 3) int32
    n_z : (m,) float32; areas_mm2 : (m,) float64; face_classes : (m,) uint8
    left_out : (m,) bool, faces on the platform or in fields of terraces
    """
    level = float(np.cos(np.radians(LEVEL_DEG)))
    found = _level_faces(n_z, left_out, level)
    if not len(found):
        return FlatFaces((), ByClass(0.0, 0.0, 0.0, 0.0))
    height = points_mm[faces[found], 2].mean(axis=1) - platform_mm
    up = n_z[found] > 0
    order = np.lexsort((height, up))
    height, up, found = height[order], up[order], found[order]
    starts = np.flatnonzero(
        np.concatenate([[True], (np.diff(height) > SAME_HEIGHT_MM) | (np.diff(up) != 0)])
    )
    group = np.repeat(np.arange(len(starts)), np.diff(np.append(starts, len(found))))
    area = np.bincount(3 * group + face_classes[found], areas_mm2[found], 3 * len(starts))
    area = area.reshape(-1, 3)  # columns: unmarked, A, B
    middle = np.bincount(group, height) / np.bincount(group)
    off = middle - layer_mm * np.round(middle / layer_mm)
    largest = np.argsort(-area.sum(axis=1), kind="stable")[:MOST_LISTED]
    listed = tuple(
        FlatFace(float(middle[g]), bool(up[starts[g]]), _by_class(area[g]), float(off[g]))
        for g in largest
        if area[g].sum() > 0
    )
    return FlatFaces(listed, _by_class(area[np.abs(off) > OFF_GRID_MM].sum(axis=0)))


def _by_class(row):
    unmarked, a, b = (float(x) for x in row)
    return ByClass(a, b, unmarked, a + b + unmarked)


@compiled
def _level_faces(n_z, left_out, level):
    found = np.empty(len(n_z), np.int32)
    count = 0
    for f in range(len(n_z)):
        if abs(n_z[f]) >= level and not left_out[f]:
            found[count] = f
            count += 1
    return found[:count]
