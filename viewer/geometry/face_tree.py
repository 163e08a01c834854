"""A tree of boxes over faces that lie near each other, for finding pairs whose boxes meet.

Faces are sorted along a Morton curve and taken four to a leaf; boxes are joined upwards into a
complete binary tree stored as a heap (node 1 is the root, node i has the children 2i and 2i + 1),
after Karras 2012, "Maximizing Parallelism in the Construction of BVHs", simplified.
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import LOOK_BITS, compiled
from viewer.geometry.mesh import Mesh
from viewer.geometry.sort_keys import order_of_keys
from viewer.progress import Progress

LEAF_FACES = 4
_NOWHERE = 1e30  # in place of ∞: differences of two of them are numbers


class FaceTree(NamedTuple):
    """face_boxes : (leaves, 6, LEAF_FACES) float32, low then high corner of the faces of each leaf,
    rounded outwards, low = 1e30 and high = −1e30 where there is none; node_boxes : (2·leaves, 6)
    float32, likewise with ∞; leaves : a power of two
    """

    face_boxes: np.ndarray
    node_boxes: np.ndarray
    leaves: int


class SortedFaces(NamedTuple):
    """Faces of a mesh in the order of the curve, and the tree over them.

    order : (m,) int32, face at each place; corners_mm : (m, 3, 3) float64 in that order, about the
    middle of the mesh's box
    """

    order: np.ndarray
    corners_mm: np.ndarray
    tree: FaceTree


def sort_faces(mesh: Mesh, grow_mm: float, progress: Progress | None = None) -> SortedFaces:
    """`SortedFaces` of a mesh that has faces, their boxes grown by `grow_mm`. Raises Cancelled."""
    progress = progress or Progress()
    order = order_along_curve(mesh.vertices_mm, mesh.faces, progress)
    progress.check()
    points = mesh.vertices_mm - mesh.box_mm.mean(axis=0)
    corners = corners_in_order(points, mesh.faces, order, progress)
    return SortedFaces(order, corners, build_face_tree(corners, grow_mm, progress))


def corners_in_order(
    points_mm: np.ndarray, faces: np.ndarray, order: np.ndarray, progress: Progress
) -> np.ndarray:
    """(m, 3, 3) float64: corners of the faces in an order ((m,) int32). Raises Cancelled."""
    # Room from numpy lies in large pages where the system has them; they are looked up far quicker.
    corners = np.empty((len(order), 3, 3))
    _gather_corners(points_mm, faces, order, corners, progress.stop_flag)
    progress.check()
    return corners


@compiled
def _gather_corners(points, faces, order, corners, stop):
    for i in range(len(order)):
        if i & LOOK_BITS == 0 and stop[0]:
            break
        for k in range(3):
            v = faces[order[i], k]
            for axis in range(3):
                corners[i, k, axis] = points[v, axis]


def order_along_curve(
    vertices_mm: np.ndarray, faces: np.ndarray, progress: Progress | None = None
) -> np.ndarray:
    """(m,) int32: faces in the order in which a Morton curve visits their middles.

    vertices_mm : (n, 3) float64; faces : (m, 3) int32
    Raises Cancelled through `progress`.
    """
    progress = progress or Progress()
    # One row for each axis: the least of a row is found several times quicker than of a column.
    rows = np.ascontiguousarray(vertices_mm.T)
    low, high = rows.min(axis=1), rows.max(axis=1)
    scale = (2**21 - 1) / max(float((high - low).max()), 1e-300)
    progress.check()
    codes = _morton_codes(vertices_mm, faces, low, scale, progress.stop_flag)
    progress.check()
    return order_of_keys(codes, progress)


def build_face_tree(
    corners_mm: np.ndarray, grow_mm: float, progress: Progress | None = None
) -> FaceTree:
    """The tree over faces in the order of the curve, their boxes grown by `grow_mm`.

    corners_mm : (m, 3, 3) float64
    Raises Cancelled through `progress`.
    """
    progress = progress or Progress()
    leaves = 1
    while leaves * LEAF_FACES < len(corners_mm):
        leaves *= 2
    face_boxes = _face_boxes(corners_mm, leaves, grow_mm, progress.stop_flag)
    progress.check()
    nodes = _node_boxes(face_boxes, len(corners_mm), progress.stop_flag)
    progress.check()
    return FaceTree(face_boxes, nodes, leaves)


@compiled
def _spread(x):
    """The low 21 bits of x with two empty bits between each and the next."""
    x &= np.uint64(0x1FFFFF)
    x = (x | x << np.uint64(32)) & np.uint64(0x1F00000000FFFF)
    x = (x | x << np.uint64(16)) & np.uint64(0x1F0000FF0000FF)
    x = (x | x << np.uint64(8)) & np.uint64(0x100F00F00F00F00F)
    x = (x | x << np.uint64(4)) & np.uint64(0x10C30C30C30C30C3)
    return (x | x << np.uint64(2)) & np.uint64(0x1249249249249249)


@compiled
def _morton_codes(vertices, faces, low, scale, stop):
    codes = np.empty(len(faces), np.uint64)
    for f in range(len(faces)):
        if f & LOOK_BITS == 0 and stop[0]:
            break
        code = np.uint64(0)
        for axis in range(3):
            middle = 0.0
            for k in range(3):
                middle += vertices[faces[f, k], axis] / 3.0
            cell = np.uint64(min(max((middle - low[axis]) * scale, 0.0), 2097151.0))
            code |= _spread(cell) << np.uint64(axis)
        codes[f] = code
    return codes


@compiled
def _face_boxes(corners, leaves, grow, stop):
    boxes = np.empty((leaves, 6, LEAF_FACES), np.float32)
    boxes[:, :3], boxes[:, 3:] = _NOWHERE, -_NOWHERE
    for f in range(len(corners)):
        if f & LOOK_BITS == 0 and stop[0]:
            break
        leaf, k = f // LEAF_FACES, f % LEAF_FACES
        for axis in range(3):
            a, b, c = corners[f, 0, axis], corners[f, 1, axis], corners[f, 2, axis]
            low, high = min(a, b, c) - grow, max(a, b, c) + grow
            # Rounding to float32 must not shrink a box: one part in 2²³ outwards is enough.
            boxes[leaf, axis, k] = low - abs(low) * 1.2e-7
            boxes[leaf, axis + 3, k] = high + abs(high) * 1.2e-7
    return boxes


@compiled
def _node_boxes(face_boxes, count, stop):
    leaves = len(face_boxes)
    nodes = np.empty((2 * leaves, 6), np.float32)
    nodes[:, :3], nodes[:, 3:] = np.inf, -np.inf
    for i in range(count):
        if i & LOOK_BITS == 0 and stop[0]:
            break
        leaf, k = i // LEAF_FACES, i % LEAF_FACES
        for axis in range(3):
            low, high = face_boxes[leaf, axis, k], face_boxes[leaf, axis + 3, k]
            nodes[leaves + leaf, axis] = min(nodes[leaves + leaf, axis], low)
            nodes[leaves + leaf, axis + 3] = max(nodes[leaves + leaf, axis + 3], high)
    for node in range(leaves - 1, 0, -1):
        for axis in range(3):
            nodes[node, axis] = min(nodes[2 * node, axis], nodes[2 * node + 1, axis])
            nodes[node, axis + 3] = max(nodes[2 * node, axis + 3], nodes[2 * node + 1, axis + 3])
    return nodes


@compiled
def boxes_apart(boxes, i, j):
    """Whether two of the boxes (k, 6) have no point in common."""
    return (
        boxes[i, 0] > boxes[j, 3]
        or boxes[i, 3] < boxes[j, 0]
        or boxes[i, 1] > boxes[j, 4]
        or boxes[i, 4] < boxes[j, 1]
        or boxes[i, 2] > boxes[j, 5]
        or boxes[i, 5] < boxes[j, 2]
    )
