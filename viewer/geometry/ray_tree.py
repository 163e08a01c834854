"""Faces along a ray: the nearest one for chords of bridges, any one for ways out of the part.

Of the eight boxes of a node the nearest is looked into first, so that what it holds shortens the
ray before the farther ones' turn comes (Wald, Slusallek, Benthin & Wagner 2001, "Interactive
rendering with coherent ray tracing"; MEM).
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.eight_boxes import EightBoxes, build_eight_boxes
from viewer.geometry.eight_lanes import (
    LANES,
    LEVEL,
    NODE_BYTES,
    entries_of_eight,
    read_ahead,
)
from viewer.geometry.face_tree import build_face_tree, corners_in_order, order_along_curve
from viewer.progress import Progress

_DEEPEST = 96  # nodes waiting at once: seven for each of ten levels, and eight, do for 2³⁰ faces
_HUGE = 1e15  # in place of 1 / 0, which would give nan at 0 · ∞


class RayTree(NamedTuple):
    """Boxes over the faces of a part, in the order of a space-filling curve.

    order : (m,) int32, face at each place
    corners_mm : (m, 3, 3) float64, in that order
    node_boxes : (2 · leaves, 6) float32; leaves : a power of two, see `face_tree`
    eights : the same faces in boxes by eights, for rays
    """

    order: np.ndarray
    corners_mm: np.ndarray
    node_boxes: np.ndarray
    leaves: int
    eights: EightBoxes


def build_ray_tree(
    points_mm: np.ndarray, faces: np.ndarray, progress: Progress | None = None
) -> RayTree:
    """Tree over (m, 3) int32 faces of (n, 3) float64 points. Raises Cancelled."""
    progress = progress or Progress()
    order = order_along_curve(points_mm, faces, progress)
    corners = corners_in_order(points_mm, faces, order, progress)
    tree = build_face_tree(corners, 1e-6, progress)
    eights = build_eight_boxes(corners, progress)
    return RayTree(order, corners, tree.node_boxes, tree.leaves, eights)


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
    corners, nodes = tree.corners_mm, tree.eights.nodes
    shifts, lowest = tree.eights.shifts, tree.eights.lowest
    x, y, z = np.float32(origin[0]), np.float32(origin[1]), np.float32(origin[2])
    per_x, per_y, per_z = _one_over(direction[0]), _one_over(direction[1]), _one_over(direction[2])
    nearest, place, limit = np.inf, -1, reach
    near = _just_beyond(limit)
    waiting, entries = np.empty(_DEEPEST, np.int64), np.empty(_DEEPEST + LANES, np.float32)
    waiting[0], entries[LANES], count = 0, np.float32(0.0), 1
    while count > 0:
        count -= 1
        if entries[LANES + count] > near:
            continue  # something nearer was found since
        node = waiting[count]
        met = entries_of_eight(nodes, node, x, y, z, per_x, per_y, per_z, near, entries)
        if node >= lowest:
            first = LANES * (node - lowest)
            for k in range(LANES):
                if met >> k & 1:
                    t = _distance_to_face(corners[first + k], origin, direction)
                    if t <= limit and t < np.inf:  # a miss is no hit, however far one may look
                        nearest, limit, place = t, t, first + k
                        near = _just_beyond(limit)
            if any_will_do and place >= 0:
                break
            continue
        child, top = LANES * node + shifts[nodes[node, LEVEL]], count
        for k in range(LANES):
            if met >> k & 1:
                read_ahead(nodes, NODE_BYTES * (child + k))
                # The nearer ones wait on top of the farther ones.
                j, entry = count, entries[k]
                while j > top and entries[LANES + j - 1] < entry:
                    entries[LANES + j], waiting[j] = entries[LANES + j - 1], waiting[j - 1]
                    j -= 1
                entries[LANES + j], waiting[j] = entry, child + k
                count += 1
    return nearest, place


@compiled
def _one_over(length):
    if abs(length) > 1.0 / _HUGE:
        return np.float32(1.0 / length)
    return np.float32(_HUGE)


@compiled
def _just_beyond(limit):
    """A limit for boxes that rounding to single precision does not bring below the true one."""
    return np.float32(limit * (1.0 + 1e-6))


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
