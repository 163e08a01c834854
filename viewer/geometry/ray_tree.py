"""The nearest face along a ray: for chords of bridges and for ways out of the part."""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.face_tree import LEAF_FACES, build_face_tree, order_along_curve

_DEEPEST = 64  # nodes waiting at once; a heap of 2³⁰ leaves needs 31


class RayTree(NamedTuple):
    """Boxes over the faces of a part, in the order of a space-filling curve.

    order : (m,) int32, face at each place
    corners_mm : (m, 3, 3) float64, in that order
    node_boxes : (2 · leaves, 6) float32; leaves : a power of two
    """

    order: np.ndarray
    corners_mm: np.ndarray
    node_boxes: np.ndarray
    leaves: int


def build_ray_tree(points_mm: np.ndarray, faces: np.ndarray) -> RayTree:
    """Tree over (m, 3) int32 faces of (n, 3) float64 points."""
    order = order_along_curve(points_mm, faces)
    corners = points_mm[faces[order]]
    tree = build_face_tree(corners, 1e-6)
    return RayTree(order, corners, tree.node_boxes, tree.leaves)


@compiled
def nearest_hit(tree, origin, direction, reach):
    """Distance to the first face along a ray and that face's place in the tree.

    origin, direction : (3,) float64, direction of length 1
    reach : how far to look; returns (inf, −1) if nothing lies within it
    """
    waiting = np.empty(_DEEPEST, np.int64)
    waiting[0], count = 1, 1
    nearest, place = np.inf, -1
    limit = reach
    while count > 0:
        count -= 1
        node = waiting[count]
        if not _enters(tree.node_boxes[node], origin, direction, limit):
            continue
        if node < tree.leaves:
            waiting[count] = 2 * node
            waiting[count + 1] = 2 * node + 1
            count += 2
            continue
        first = (node - tree.leaves) * LEAF_FACES
        for f in range(first, min(first + LEAF_FACES, len(tree.corners_mm))):
            t = _distance_to_face(tree.corners_mm[f], origin, direction)
            if t <= limit:
                nearest, limit, place = t, t, f
    return nearest, place


@compiled
def _enters(box, origin, direction, limit):
    if box[0] > box[3]:
        return False  # no faces: a slanting ray would pass the test below
    start, end = 0.0, limit
    for axis in range(3):
        low, high = box[axis] - origin[axis], box[axis + 3] - origin[axis]
        if direction[axis] == 0.0:
            if low > 0.0 or high < 0.0:
                return False
            continue
        inverse = 1.0 / direction[axis]
        a, b = low * inverse, high * inverse
        start, end = max(start, min(a, b)), min(end, max(a, b))
    return start <= end


@compiled
def _distance_to_face(corners, origin, direction):
    """Möller & Trumbore 1997, "Fast, minimum storage ray–triangle intersection"; inf if missed."""
    dx, dy, dz = direction
    ax, ay, az = corners[0]
    ex, ey, ez = corners[1, 0] - ax, corners[1, 1] - ay, corners[1, 2] - az
    fx, fy, fz = corners[2, 0] - ax, corners[2, 1] - ay, corners[2, 2] - az
    px, py, pz = dy * fz - dz * fy, dz * fx - dx * fz, dx * fy - dy * fx
    volume = ex * px + ey * py + ez * pz
    if volume == 0.0:
        return np.inf
    tx, ty, tz = origin[0] - ax, origin[1] - ay, origin[2] - az
    u = (tx * px + ty * py + tz * pz) / volume
    if u < -1e-12 or u > 1.0 + 1e-12:
        return np.inf
    qx, qy, qz = ty * ez - tz * ey, tz * ex - tx * ez, tx * ey - ty * ex
    v = (dx * qx + dy * qy + dz * qz) / volume
    if v < -1e-12 or u + v > 1.0 + 1e-12:
        return np.inf
    t = (fx * qx + fy * qy + fz * qz) / volume
    return t if t > 0.0 else np.inf
