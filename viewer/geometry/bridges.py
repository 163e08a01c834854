"""Bridges: level undersides that span from wall to wall and hold themselves up.

A point of an underside with α ≤ 10° is bridged if some horizontal chord through it, half a layer
below (in the layer that has to carry it), meets the part at both ends and is not longer than the
bridge limit; a chord as long as the limit counts. Eight directions are tried, and the directions
square to the walls they meet, which is how a straight tunnel's true width is found up to its ends.
"""

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.ray_tree import RayTree, nearest_hit

STEEPEST_BRIDGE_DEG = 10.0
_DIRECTIONS = 8
# A chord askew by half of the 22.5° between two directions is longer by 1 / cos 11.25°.
_NEARLY = 1.0 / np.cos(np.radians(11.25)) + 1e-3
_EXACT = 1.0 + 1e-6  # rounding must not undo "as long as the limit counts"


def bridged_points(
    tree: RayTree,
    rotation: np.ndarray,
    points_mm: np.ndarray,
    asked: np.ndarray,
    layer_mm: float,
    bridge_mm: float,
) -> np.ndarray:
    """(k,) bool: the point is bridged.

    tree : over the part, in part coordinates
    rotation : (3, 3) float64, from part coordinates to z up
    points_mm : (k, 3) float64 on undersides, in the turned frame
    asked : (k,) bool, points on undersides flat enough; the others are not bridged
    """
    below = points_mm - [0.0, 0.0, 0.5 * layer_mm]
    return _bridged(tree, np.ascontiguousarray(rotation), below @ rotation, asked, bridge_mm)


@compiled
def _bridged(tree, rotation, points, asked, limit):
    bridged = np.zeros(len(points), np.bool_)
    for i in range(len(points)):
        if asked[i]:
            bridged[i] = _is_bridged(tree, rotation, points[i], limit)
    return bridged


@compiled
def _is_bridged(tree, rotation, point, limit):
    tried = np.zeros(3)  # the last direction square to a wall, not to be tried again
    for k in range(_DIRECTIONS):
        angle = np.pi * k / _DIRECTIONS
        direction = np.cos(angle) * rotation[0] + np.sin(angle) * rotation[1]
        ahead, one = nearest_hit(tree, point, direction, limit * _NEARLY)
        behind, other = nearest_hit(tree, point, -direction, limit * _NEARLY)
        if ahead + behind <= limit * _EXACT:
            return True
        for wall in (one, other):
            if wall < 0:
                continue
            square = _square_to(tree.corners_mm[wall], rotation)
            if abs(np.dot(square, tried)) > 1.0 - 1e-9 or not square.any():
                continue
            tried = square
            ahead, end = nearest_hit(tree, point, square, limit * _EXACT)
            if end >= 0 and ahead + nearest_hit(tree, point, -square, limit)[0] <= limit * _EXACT:
                return True
    return False


@compiled
def _square_to(corners, rotation):
    """Level direction square to a wall, all zero if the wall itself lies level."""
    normal = np.cross(corners[1] - corners[0], corners[2] - corners[0])
    level = np.dot(normal, rotation[0]) * rotation[0] + np.dot(normal, rotation[1]) * rotation[1]
    size = np.sqrt(np.dot(level, level))
    if size <= 1e-9 * np.sqrt(np.dot(normal, normal)):
        return np.zeros(3)
    return level / size
