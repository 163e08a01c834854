"""Relief lower than a layer: steps between level surfaces that the layers cannot show."""

import numpy as np

from viewer.geometry.compiled import LOOK_BITS, compiled
from viewer.progress import Progress

LEVEL_DEG = 2.0  # from horizontal; in a layer such a face is as good as level
_LEAST = 0.1  # of a layer: less than that nobody sees


def low_steps(
    heights_mm: np.ndarray,
    vertices_mm: np.ndarray,
    faces: np.ndarray,
    neighbours: np.ndarray,
    n_z: np.ndarray,
    layer_mm: float,
    road_mm: float,
    progress: Progress | None = None,
) -> tuple[np.ndarray, np.ndarray]:
    """Faces (k,) int32 of steps lower than a layer, and the step (k,) int64, from 0, of each.

    heights_mm : (n,) float64, of the vertices; n_z : (m,) float64, z of the posed unit normals

    A step is a connected group of faces that are not level, with level faces all around, that
    spans less than a layer in height and more than a road in some direction. Raises Cancelled.
    """
    progress = progress or Progress()
    level = np.abs(n_z) >= np.cos(np.radians(LEVEL_DEG))
    if not level.any():
        return np.empty(0, np.int32), np.empty(0, np.int64)
    group, low, high, cut = _steep_groups(heights_mm, faces, neighbours, level, progress.stop_flag)
    progress.check()
    rise = high - low
    small = ~cut & (rise < layer_mm * (1.0 - 1e-3)) & (rise >= _LEAST * layer_mm)
    chosen = np.flatnonzero(group >= 0)
    chosen = chosen[small[group[chosen]]]
    if not len(chosen):
        return chosen.astype(np.int32), np.empty(0, np.int64)
    progress.check()
    number = np.unique(group[chosen], return_inverse=True)[1]
    progress.check()
    corners = vertices_mm[faces[chosen]]
    spread = np.zeros(number.max() + 1)
    for axis in range(3):
        most = np.full(len(spread), -np.inf)
        least = np.full(len(spread), np.inf)
        np.maximum.at(most, number, corners[..., axis].max(axis=1))
        np.minimum.at(least, number, corners[..., axis].min(axis=1))
        progress.check()
        spread = np.maximum(spread, most - least)
    wide = (spread > road_mm)[number]
    return chosen[wide].astype(np.int32), np.unique(number[wide], return_inverse=True)[1]


@compiled
def _steep_groups(heights, faces, neighbours, level, stop):
    """Group of each face that is not level (−1 for level ones); of each group its lowest and
    highest height, and whether it ends at an edge without neighbour.
    """
    group = np.full(len(faces), -1, np.int32)
    stack = np.empty(len(faces), np.int32)
    low, high = np.full(len(faces), np.inf), np.full(len(faces), -np.inf)
    cut = np.zeros(len(faces), np.bool_)
    count, steps = 0, 0
    for seed in range(len(faces)):
        if level[seed] or group[seed] >= 0:
            continue
        stack[0], size = seed, 1
        group[seed] = count
        while size > 0:
            size -= 1
            f = stack[size]
            steps += 1
            if steps & LOOK_BITS == 0 and stop[0]:
                return group, low[:0].copy(), high[:0].copy(), cut[:0].copy()
            for k in range(3):
                z = heights[faces[f, k]]
                low[count], high[count] = min(low[count], z), max(high[count], z)
                g = neighbours[f, k]
                if g < 0:
                    cut[count] = True
                elif not level[g] and group[g] < 0:
                    group[g] = count
                    stack[size] = g
                    size += 1
        count += 1
    return group, low[:count].copy(), high[:count].copy(), cut[:count].copy()
