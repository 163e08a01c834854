"""Groups of faces, edges or points that hang together, so that a list can lead to each place."""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.union_find import join_groups

MOST_PLACES = 200  # nobody steps through more; the largest are kept


class Places(NamedTuple):
    """Where a kind of fault sits, the largest place first.

    points_mm : (p, 3) float64, in part coordinates, on the fault
    sizes_mm : (p,) float64, diagonal of the box around what is faulty there, or its length
    """

    points_mm: np.ndarray
    sizes_mm: np.ndarray


NOWHERE = Places(np.empty((0, 3)), np.empty(0))


def group_by_vertices(rows: np.ndarray) -> np.ndarray:
    """(k,) int64 group numbers from 0: rows of vertices (k, j) that share one belong together."""
    if not len(rows):
        return np.empty(0, np.int64)
    vertices, index = np.unique(rows, return_inverse=True)
    parent = join_rows(len(vertices), index.reshape(rows.shape).astype(np.int32))
    return np.unique(parent[index.reshape(rows.shape)[:, 0]], return_inverse=True)[1]


@compiled
def join_rows(count, rows):
    """Union of all numbers below `count` that stand in one row; parent[n] is its group's lowest."""
    parent = np.arange(count)
    for r in range(len(rows)):
        for k in range(1, rows.shape[1]):
            join_groups(parent, rows[r, 0], rows[r, k])
    for v in range(count):
        parent[v] = parent[parent[v]]  # a parent is lower than its child, so it is final already
    return parent


def places_of_groups(
    corners_mm: np.ndarray, group: np.ndarray, sizes_mm: np.ndarray | None = None
) -> Places:
    """A place for each group of items, at the item nearest to the group's middle.

    corners_mm : (k, j, 3) float64, corners of each item
    group : (k,) int64, group of each item
    sizes_mm : (groups,) float64, sizes to tell instead of the diagonals of the boxes
    """
    if not len(group):
        return NOWHERE
    order = np.argsort(group, kind="stable")
    starts = np.flatnonzero(np.diff(group[order], prepend=-1))
    low = np.minimum.reduceat(corners_mm.min(axis=1)[order], starts)
    high = np.maximum.reduceat(corners_mm.max(axis=1)[order], starts)
    middles = corners_mm.mean(axis=1)[order]
    number = np.repeat(np.arange(len(starts)), np.diff(np.append(starts, len(group))))
    away = np.linalg.norm(middles - (0.5 * (low + high))[number], axis=1)
    nearest = np.lexsort((away, number))[starts]
    sizes = np.linalg.norm(high - low, axis=1) if sizes_mm is None else sizes_mm
    largest = np.argsort(-sizes, kind="stable")[:MOST_PLACES]
    return Places(middles[nearest][largest], sizes[largest])
