"""A part turned so that its build direction is z, without spin: no measure depends on the spin."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.point_blocks import PointBlocks, lowest_and_highest, lowest_and_highest_of_all
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


def turn_part(
    points_mm: np.ndarray, up: tuple[float, float, float], blocks: PointBlocks | None = None
) -> TurnedPart:
    """Turn (n, 3) float64 points so that `up` becomes z; with their blocks it is quicker."""
    direction = np.asarray(up, np.float64)
    turn = rotation_about_z(_SKEW_DEG) @ shortest_turn_to_z(direction)
    return turn_part_by(points_mm, turn, blocks)


def turn_part_by(
    points_mm: np.ndarray, rotation: np.ndarray, blocks: PointBlocks | None = None
) -> TurnedPart:
    """Turn (n, 3) float64 points by a (3, 3) rotation; with their blocks it is quicker."""
    up = rotation[2].copy()
    if blocks is None:
        low, high = lowest_and_highest_of_all(points_mm, up)
    else:
        low, high = lowest_and_highest(points_mm, blocks, up)
    return TurnedPart(points_mm, rotation, float(low), float(high - low))


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
