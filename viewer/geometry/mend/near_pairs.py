"""Pairs of points that lie within a distance of each other."""

from itertools import product

import numpy as np

from viewer.progress import Progress

# Each pair of neighbouring cells once.
_STEPS = [step for step in product((-1, 0, 1), repeat=3) if step >= (0, 0, 0)]
_WEIGHTS = np.array([73856093, 19349663, 83492791])


def near_pairs(
    points_mm: np.ndarray, within_mm: float, progress: Progress | None = None
) -> tuple[np.ndarray, np.ndarray]:
    """Pairs of points at most `within_mm` apart, each once, and their distances.

    points_mm : (n, 3) float64
    returns (k, 2) int64, lower index first, and (k,) float64 in mm
    Raises Cancelled.
    """
    progress = progress or Progress()
    nothing = np.empty((0, 2), np.int64), np.empty(0)
    if len(points_mm) < 2:
        return nothing
    cells = np.floor((points_mm - points_mm.min(axis=0)) / within_mm).astype(np.int64)
    keys = cells @ _WEIGHTS  # cells that share a key by chance only cost a comparison
    order = np.argsort(keys, kind="stable")
    ordered = keys[order]
    found = [nothing]
    for step in _STEPS:
        progress.check()
        wanted = ordered + np.array(step) @ _WEIGHTS  # in order as well: quick to look up
        first = np.searchsorted(ordered, wanted)
        count = np.searchsorted(ordered, wanted, side="right") - first
        one = np.repeat(order, count)
        rank = np.arange(len(one)) - np.repeat(np.cumsum(count) - count, count)
        other = order[np.repeat(first, count) + rank]
        if step == (0, 0, 0):
            one, other = one[one < other], other[one < other]
        apart = np.linalg.norm(points_mm[one] - points_mm[other], axis=1)
        near = (apart <= within_mm) & (one != other)
        found.append((np.sort(np.stack([one, other], 1)[near], axis=1), apart[near]))
    pairs, apart = (np.concatenate(parts) for parts in zip(*found, strict=True))
    pairs, first = np.unique(pairs, axis=0, return_index=True)
    return pairs, apart[first]
