"""Pairs of points that lie within a distance of each other."""

import numpy as np

from viewer.geometry.compiled import LOOK_BITS, compiled
from viewer.progress import Progress


def near_pairs(
    points_mm: np.ndarray, within_mm: float, progress: Progress | None = None
) -> tuple[np.ndarray, np.ndarray]:
    """Pairs of points at most `within_mm` apart, each once, and their distances.

    points_mm : (n, 3) float64
    returns (k, 2) int64, lower index first, in order, and (k,) float64 in mm
    Raises Cancelled.
    """
    progress = progress or Progress()
    if len(points_mm) < 2:
        return np.empty((0, 2), np.int64), np.empty(0)
    points = np.ascontiguousarray(points_mm, np.float64)
    low, high = points.min(axis=0), points.max(axis=0)
    # Of points on a surface about one lies in a cube; what is looked for mostly lies in the same.
    cell = max(2.0 * within_mm, float((high - low).max()) / len(points) ** 0.5)
    chains = 1 << (2 * len(points)).bit_length()
    pairs, apart = _near_pairs(points, low, cell, float(within_mm), chains, progress.stop_flag)
    progress.check()
    order = np.lexsort((pairs[:, 1], pairs[:, 0]))
    return pairs[order], apart[order]


@compiled
def _near_pairs(points, low, cell, within, chains, stop):
    """Each point against those before it in the cubes within reach; cubes share chains by chance.

    chains : how many there are, a power of two
    """
    first, following = np.full(chains, -1, np.int32), np.empty(len(points), np.int32)
    pairs, apart, found = np.empty((len(points), 2), np.int64), np.empty(len(points)), 0
    for i in range(len(points)):
        if i & LOOK_BITS == 0 and stop[0]:
            break
        x, y, z = points[i, 0] - low[0], points[i, 1] - low[1], points[i, 2] - low[2]
        for a in range(_cube(x - within, cell), _cube(x + within, cell) + 1):
            for b in range(_cube(y - within, cell), _cube(y + within, cell) + 1):
                for c in range(_cube(z - within, cell), _cube(z + within, cell) + 1):
                    j = first[_chain(a, b, c, chains)]
                    while j >= 0:
                        u, v = points[j, 0] - low[0], points[j, 1] - low[1]
                        w = points[j, 2] - low[2]
                        distance = ((x - u) ** 2 + (y - v) ** 2 + (z - w) ** 2) ** 0.5
                        if (
                            distance <= within
                            and _cube(u, cell) == a
                            and _cube(v, cell) == b
                            and _cube(w, cell) == c
                        ):
                            if found == len(apart):
                                pairs, apart = _twice_as_long(pairs, apart)
                            pairs[found, 0], pairs[found, 1], apart[found] = j, i, distance
                            found += 1
                        j = following[j]
        chain = _chain(_cube(x, cell), _cube(y, cell), _cube(z, cell), chains)
        following[i] = first[chain]
        first[chain] = i
    return pairs[:found], apart[:found]


@compiled
def _cube(length, cell):
    return np.int64(np.floor(length / cell))


@compiled
def _chain(a, b, c, chains):
    return (a * 73856093 ^ b * 19349663 ^ c * 83492791) & (chains - 1)


@compiled
def _twice_as_long(pairs, apart):
    longer, more = np.empty((2 * len(pairs), 2), np.int64), np.empty(2 * len(apart))
    longer[: len(pairs)], more[: len(apart)] = pairs, apart
    return longer, more
