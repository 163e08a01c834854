"""Where upright lines stand: in rows, each with random shifts of its own, or at cell centres."""

from typing import NamedTuple

import numpy as np


class ColumnGrid(NamedTuple):
    """Where the upright lines stand; `u = (x − x0) / pitch`, `v = (y − y0) / pitch`."""

    x0_mm: float
    y0_mm: float
    pitch_mm: float
    nx: int
    ny: int
    shift_u: np.ndarray  # (ny,) float64, 0 <= shift < 1
    shift_v: np.ndarray  # (ny,) float64, 0 <= shift < 1


def grid_over(low_mm, high_mm, cells: int, jitter: np.random.Generator | None) -> ColumnGrid:
    """A grid with `cells` lines along the longer side of the box from `low_mm` to `high_mm`.

    low_mm, high_mm : (2,) float64
    jitter : each row gets its own random shifts; without it, lines stand at the cell centres
    """
    low, high = np.asarray(low_mm, np.float64)[:2], np.asarray(high_mm, np.float64)[:2]
    size = np.maximum(high - low, 1e-6)
    pitch = float(size.max() / cells)
    nx, ny = (int(n) for n in np.maximum(np.ceil(size / pitch - 1e-9), 1))
    x0, y0 = 0.5 * (low + high - pitch * np.array([nx, ny]))
    if jitter is None:
        return ColumnGrid(x0, y0, pitch, nx, ny, np.full(ny, 0.5), np.full(ny, 0.5))
    return ColumnGrid(x0, y0, pitch, nx, ny, jitter.random(ny), jitter.random(ny))
