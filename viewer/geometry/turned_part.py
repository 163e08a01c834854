"""A part turned so that its build direction is z, without spin: no measure depends on the spin."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.pose import rotation_about_z, shortest_turn_to_z

# Rows of sample lines run askew to the part, so that its straight edges do not lie along them.
_SKEW_DEG = 29.3


@dataclass(frozen=True, eq=False)
class TurnedPart:
    """Vertices in a frame with z along the build direction, its origin at the box centre.

    unturned_mm : (n, 3) float64, in part coordinates
    rotation : (3, 3) float64, from part coordinates
    platform_mm : z of the platform, the lowest vertex
    height_mm : from there to the highest vertex
    """

    unturned_mm: np.ndarray
    rotation: np.ndarray
    platform_mm: float
    height_mm: float

    @property
    def up(self) -> np.ndarray:
        """(3,) float64, build direction in part coordinates."""
        return self.rotation[2]

    @cached_property
    def points_mm(self) -> np.ndarray:
        """(n, 3) float64, turned; worked out when first asked for."""
        return _turn(self.unturned_mm, self.rotation)


def turn_part(points_mm: np.ndarray, up: tuple[float, float, float]) -> TurnedPart:
    """Turn (n, 3) float64 points so that `up` becomes z."""
    direction = np.asarray(up, np.float64)
    return turn_part_by(points_mm, rotation_about_z(_SKEW_DEG) @ shortest_turn_to_z(direction))


def turn_part_by(points_mm: np.ndarray, rotation: np.ndarray) -> TurnedPart:
    """Turn (n, 3) float64 points by a (3, 3) rotation."""
    low, high = _lowest_and_highest(points_mm, rotation[2].copy())
    return TurnedPart(points_mm, rotation, float(low), float(high - low))


@compiled
def height_of(point, z_row):
    """Height of a point once turned; `z_row` is the last row of the rotation."""
    return z_row[0] * point[0] + z_row[1] * point[1] + z_row[2] * point[2]


@compiled
def _lowest_and_highest(points, z_row):
    low, high = np.inf, -np.inf
    for i in range(len(points)):
        height = height_of(points[i], z_row)
        low = min(low, height)
        high = max(high, height)
    return low, high


@compiled
def _turn(points, rotation):
    turned = np.empty_like(points)
    xx, xy, xz = rotation[0]
    yx, yy, yz = rotation[1]
    zx, zy, zz = rotation[2]
    for i in range(len(points)):
        x, y, z = points[i, 0], points[i, 1], points[i, 2]
        turned[i, 0] = xx * x + xy * y + xz * z
        turned[i, 1] = yx * x + yy * y + yz * z
        turned[i, 2] = zx * x + zy * y + zz * z
    return turned
