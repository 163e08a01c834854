"""Whether a narrow gap has a floor near by: a sunk line has one, a slit between two sides has none.

From the middle of the gap one walks along it, in step with its two sides, in some directions. Where
the way is barred, or the sides come together, within reach, there the gap has a floor; where the
sides end or draw apart to more than a road, it is open that way.
"""

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.ray_tree import RayTree, nearest_hit
from viewer.geometry.wall_samples import TOUCH_MM, WallSamples
from viewer.progress import Progress

_WAYS = 8  # around the gap; a floor is met at most 22.5° askew
_POINTS_A_GO = 64  # where no way has a floor, a point takes a tenth of a millisecond


def have_floors(
    tree: RayTree,
    samples: WallSamples,
    chosen: np.ndarray,
    reach_mm: float,
    road_mm: float,
    progress: Progress | None = None,
) -> np.ndarray:
    """(k,) bool: a floor closes the gap before a point within `reach_mm`, whichever way it lies.

    chosen : (k,) int64, rows of `samples` with a gap before them narrower than `road_mm`

    Raises Cancelled.
    """
    progress = progress or Progress()
    found, last = np.zeros(len(chosen), bool), np.zeros(3)
    for first in range(0, len(chosen), _POINTS_A_GO):
        some = slice(first, first + _POINTS_A_GO)
        found[some] = _have_floors(tree, samples, chosen[some], reach_mm, road_mm, last)
        progress.check()
    return found


@compiled
def _have_floors(tree, samples, chosen, reach, road, last):
    found = np.zeros(len(chosen), np.bool_)
    across, aside, way = np.empty(3), np.empty(3), np.empty(3)
    # Points in a row lie near each other: where the last one met a floor is looked at first.
    for i in range(len(chosen)):
        normal, gap = samples.normals[chosen[i]], samples.gap_mm[chosen[i]]
        middle = samples.points_mm[chosen[i]] + 0.5 * gap * normal
        across[:] = 0.0
        across[np.argmin(np.abs(normal))] = 1.0
        aside[:] = np.cross(normal, across)
        aside /= np.sqrt(np.sum(aside * aside))
        across[:] = np.cross(normal, aside)
        first = np.arctan2(np.sum(last * across), np.sum(last * aside)) * _WAYS / (2.0 * np.pi)
        for k in range(_WAYS):
            turn = np.round(first) + (k // 2 + 1 if k % 2 else -(k // 2))  # 0, 1, −1, 2, …
            angle = 2.0 * np.pi * turn / _WAYS
            way[:] = np.cos(angle) * aside + np.sin(angle) * across
            if _meets_floor(tree, middle, normal, way, gap, reach / np.cos(np.pi / _WAYS), road):
                found[i] = True
                last[:] = way
                break
    return found


@compiled
def _meets_floor(tree, middle, normal, way, gap, reach, road):
    """Walk from the middle of a gap; the normal and the way follow the sides as they bend."""
    at, upright, ahead = middle.copy(), normal.copy(), way.copy()
    side = np.empty(3)
    gone = 0.0
    while gone < reach:
        # A step in which sides that bend with a radius of some roads do not come into the way.
        step = min(max(gap, 0.25 * road), reach - gone + TOUCH_MM)
        if nearest_hit(tree, at, ahead, step)[1] >= 0:
            return True
        at += step * ahead
        gone += step
        over, place_over = nearest_hit(tree, at, upright, road)
        under, place_under = nearest_hit(tree, at, -upright, road)
        gap = over + under
        if place_over < 0 or place_under < 0 or gap >= road:
            return False
        if gap <= TOUCH_MM:
            return True
        at += 0.5 * (over - under) * upright
        side[:] = _towards(tree, place_under, upright)
        side += _towards(tree, place_over, upright)
        length = np.sqrt(np.sum(side * side))
        if length > 1.0:  # both sides still lie across the gap
            upright[:] = side / length
            ahead -= np.sum(ahead * upright) * upright
            ahead /= np.sqrt(np.sum(ahead * ahead))
    return False


@compiled
def _towards(tree, place, direction):
    """(3,) unit normal of the face at a place of the tree, on the side that `direction` is on."""
    a, b, c = tree.corners_mm[place]
    normal = np.cross(b - a, c - a)
    length = np.sqrt(np.sum(normal * normal))
    if length == 0.0:
        return direction.copy()
    return normal * ((1.0 if np.sum(normal * direction) >= 0.0 else -1.0) / length)
