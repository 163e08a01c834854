"""Points sorted into cubes, to find quickly which lie near each other."""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import LOOK_BITS, compiled
from viewer.geometry.union_find import join_groups
from viewer.progress import Progress

_LOOK_BITS = LOOK_BITS >> 6  # each point looks at all that are near


class PointGrid(NamedTuple):
    """Points (n, 3) float64 in cubes of side `cell_mm`.

    order : (n,) int64, points cube after cube; keys : (n,) int64, ascending, cube of each
    low_mm : (3,) corner of the cubes; shape : (3,) int64, cubes along each axis
    """

    points_mm: np.ndarray
    order: np.ndarray
    keys: np.ndarray
    low_mm: np.ndarray
    shape: np.ndarray
    cell_mm: float


def point_grid(points_mm: np.ndarray, cell_mm: float) -> PointGrid:
    """Sort (n, 3) points into cubes; there must be at least one."""
    low = points_mm.min(axis=0)
    cells = np.floor((points_mm - low) / cell_mm).astype(np.int64) + 1  # an empty rim of cubes
    shape = cells.max(axis=0) + 2
    keys = (cells[:, 0] * shape[1] + cells[:, 1]) * shape[2] + cells[:, 2]
    order = np.argsort(keys, kind="stable")
    return PointGrid(points_mm, order, keys[order], low, shape, float(cell_mm))


@compiled
def rows_near(grid, point, rows):
    """The stretches of `grid.order` with all points within one cube's side of a point.

    Writes (first, last) into `rows` ((9, 2) int64), one for each row of three cubes.
    """
    at = np.empty(3, np.int64)
    for k in range(3):
        at[k] = np.int64(np.floor((point[k] - grid.low_mm[k]) / grid.cell_mm)) + 1
        at[k] = min(max(at[k], 1), grid.shape[k] - 2)
    used = 0
    for i in range(-1, 2):
        for j in range(-1, 2):
            key = ((at[0] + i) * grid.shape[1] + at[1] + j) * grid.shape[2] + at[2]
            rows[used, 0] = np.searchsorted(grid.keys, key - 1)
            rows[used, 1] = np.searchsorted(grid.keys, key + 2)
            used += 1


def group_near(
    points_mm: np.ndarray, within_mm: float, progress: Progress | None = None
) -> np.ndarray:
    """(n,) int64 group numbers from 0: points within a distance belong together, and so on.

    Raises Cancelled through `progress`.
    """
    progress = progress or Progress()
    if not len(points_mm):
        return np.empty(0, np.int64)
    grid = point_grid(np.ascontiguousarray(points_mm), within_mm)
    progress.check()
    parent = _join(grid, progress.stop_flag)
    progress.check()
    return np.unique(parent, return_inverse=True)[1]


@compiled
def _join(grid, stop):
    parent = np.arange(len(grid.points_mm))
    rows = np.empty((9, 2), np.int64)
    for n in range(len(parent)):
        if n & _LOOK_BITS == 0 and stop[0]:
            break
        p = grid.points_mm[n]
        rows_near(grid, p, rows)
        for r in range(9):
            for i in range(rows[r, 0], rows[r, 1]):
                other = grid.order[i]
                if other >= n:
                    continue
                q = grid.points_mm[other]
                x, y, z = p[0] - q[0], p[1] - q[1], p[2] - q[2]
                if x * x + y * y + z * z > grid.cell_mm * grid.cell_mm:
                    continue
                join_groups(parent, n, other)
    for n in range(len(parent)):
        parent[n] = parent[parent[n]]  # a parent is lower than its child, so it is final already
    return parent
