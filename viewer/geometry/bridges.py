"""Bridges: level undersides that span from wall to wall and hold themselves up.

A point of an underside with α ≤ 10° is bridged if some horizontal chord through it, half a layer
below (in the layer that has to carry it), meets the part at both ends and is not longer than the
bridge limit; a chord as long as the limit counts. At each point, tried are eight directions, which
turn on from point to point so that a post too narrow for one is met from the next; those in which
points just before were bridged, followed as they turn towards the shortest chord; and those square
to the walls that are met, which is how a straight tunnel's true width is found up to its ends.

Of the lines over a level underside only every third in every third row is asked about at first;
between four that agree the others follow, and elsewhere each is asked about by itself.
"""

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.ray_tree import RayTree, nearest_hit

STEEPEST_BRIDGE_DEG = 10.0
_DIRECTIONS = 8
_TURN = 0.6180339887498949  # of the angle between two directions, from point to point
_STEP = 3  # lines from one that is asked about first to the next
_REMEMBERED = 6  # directions in which points just before were bridged
_ASIDE = np.radians(2.0)  # how far such a direction turns at once
# A chord askew by half of the 22.5° between two directions is longer by 1 / cos 11.25°.
_NEARLY = 1.0 / np.cos(np.radians(11.25)) + 1e-3
_EXACT = 1.0 + 1e-6  # rounding must not undo "as long as the limit counts"
_STEEPEST = np.tan(np.radians(STEEPEST_BRIDGE_DEG))


def bridged_points(
    tree: RayTree,
    rotation: np.ndarray,
    points_mm: np.ndarray,
    asked: np.ndarray,
    line: np.ndarray,
    lines_in_row: int,
    layer_mm: float,
    bridge_mm: float,
) -> np.ndarray:
    """(k,) bool: the point is bridged.

    tree : over the part, in part coordinates
    rotation : (3, 3) float64, from part coordinates to z up
    points_mm : (k, 3) float64 on undersides, in the turned frame
    asked : (k,) bool, points on undersides flat enough; the others are not bridged
    line : (k,) int32 rising, upright line through each point; `lines_in_row` of them make a row
    """
    below = (points_mm - [0.0, 0.0, 0.5 * layer_mm]) @ rotation
    rotation = np.ascontiguousarray(rotation)
    row, column = np.divmod(line, lines_in_row)
    first = asked & (row % _STEP == 0) & (column % _STEP == 0)
    bridged = np.zeros(len(line), np.bool_)
    _decide(tree, rotation, below, first, bridge_mm, bridged)
    starts = np.searchsorted(line, np.arange(lines_in_row * (row.max(initial=0) + 1) + 1))
    rest = asked & ~first
    _follow(points_mm, starts, row, column, lines_in_row, first, rest, bridged)
    _decide(tree, rotation, below, rest, bridge_mm, bridged)
    return bridged


@compiled
def _follow(points, starts, row, column, lines_in_row, first, rest, bridged):
    """Settle what lies between four points that agree, and take it out of `rest`."""
    for i in range(len(row)):
        if not rest[i]:
            continue
        r, c = row[i] - row[i] % _STEP, column[i] - column[i] % _STEP
        yes = no = 0
        for corner in range(4):
            at_row, at = r + _STEP * (corner // 2), c + _STEP * (corner % 2)
            line = at_row * lines_in_row + at
            if at >= lines_in_row or line + 1 >= len(starts):
                break
            for j in range(starts[line], starts[line + 1]):
                if first[j] and _on_one_underside(points[i], points[j]):
                    yes += bridged[j]
                    no += not bridged[j]
                    break
        if yes == 4 or no == 4:
            bridged[i] = yes == 4
            rest[i] = False


@compiled
def _on_one_underside(p, q):
    x, y, z = p[0] - q[0], p[1] - q[1], p[2] - q[2]
    return abs(z) <= _STEEPEST * np.sqrt(x * x + y * y) + 1e-6


@compiled
def _decide(tree, rotation, points, asked, limit, bridged):
    """Ask about points there, and then, in what was found for their neighbours, back again."""
    known = np.full(_REMEMBERED, np.inf)
    for i in range(len(points)):
        if asked[i]:
            bridged[i] = _along_known(tree, rotation, points[i], limit, known, i) or _along_any(
                tree, rotation, points[i], limit, known, i
            )
    known[:] = np.inf
    for i in range(len(points) - 1, -1, -1):
        if asked[i]:
            if bridged[i]:
                # Only to follow the chord from here on.
                _along_known(tree, rotation, points[i], limit, known, i)
            else:
                bridged[i] = _along_known(tree, rotation, points[i], limit, known, i)
    return bridged


@compiled
def _along_known(tree, rotation, point, limit, known, turn):
    """Whether a chord in a direction that held before is short enough; it turns towards shorter."""
    for k in range(len(known)):
        angle = known[k]
        if angle == np.inf:
            break
        length = _chord(tree, rotation, point, angle, limit)
        if length <= limit * _EXACT:
            aside = angle + (_ASIDE if turn % 2 else -_ASIDE)
            if _chord(tree, rotation, point, aside, length) < length:
                angle = aside
            _remember(known, k, angle)
            return True
    return False


@compiled
def _remember(known, k, angle):
    """Put a direction first; the one it comes from, in place k, or the last makes room for it."""
    for j in range(k, 0, -1):
        known[j] = known[j - 1]
    known[0] = angle


@compiled
def _chord(tree, rotation, point, angle, limit):
    """Length of the chord in a direction; inf if it does not meet the part within the limit."""
    direction = np.cos(angle) * rotation[0] + np.sin(angle) * rotation[1]
    ahead, place = nearest_hit(tree, point, direction, limit * _EXACT)
    if place < 0:
        return np.inf
    behind, place = nearest_hit(tree, point, -direction, limit * _EXACT - ahead)
    return ahead + behind if place >= 0 else np.inf


@compiled
def _along_any(tree, rotation, point, limit, known, turn):
    tried = np.zeros(3)  # the last direction square to a wall, not to be tried again
    for k in range(_DIRECTIONS):
        angle = np.pi * (k + (turn * _TURN) % 1.0) / _DIRECTIONS
        direction = np.cos(angle) * rotation[0] + np.sin(angle) * rotation[1]
        ahead, one = nearest_hit(tree, point, direction, limit * _NEARLY)
        behind, other = nearest_hit(tree, point, -direction, limit * _NEARLY)
        if ahead + behind <= limit * _EXACT:
            _remember(known, len(known) - 1, angle)
            return True
        for wall in (one, other):
            if wall < 0:
                continue
            square = _square_to(tree.corners_mm[wall], rotation)
            if abs(np.dot(square, tried)) > 1.0 - 1e-9 or not square.any():
                continue
            tried = square
            angle = np.arctan2(np.dot(square, rotation[1]), np.dot(square, rotation[0]))
            if _chord(tree, rotation, point, angle, limit) <= limit * _EXACT:
                _remember(known, len(known) - 1, angle)
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
