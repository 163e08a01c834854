"""The box around many points, and whether all of them are numbers, in one pass over memory."""

import numpy as np

from viewer.geometry.compiled import compiled


@compiled
def _grow_box(points, low, high):
    """Widen low..high by the finite points; returns how many points are not finite."""
    strange = 0
    for k in range(len(points)):
        x, y, z = points[k, 0], points[k, 1], points[k, 2]
        if x - x + (y - y) + (z - z) != 0:  # inf − inf and NaN − NaN are NaN
            strange += 1
            continue
        low[0], low[1], low[2] = min(low[0], x), min(low[1], y), min(low[2], z)
        high[0], high[1], high[2] = max(high[0], x), max(high[1], y), max(high[2], z)
    return strange


def point_box(points: np.ndarray) -> tuple[np.ndarray, int]:
    """(2, 3) float64 lowest and highest corner of the finite points, and how many are not finite.

    points : (n, 3) float32 or float64; without finite points the corners are +inf and −inf
    """
    low, high = np.full(3, np.inf), np.full(3, -np.inf)
    strange = _grow_box(points, low, high)
    return np.stack([low, high]), int(strange)
