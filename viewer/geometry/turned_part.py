"""A part turned so that its build direction is z, without spin: no measure depends on the spin."""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.pose import rotation_about_z, shortest_turn_to_z

# Rows of sample lines run askew to the part, so that its straight edges do not lie along them.
_SKEW_DEG = 29.3


class TurnedPart(NamedTuple):
    """Vertices in a frame with z along the build direction, its origin at the box centre.

    up : (3,) float64, build direction in part coordinates
    rotation : (3, 3) float64, from part coordinates
    points_mm : (n, 3) float64
    platform_mm : z of the platform, the lowest vertex
    height_mm : from there to the highest vertex
    """

    up: np.ndarray
    rotation: np.ndarray
    points_mm: np.ndarray
    platform_mm: float
    height_mm: float


def turn_part(points_mm: np.ndarray, up: tuple[float, float, float]) -> TurnedPart:
    """Turn (n, 3) float64 points so that `up` becomes z."""
    direction = np.asarray(up, np.float64)
    return turn_part_by(points_mm, rotation_about_z(_SKEW_DEG) @ shortest_turn_to_z(direction))


def turn_part_by(points_mm: np.ndarray, rotation: np.ndarray) -> TurnedPart:
    """Turn (n, 3) float64 points by a (3, 3) rotation."""
    points, low, high = _turn(points_mm, rotation)
    return TurnedPart(rotation[2].copy(), rotation, points, float(low), float(high - low))


@compiled
def _turn(points, rotation):
    turned = np.empty_like(points)
    low, high = np.inf, -np.inf
    xx, xy, xz = rotation[0]
    yx, yy, yz = rotation[1]
    zx, zy, zz = rotation[2]
    for i in range(len(points)):
        x, y, z = points[i, 0], points[i, 1], points[i, 2]
        turned[i, 0] = xx * x + xy * y + xz * z
        turned[i, 1] = yx * x + yy * y + yz * z
        height = zx * x + zy * y + zz * z
        turned[i, 2] = height
        low = min(low, height)
        high = max(high, height)
    return turned, low, high
