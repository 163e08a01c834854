"""Faces along a ray: the nearest one for chords of bridges, any one for ways out of the part.

The nearer of two child boxes is looked into first, so that what it holds shortens the ray before
the farther one's turn comes (Wald, Slusallek, Benthin & Wagner 2001, "Interactive rendering with
coherent ray tracing"; MEM).
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.face_tree import (
    LEAF_FACES,
    build_face_tree,
    corners_in_order,
    order_along_curve,
)
from viewer.progress import Progress

_DEEPEST = 64  # nodes waiting at once; a heap of 2³⁰ leaves needs 31
_HUGE = 1e300  # in place of 1 / 0, which would give nan at 0 · ∞


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


def build_ray_tree(
    points_mm: np.ndarray, faces: np.ndarray, progress: Progress | None = None
) -> RayTree:
    """Tree over (m, 3) int32 faces of (n, 3) float64 points. Raises Cancelled."""
    progress = progress or Progress()
    order = order_along_curve(points_mm, faces, progress)
    corners = corners_in_order(points_mm, faces, order, progress)
    tree = build_face_tree(corners, 1e-6, progress)
    return RayTree(order, corners, tree.node_boxes, tree.leaves)


@compiled
def nearest_hit(tree, origin, direction, reach):
    """Distance to the first face along a ray and that face's place in the tree.

    origin, direction : (3,) float64, direction of length 1
    reach : how far to look; returns (inf, −1) if nothing lies within it
    """
    return _walk(tree, origin, direction, reach, False)


@compiled
def meets_anything(tree, origin, direction, reach):
    """Whether any face lies along a ray; stops at the first that is found, near or far.

    origin, direction : (3,) float64, direction of length 1
    reach : how far to look
    """
    return _walk(tree, origin, direction, reach, True)[1] >= 0


@compiled
def _walk(tree, origin, direction, reach, any_will_do):
    boxes, leaves, corners = tree.node_boxes, tree.leaves, tree.corners_mm
    x, y, z = origin[0], origin[1], origin[2]
    per_x, per_y, per_z = _one_over(direction[0]), _one_over(direction[1]), _one_over(direction[2])
    nearest, place, limit = np.inf, -1, reach
    waiting, entries = np.empty(_DEEPEST, np.int64), np.empty(_DEEPEST)
    waiting[0], entries[0], count = 1, _entry(boxes, 1, x, y, z, per_x, per_y, per_z, limit), 1
    while count > 0:
        count -= 1
        if entries[count] > limit:
            continue  # something nearer was found since
        node = waiting[count]
        if node >= leaves:
            first = (node - leaves) * LEAF_FACES
            for f in range(first, min(first + LEAF_FACES, len(corners))):
                t = _distance_to_face(corners[f], origin, direction)
                if t <= limit and t < np.inf:  # a miss is no hit, however far one may look
                    nearest, limit, place = t, t, f
            if any_will_do and place >= 0:
                break
            continue
        near, far = 2 * node, 2 * node + 1
        here = _entry(boxes, near, x, y, z, per_x, per_y, per_z, limit)
        there = _entry(boxes, far, x, y, z, per_x, per_y, per_z, limit)
        if there < here:
            near, far, here, there = far, near, there, here
        # The farther one waits below the nearer one.
        if there < np.inf:
            waiting[count], entries[count] = far, there
            count += 1
        if here < np.inf:
            waiting[count], entries[count] = near, here
            count += 1
    return nearest, place


@compiled
def _one_over(length):
    return 1.0 / length if abs(length) > 1.0 / _HUGE else _HUGE


@compiled
def _entry(boxes, node, x, y, z, per_x, per_y, per_z, limit):
    """Where a ray enters a box, ∞ if not within `limit`; the sides are taken in the ray's order.

    So taken, an empty box (low = ∞, high = −∞) is entered at ∞ from either side.
    """
    near, far = (0, 3) if per_x >= 0.0 else (3, 0)
    start, end = (
        max(0.0, (boxes[node, near] - x) * per_x),
        min(limit, (boxes[node, far] - x) * per_x),
    )
    near, far = (1, 4) if per_y >= 0.0 else (4, 1)
    start, end = (
        max(start, (boxes[node, near] - y) * per_y),
        min(end, (boxes[node, far] - y) * per_y),
    )
    near, far = (2, 5) if per_z >= 0.0 else (5, 2)
    start, end = (
        max(start, (boxes[node, near] - z) * per_z),
        min(end, (boxes[node, far] - z) * per_z),
    )
    return start if start <= end else np.inf


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
