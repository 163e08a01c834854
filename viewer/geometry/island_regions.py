"""Regions of layers that start in mid-air: rims put together, and what lies below them."""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.distances import dot
from viewer.geometry.face_tree import LEAF_FACES
from viewer.geometry.island_cups import Cups
from viewer.geometry.ray_tree import RayTree, nearest_hit
from viewer.progress import Progress

_DEEPEST = 64  # nodes waiting at once, as in ray_tree
_STEP_MM = 1e-7  # behind a crossing, before the next is looked for


class Regions(NamedTuple):
    """Regions inside the rims of cups, holes taken out.

    cup : (i,) int32
    area_mm2 : (i,) float64
    centre_mm : (i, 2) float64, centroid
    share : (i,) float64, of all the area inside the rims of its cup
    rim_starts, rims : (i + 1,) and (r,) int64, rims of region i are rims[starts[i]:starts[i + 1]],
        the outer one first
    """

    cup: np.ndarray
    area_mm2: np.ndarray
    centre_mm: np.ndarray
    share: np.ndarray
    rim_starts: np.ndarray
    rims: np.ndarray


def regions_of(cups: Cups) -> Regions:
    """The regions of cups: a rim around material, less the rims around air inside it.

    A cup has several regions where what joins them is thinner than a layer.
    """
    outer = np.flatnonzero((cups.rim_cup >= 0) & (cups.rim_area_mm2 > 0))
    outer = outer[np.argsort(cups.rim_layer[outer], kind="stable")]
    holes = np.flatnonzero(cups.rim_area_mm2 < 0)
    around = _regions_around(
        cups.rim_starts, cups.rim_points_mm, cups.rim_layer, cups.rim_area_mm2, outer, holes
    )
    holes, around = holes[around >= 0], around[around >= 0]
    area = cups.rim_area_mm2[outer].copy()
    area += np.bincount(around, cups.rim_area_mm2[holes], len(outer))
    region = np.concatenate([np.arange(len(outer)), around])
    rims = np.concatenate([outer, holes])[np.argsort(region, kind="stable")]
    starts = np.searchsorted(np.sort(region), np.arange(len(outer) + 1))
    cup = cups.rim_cup[outer]
    whole = np.bincount(cup, area, len(cups.layer))
    centre = _centroids(cups.rim_starts, cups.rim_points_mm, starts, rims)
    return Regions(cup, area, centre, area / whole[cup], starts, rims)


@compiled
def _centroids(starts, points, region_starts, rims):
    """Centroid of each region, by triangles from one of its corners."""
    centres = np.empty((len(region_starts) - 1, 2))
    for i in range(len(centres)):
        x0, y0 = points[starts[rims[region_starts[i]]]]
        area, mx, my = 0.0, 0.0, 0.0
        for r in rims[region_starts[i] : region_starts[i + 1]]:
            j = starts[r + 1] - 1
            for p in range(starts[r], starts[r + 1]):
                ax, ay, bx, by = (
                    points[j, 0] - x0,
                    points[j, 1] - y0,
                    points[p, 0] - x0,
                    points[p, 1] - y0,
                )
                twice = ax * by - bx * ay
                area += twice
                mx += twice * (ax + bx) / 3.0
                my += twice * (ay + by) / 3.0
                j = p
        centres[i, 0], centres[i, 1] = x0 + mx / area, y0 + my / area
    return centres


@compiled
def _regions_around(starts, points, rim_layer, rim_area, outer, holes):
    """(h,) int64: the smallest region of its layer around each hole, −1 for none."""
    around = np.full(len(holes), -1, np.int64)
    boxes = np.empty((len(outer), 4))
    for i in range(len(outer)):
        rim = points[starts[outer[i]] : starts[outer[i] + 1]]
        boxes[i, 0], boxes[i, 1] = rim[:, 0].min(), rim[:, 0].max()
        boxes[i, 2], boxes[i, 3] = rim[:, 1].min(), rim[:, 1].max()
    layer_of_region = rim_layer[outer]
    for h in range(len(holes)):
        k = rim_layer[holes[h]]
        x, y = points[starts[holes[h]]]
        for i in range(
            np.searchsorted(layer_of_region, k), np.searchsorted(layer_of_region, k, side="right")
        ):
            box = boxes[i]
            if x < box[0] or x > box[1] or y < box[2] or y > box[3]:
                continue
            smaller = around[h] < 0 or rim_area[outer[i]] < rim_area[outer[around[h]]]
            if smaller and _odd_crossings(points, starts[outer[i]], starts[outer[i] + 1], x, y):
                around[h] = i
    return around


