"""Groups of places that lie near each other, by the cells of a grid they fall in."""

import numpy as np


def near_groups(points_mm: np.ndarray, cell_mm: float) -> np.ndarray:
    """(k,) int64: group of each of (k, 3) points; those in cells that share a corner are of one."""
    cells = np.floor((points_mm - points_mm.min(axis=0)) / cell_mm).astype(np.int64)
    ny, nz = cells[:, 1].max() + 1, cells[:, 2].max() + 1
    # One number for each cell: sorted much sooner than rows of three, and in the same order.
    keys, of_point = np.unique(
        (cells[:, 0] * ny + cells[:, 1]) * nz + cells[:, 2], return_inverse=True
    )
    occupied = np.column_stack([keys // (ny * nz), keys // nz % ny, keys % nz])
    return _touching_groups(occupied)[of_point]


def _touching_groups(cells: np.ndarray) -> np.ndarray:
    """(c,) group of each cell (c, 3); cells that share a corner are of one group."""
    number = {tuple(cell): k for k, cell in enumerate(cells.tolist())}
    around = [(i, j, k) for i in (-1, 0, 1) for j in (-1, 0, 1) for k in (-1, 0, 1)]
    group = np.full(len(cells), -1, np.int64)
    count = 0
    for start, first in number.items():
        if group[first] >= 0:
            continue
        group[first] = count
        waiting = [start]
        while waiting:
            x, y, z = waiting.pop()
            for i, j, k in around:
                other = number.get((x + i, y + j, z + k))
                if other is not None and group[other] < 0:
                    group[other] = count
                    waiting.append((x + i, y + j, z + k))
        count += 1
    return group
