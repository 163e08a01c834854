"""Bridges: level undersides that span from wall to wall and hold themselves up.

A point of an underside with α ≤ 10° is bridged if some horizontal chord through it, half a layer
below (in the layer that has to carry it), meets the part at both ends and is not longer than the
bridge limit; a chord as long as the limit counts. At each point, tried are sixteen directions,
which turn on from point to point so that a post too narrow for one is met from the next; those in
which points beside it are bridged, followed as they turn towards the shortest chord; and those
square to the walls that are met, which is how a straight tunnel's true width is found up to its
ends.

Of the lines over a level underside only every third in every third row is asked about at first;
between four that agree the others follow, and elsewhere each is asked about by itself.
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.distances import dot
from viewer.geometry.ray_tree import RayTree, nearest_hit
from viewer.progress import Progress

STEEPEST_BRIDGE_DEG = 10.0
_DIRECTIONS = 16
_TURN = 0.6180339887498949  # of the angle between two directions, from point to point
_STEP = 3  # lines from one that is asked about first to the next
_ASIDE = np.radians(2.0)  # how far the direction of a chord turns from point to point
# A chord askew by half the angle between two directions is longer by 1 / cos of that.
_NEARLY = 1.0 / np.cos(np.pi / 2 / _DIRECTIONS) + 1e-3
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
    progress: Progress,
) -> np.ndarray:
    """(k,) bool: the point is bridged.

    tree : over the part, in part coordinates
    rotation : (3, 3) float64, from part coordinates to z up
    points_mm : (k, 3) float64 on undersides, in the turned frame
    asked : (k,) bool, points on undersides flat enough; the others are not bridged
    line : (k,) int32 rising, upright line through each point; `lines_in_row` of them make a row
    raises Cancelled if `progress` says so
    """
    below = (points_mm - [0.0, 0.0, 0.5 * layer_mm]) @ rotation
    rotation = np.ascontiguousarray(rotation)
    row, column = np.divmod(line, lines_in_row)
    starts = np.searchsorted(line, np.arange(lines_in_row * (row.max(initial=0) + 1) + 1))
    lines = _Lines(points_mm, starts, row, column, lines_in_row)
    first = asked & (row % _STEP == 0) & (column % _STEP == 0)
    angles = np.full(len(line), np.inf)
    _decide(tree, rotation, below, first, bridge_mm, angles, lines, _STEP, progress.stop_flag)
    progress.check()
    rest = asked & ~first
    _follow(first, rest, angles, lines)
    _decide(tree, rotation, below, rest, bridge_mm, angles, lines, 1, progress.stop_flag)
    progress.check()
    return angles < np.inf


class _Lines(NamedTuple):
    """Points by the lines they lie on; those of a line are starts[line]:starts[line + 1]."""

    points_mm: np.ndarray
    starts: np.ndarray
    row: np.ndarray
    column: np.ndarray
    in_row: int


@compiled
def _point_at(lines, row, column, beside):
    """The point on a line that lies on one underside with another point; −1 if there is none."""
    line = row * lines.in_row + column
    if row < 0 or column < 0 or column >= lines.in_row or line + 1 >= len(lines.starts):
        return -1
    p = lines.points_mm[beside]
    for i in range(lines.starts[line], lines.starts[line + 1]):
        q = lines.points_mm[i]
        x, y, z = p[0] - q[0], p[1] - q[1], p[2] - q[2]
        if abs(z) <= _STEEPEST * np.sqrt(x * x + y * y) + 1e-6:
            return i
    return -1


@compiled
def _follow(first, rest, angles, lines):
    """Settle what lies between four points that agree, and take it out of `rest`."""
    for i in range(len(rest)):
        if not rest[i]:
            continue
        row, column = lines.row[i], lines.column[i]
        yes, no, angle = 0, 0, np.inf
        for corner in range(4):
            at_row = row - row % _STEP + _STEP * (corner // 2)
            at = column - column % _STEP + _STEP * (corner % 2)
            j = _point_at(lines, at_row, at, i)
            if j < 0 or not first[j]:
                break
            angle = min(angle, angles[j])
            yes += angles[j] < np.inf
            no += angles[j] == np.inf
        if yes == 4 or no == 4:
            angles[i] = angle
            rest[i] = False


@compiled
def _decide(tree, rotation, points, asked, limit, angles, lines, step, stop):
    """Ask about points there, and then, in what was found for their neighbours, back again.

    angles : (k,) direction of a chord that bridges the point; inf if it is not bridged
    """
    for i in range(len(points)):
        if stop[0]:
            return
        if asked[i]:
            angles[i] = _as_beside(tree, rotation, points[i], limit, angles, lines, i, -step)
            if angles[i] == np.inf:
                angles[i] = _any_chord(tree, rotation, points[i], limit, i)
    for i in range(len(points) - 1, -1, -1):
        if stop[0]:
            return
        if asked[i] and angles[i] == np.inf:
            angles[i] = _as_beside(tree, rotation, points[i], limit, angles, lines, i, step)


@compiled
def _as_beside(tree, rotation, point, limit, angles, lines, i, step):
    """Direction of a chord short enough, near one that bridges a point beside; inf if none is."""
    for k in range(4):
        along = step if k == 0 else (k - 2) * step
        j = _point_at(lines, lines.row[i] + (step if k > 0 else 0), lines.column[i] + along, i)
        if j < 0 or angles[j] == np.inf:
            continue
        length = _chord(tree, rotation, point, angles[j], limit)
        if length <= limit * _EXACT:
            # One look aside at each point turns it, from point to point, towards the shortest.
            aside = angles[j] + (_ASIDE if i % 2 else -_ASIDE)
            shorter = _chord(tree, rotation, point, aside, length) < length
            return aside if shorter else angles[j]
    return np.inf


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
def _any_chord(tree, rotation, point, limit, turn):
    """Direction of some chord short enough; inf if none is found."""
    tried = np.zeros(3)  # the last direction square to a wall, not to be tried again
    for k in range(_DIRECTIONS):
        angle = np.pi * (k + (turn * _TURN) % 1.0) / _DIRECTIONS
        direction = np.cos(angle) * rotation[0] + np.sin(angle) * rotation[1]
        ahead, one = nearest_hit(tree, point, direction, limit * _NEARLY)
        behind, other = nearest_hit(tree, point, -direction, limit * _NEARLY)
        if ahead + behind <= limit * _EXACT:
            return angle
        for wall in (one, other):
            if wall < 0:
                continue
            square = _square_to(tree.corners_mm[wall], rotation)
            if abs(dot(square, tried)) > 1.0 - 1e-9 or not square.any():
                continue
            tried = square
            angle = np.arctan2(dot(square, rotation[1]), dot(square, rotation[0]))
            if _chord(tree, rotation, point, angle, limit) <= limit * _EXACT:
                return angle
    return np.inf


@compiled
def _square_to(corners, rotation):
    """Level direction square to a wall, all zero if the wall itself lies level."""
    normal = np.cross(corners[1] - corners[0], corners[2] - corners[0])
    level = dot(normal, rotation[0]) * rotation[0] + dot(normal, rotation[1]) * rotation[1]
    size = np.sqrt(dot(level, level))
    if size <= 1e-9 * np.sqrt(dot(normal, normal)):
        return np.zeros(3)
    return level / size