@compiled
def _odd_crossings(points, start, end, x, y):
    """Whether an odd number of edges of a closed outline lies to the right of (x, y)."""
    odd = False
    j = end - 1
    for i in range(start, end):
        if (points[i, 1] > y) != (points[j, 1] > y):
            share = (y - points[i, 1]) / (points[j, 1] - points[i, 1])
            odd ^= x < points[i, 0] + share * (points[j, 0] - points[i, 0])
        j = i
    return odd


def stand_on_nothing(
    cups: Cups,
    regions: Regions,
    tree: RayTree,
    rotation: np.ndarray,
    platform_mm: float,
    layer_mm: float,
    snap_mm: float,
    united: bool,
    progress: Progress | None = None,
) -> np.ndarray:
    """(i,) bool: nothing of the part lies below the region in the layer below.

    tree : over the surface, in part coordinates; rotation : (3, 3) from there to z up
    united : no shell of the surface overlaps another
    Raises Cancelled through `progress`.
    """
    progress = progress or Progress()
    below = platform_mm + (cups.layer[regions.cup] - 0.5) * layer_mm + snap_mm
    free = _stand_on_nothing(
        cups.rim_starts, cups.rim_points_mm, regions.rim_starts, regions.rims, below,
        tree, np.ascontiguousarray(rotation), layer_mm, united, progress.stop_flag,
    )  # fmt: skip
    progress.check()
    return free


@compiled
def _stand_on_nothing(
    starts, points, region_starts, rims, below, tree, rotation, layer, united, stop
):  # fmt: skip
    free = np.empty(len(below), np.bool_)
    for i in range(len(below)):
        if stop[0]:
            break
        own = rims[region_starts[i] : region_starts[i + 1]]
        x, y = _inner_point(starts, points, own)
        free[i] = not _material_at(
            tree, rotation, x, y, below[i], layer, united
        ) and not _meets_section(starts, points, own, tree, rotation, below[i])
    return free


@compiled
def _inside(starts, points, rims, x, y):
    odd = False
    for r in rims:
        odd ^= _odd_crossings(points, starts[r], starts[r + 1], x, y)
    return odd


@compiled
def _inner_point(starts, points, rims):
    """Some point inside a region: beside the middle of the longest edge of its outer rim."""
    start, end = starts[rims[0]], starts[rims[0] + 1]
    longest, at, before = -1.0, start, end - 1
    j = end - 1
    for i in range(start, end):
        length = (points[i, 0] - points[j, 0]) ** 2 + (points[i, 1] - points[j, 1]) ** 2
        if length > longest:
            longest, at, before = length, i, j
        j = i
    dx, dy = points[at, 0] - points[before, 0], points[at, 1] - points[before, 1]
    x, y = points[before, 0] + 0.5 * dx, points[before, 1] + 0.5 * dy
    aside = 0.1
    for _ in range(40):
        if _inside(starts, points, rims, x - aside * dy, y + aside * dx):
            break
        aside *= 0.5
    return x - aside * dy, y + aside * dx


@compiled
def _material_at(tree, rotation, x, y, z, layer, united):
    """Whether a point a layer below the inside of a region is inside material.

    Looking up, each face left behind counts +1, each entered −1. In a united surface the walk can
    end inside the region, where the winding number is 1.
    """
    origin = x * rotation[0] + y * rotation[1] + z * rotation[2]
    up = rotation[2]
    winding = 1 if united else 0
    left = layer if united else np.inf
    while True:
        distance, place = nearest_hit(tree, origin, up, left)
        if place < 0:
            return winding > 0
        a, b, c = tree.corners_mm[place, 0], tree.corners_mm[place, 1], tree.corners_mm[place, 2]
        winding += 1 if dot(np.cross(b - a, c - a), up) > 0 else -1
        origin = origin + (distance + _STEP_MM) * up
        left -= distance + _STEP_MM
        if left <= 0:
            return winding > 0


