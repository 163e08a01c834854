"""Groups of faces, edges or points that hang together, so that a list can lead to each place."""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import LOOK_BITS, compiled
from viewer.geometry.mesh import frozen
from viewer.geometry.sort_keys import order_of_keys
from viewer.geometry.union_find import join_groups
from viewer.progress import Progress

MOST_PLACES = 200  # nobody steps through more; the largest are kept


class Places(NamedTuple):
    """Where a kind of fault sits, the largest place first.

    points_mm : (p, 3) float64, in part coordinates, on the fault
    sizes_mm : (p,) float64, diagonal of the box around what is faulty there, or its length
    """

    points_mm: np.ndarray
    sizes_mm: np.ndarray


NOWHERE = Places(np.empty((0, 3)), np.empty(0))


def group_by_vertices(rows: np.ndarray, progress: Progress | None = None) -> np.ndarray:
    """(k,) int64 group numbers from 0: rows of vertices (k, j) that share one belong together.

    Raises Cancelled through `progress`.
    """
    progress = progress or Progress()
    if not len(rows):
        return np.empty(0, np.int64)
    rows = np.ascontiguousarray(rows, np.int32)
    parent = join_rows(int(rows.max()) + 1, rows, progress)
    lowest = parent[rows[:, 0]]
    is_lowest = np.zeros(len(parent), bool)
    is_lowest[lowest] = True
    progress.check()
    return (np.cumsum(is_lowest) - 1)[lowest]


def join_rows(count: int, rows: np.ndarray, progress: Progress | None = None) -> np.ndarray:
    """(count,) int64: lowest number of the group of each number below `count`.

    rows : (k, j) int32, numbers that stand in one row are of one group. Raises Cancelled.
    """
    progress = progress or Progress()
    parent = _join_rows(count, np.ascontiguousarray(rows, np.int32), progress.stop_flag)
    progress.check()
    return parent


@compiled
def _join_rows(count, rows, stop):
    parent = np.arange(count)
    for r in range(len(rows)):
        if r & LOOK_BITS == 0 and stop[0]:
            break
        for k in range(1, rows.shape[1]):
            join_groups(parent, rows[r, 0], rows[r, k])
    for v in range(count):
        parent[v] = parent[parent[v]]  # a parent is lower than its child, so it is final already
    return parent


def places_of_groups(
    points_mm: np.ndarray,
    rows: np.ndarray,
    group: np.ndarray,
    sizes_mm: np.ndarray | None = None,
    progress: Progress | None = None,
) -> Places:
    """A place for each group of items, at the item nearest to the group's middle.

    points_mm : (n, 3) float64; rows : (k, j) int, the points that are the corners of each item
    group : (k,) int64, group of each item, from 0, none left out
    sizes_mm : (groups,) float64, sizes to tell instead of the diagonals of the boxes
    Raises Cancelled through `progress`.
    """
    progress = progress or Progress()
    if not len(group):
        return NOWHERE
    # One type for all callers, so that the kernels are compiled but once.
    points_mm, rows = frozen(points_mm), np.ascontiguousarray(rows, np.int32)
    group = np.ascontiguousarray(group, np.int64)
    stop, count = progress.stop_flag, int(group.max()) + 1
    low, high = _boxes_of_groups(points_mm, rows, group, count, stop)
    progress.check()
    middles = _nearest_middles(points_mm, rows, group, 0.5 * (low + high), stop)
    progress.check()
    sizes = np.linalg.norm(high - low, axis=1) if sizes_mm is None else sizes_mm
    # Sizes are never negative, so that their bits are in the order of the numbers.
    bits = np.ascontiguousarray(sizes, np.float64).view(np.uint64)
    largest = order_of_keys(bits.max() - bits, progress)[:MOST_PLACES]
    return Places(middles[largest], sizes[largest])


@compiled
def _boxes_of_groups(points, rows, group, count, stop):
    low, high = np.full((count, 3), np.inf), np.full((count, 3), -np.inf)
    for r in range(len(rows)):
        if r & LOOK_BITS == 0 and stop[0]:
            break
        g = group[r]
        for k in range(rows.shape[1]):
            for axis in range(3):
                x = points[rows[r, k], axis]
                low[g, axis], high[g, axis] = min(low[g, axis], x), max(high[g, axis], x)
    return low, high


@compiled
def _nearest_middles(points, rows, group, centres, stop):
    """(groups, 3): of the middles of the items of a group, the first of those nearest to a point.

    centres : (groups, 3), the point of each group
    """
    nearest, least = np.zeros(centres.shape), np.full(len(centres), np.inf)
    middle = np.empty(3)
    for r in range(len(rows)):
        if r & LOOK_BITS == 0 and stop[0]:
            break
        g, away = group[r], 0.0
        for axis in range(3):
            total = 0.0
            for k in range(rows.shape[1]):
                total += points[rows[r, k], axis]
            middle[axis] = total / rows.shape[1]
            away += (middle[axis] - centres[g, axis]) ** 2
        if away < least[g]:
            least[g] = away
            nearest[g] = middle
    return nearest
