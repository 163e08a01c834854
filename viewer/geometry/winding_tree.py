"""The generalised winding number of loose triangles at points, by a tree of dipoles.

A triangle adds the solid angle it covers, over 4π (Van Oosterom & Strackee 1983, "The solid angle
of a plane triangle"). Triangles that lie together and far off are taken as one dipole (Barill,
Dickson, Schmidt, Levin & Jacobson 2018, "Fast winding numbers for soups and clouds").
"""

import math
from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import LOOK_BITS, compiled
from viewer.geometry.face_tree import (
    LEAF_FACES,
    build_face_tree,
    corners_in_order,
    order_along_curve,
)
from viewer.progress import Progress

_DEEPEST = 64  # nodes waiting at once; a heap of 2³⁰ leaves needs 31
_FAR = 4.0  # radii of a node; all dipoles together are then off by less than 0.01


class WindingTree(NamedTuple):
    """Triangles in the order of a space-filling curve, and what each node of the heap adds up to.

    corners_mm : (m, 3, 3) float64
    dipoles : (2 · leaves, 7) float64, area vector, centre and radius; leaves : a power of two
    """

    corners_mm: np.ndarray
    dipoles: np.ndarray
    leaves: int


def build_winding_tree(
    points_mm: np.ndarray, faces: np.ndarray, progress: Progress | None = None
) -> WindingTree:
    """Tree over (m, 3) int32 faces, m > 0, of (n, 3) float64 points. Raises Cancelled."""
    progress = progress or Progress()
    order = order_along_curve(points_mm, faces, progress)
    corners = corners_in_order(points_mm, faces, order, progress)
    boxes = build_face_tree(corners, 0.0, progress)
    dipoles = _dipoles(corners, boxes.node_boxes, boxes.leaves, progress.stop_flag)
    progress.check()
    return WindingTree(corners, dipoles, boxes.leaves)


@compiled
def _dipoles(corners, boxes, leaves, stop):
    dipoles = np.zeros((2 * leaves, 7))
    weights = np.zeros(2 * leaves)
    for f in range(len(corners)):
        if f & LOOK_BITS == 0 and stop[0]:
            break
        a, b, c = corners[f]
        node, vector = leaves + f // LEAF_FACES, 0.5 * np.cross(b - a, c - a)
        area = math.sqrt(vector[0] ** 2 + vector[1] ** 2 + vector[2] ** 2)
        weights[node] += area
        for axis in range(3):
            dipoles[node, axis] += vector[axis]
            dipoles[node, axis + 3] += area * (a[axis] + b[axis] + c[axis]) / 3.0
    for node in range(leaves - 1, 0, -1):
        weights[node] = weights[2 * node] + weights[2 * node + 1]
        dipoles[node, :6] = dipoles[2 * node, :6] + dipoles[2 * node + 1, :6]
    for node in range(1, 2 * leaves):
        square = 0.0
        for axis in range(3):
            if weights[node] > 0.0:
                dipoles[node, axis + 3] /= weights[node]
            centre = dipoles[node, axis + 3]
            square += max(centre - boxes[node, axis], boxes[node, axis + 3] - centre) ** 2
        dipoles[node, 6] = math.sqrt(square) if weights[node] > 0.0 else 0.0
    return dipoles


@compiled
def winding_at(tree, x, y, z):
    """Winding number of the triangles at a point: 1 inside a closed surface that faces outward."""
    waiting = np.empty(_DEEPEST, np.int64)
    waiting[0], count, total = 1, 1, 0.0
    while count > 0:
        count -= 1
        node = waiting[count]
        dipole = tree.dipoles[node]
        if dipole[6] == 0.0:
            continue  # nothing, or nothing with an area
        dx, dy, dz = dipole[3] - x, dipole[4] - y, dipole[5] - z
        away = math.sqrt(dx * dx + dy * dy + dz * dz)
        if away > _FAR * dipole[6]:
            total += (dipole[0] * dx + dipole[1] * dy + dipole[2] * dz) / away**3
        elif node < tree.leaves:
            waiting[count], waiting[count + 1] = 2 * node, 2 * node + 1
            count += 2
        else:
            first = (node - tree.leaves) * LEAF_FACES
            for f in range(first, min(first + LEAF_FACES, len(tree.corners_mm))):
                total += _solid_angle(tree.corners_mm[f], x, y, z)
    return total / (4.0 * math.pi)


@compiled
def _solid_angle(corners, x, y, z):
    ax, ay, az = corners[0, 0] - x, corners[0, 1] - y, corners[0, 2] - z
    bx, by, bz = corners[1, 0] - x, corners[1, 1] - y, corners[1, 2] - z
    cx, cy, cz = corners[2, 0] - x, corners[2, 1] - y, corners[2, 2] - z
    a = math.sqrt(ax * ax + ay * ay + az * az)
    b = math.sqrt(bx * bx + by * by + bz * bz)
    c = math.sqrt(cx * cx + cy * cy + cz * cz)
    triple = (
        ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx)
    )  # six times the volume of the pyramid
    rest = (
        a * b * c
        + (ax * bx + ay * by + az * bz) * c
        + (bx * cx + by * cy + bz * cz) * a
        + (cx * ax + cy * ay + cz * az) * b
    )
    return 2.0 * math.atan2(triple, rest)