@compiled
def _meets_section(starts, points, rims, tree, rotation, z):
    """Whether the outline of the section at height z comes inside a region."""
    low_x, high_x, low_y, high_y = np.inf, -np.inf, np.inf, -np.inf
    for i in range(starts[rims[0]], starts[rims[0] + 1]):
        low_x, high_x = min(low_x, points[i, 0]), max(high_x, points[i, 0])
        low_y, high_y = min(low_y, points[i, 1]), max(high_y, points[i, 1])
    middle = np.array([0.5 * (low_x + high_x), 0.5 * (low_y + high_y), z])
    half = np.array([0.5 * (high_x - low_x), 0.5 * (high_y - low_y), 0.0])
    waiting = np.empty(_DEEPEST, np.int64)
    waiting[0], count = 1, 1
    corners = np.empty((3, 3))
    while count > 0:
        count -= 1
        node = waiting[count]
        if not _box_meets(tree.node_boxes[node], rotation, middle, half):
            continue
        if node < tree.leaves:
            waiting[count], waiting[count + 1] = 2 * node, 2 * node + 1
            count += 2
            continue
        first = (node - tree.leaves) * LEAF_FACES
        for f in range(first, min(first + LEAF_FACES, len(tree.corners_mm))):
            below = 0
            for k in range(3):
                px, py, pz = tree.corners_mm[f, k]
                for axis in range(3):
                    turn = rotation[axis]
                    corners[k, axis] = turn[0] * px + turn[1] * py + turn[2] * pz
                below += corners[k, 2] <= z
            if 0 < below < 3 and _cut_meets(corners, starts, points, rims, z):
                return True
    return False


@compiled
def _box_meets(box, rotation, middle, half):
    """Whether a box in part coordinates may meet a box in the turned frame (its three axes)."""
    if box[0] > box[3]:
        return False
    for axis in range(3):
        centre, reach = -middle[axis], half[axis] + 1e-6
        for k in range(3):
            low, high = np.float64(box[k]), np.float64(box[k + 3])
            centre += rotation[axis, k] * 0.5 * (low + high)
            reach += abs(rotation[axis, k]) * 0.5 * (high - low)
        if abs(centre) > reach:
            return False
    return True


@compiled
def _cut_meets(corners, starts, points, rims, z):
    """Whether the cut of a face at height z lies in, or crosses into, a region."""
    ends = np.empty((2, 2))
    count = 0
    for k in range(3):
        a, b = corners[k], corners[(k + 1) % 3]
        if (a[2] <= z) != (b[2] <= z) and count < 2:
            share = (z - a[2]) / (b[2] - a[2])
            ends[count, 0] = a[0] + share * (b[0] - a[0])
            ends[count, 1] = a[1] + share * (b[1] - a[1])
            count += 1
    if count < 2:
        return False
    if _inside(starts, points, rims, ends[0, 0], ends[0, 1]):
        return True
    for r in rims:
        j = starts[r + 1] - 1
        for i in range(starts[r], starts[r + 1]):
            if _segments_cross(ends[0], ends[1], points[j], points[i]):
                return True
            j = i
    return False


@compiled
def _segments_cross(p, q, a, b):
    """Whether two segments cross at a point inside both."""
    if max(p[0], q[0]) < min(a[0], b[0]) or max(a[0], b[0]) < min(p[0], q[0]):
        return False
    if max(p[1], q[1]) < min(a[1], b[1]) or max(a[1], b[1]) < min(p[1], q[1]):
        return False
    return _side(a, b, p) * _side(a, b, q) < 0 and _side(p, q, a) * _side(p, q, b) < 0


@compiled
def _side(a, b, p):
    return (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])
