"""Faces that cross other faces of the part, and faces that only touch."""

from dataclasses import dataclass

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.face_contact import APART, CROSSING, meet
from viewer.geometry.face_neighbours import face_neighbours
from viewer.geometry.face_tree import LEAF_FACES, boxes_apart, build_face_tree
from viewer.geometry.mesh import Mesh
from viewer.progress import Progress

_LEAVES_A_GO = 2048  # some 15 ms of work, so that a cancel is heard


@dataclass(frozen=True, eq=False)
class SelfIntersections:
    """Pairs of faces that meet where they are not joined; each pair once, lower face first.

    crossing : (k, 2) int32, the faces pass through each other
    touching : (l, 2) int32, they meet in a point, along an edge or flat on each other, no more
    near_mm : distance below which a corner counts as lying in the other face
    """

    crossing: np.ndarray
    touching: np.ndarray
    near_mm: float


def float32_step_mm(box_mm: np.ndarray) -> float:
    """Distance between neighbouring float32 numbers at the part's far corner ((2, 3) box)."""
    return 2.0**-23 * float(np.abs(box_mm).max())


def near_distance_mm(box_mm: np.ndarray) -> float:
    """Distance that a float32 file cannot tell from nothing: two of its steps, at least 1 nm."""
    return max(1e-6, 2.0 * float32_step_mm(box_mm))


def find_self_intersections(
    mesh: Mesh, neighbours: np.ndarray | None = None, progress: Progress | None = None
) -> SelfIntersections:
    """All pairs of faces that cross or touch without being joined there.

    neighbours : (m, 3) int32 from `face_neighbours`, worked out here if not given

    Faces thinner than `near_mm` are left out (they are reported as degenerate); so are pairs with
    the same three vertices (duplicates). Work is in float64 about the part's middle.
    """
    progress = progress or Progress()
    near = near_distance_mm(mesh.box_mm)
    if mesh.face_count < 2:
        none = np.empty((0, 2), np.int32)
        return SelfIntersections(none, none, near)
    if neighbours is None:
        neighbours = face_neighbours(mesh.faces)
    corners = mesh.corners_mm - mesh.box_mm.mean(axis=0)
    tree = build_face_tree(corners, near)
    # All in the order of the tree, so that faces met together lie together in memory.
    corners, faces = corners[tree.order], mesh.faces[tree.order]
    place = np.empty(mesh.face_count + 1, np.int32)
    place[tree.order], place[-1] = np.arange(mesh.face_count, dtype=np.int32), -1
    neighbours = place[neighbours[tree.order]]
    planes, thin = _planes(corners, near)
    progress.report(0.1, "Looking for faces that cross")
    used_leaves = -(-len(tree.order) // LEAF_FACES)
    found, room = [], 1 << 16
    first = 0
    while first < used_leaves:
        last = min(first + _LEAVES_A_GO, used_leaves)
        pairs = np.empty((room, 3), np.int32)
        count = _pairs_of_leaves(
            tree.face_boxes, tree.node_boxes, tree.leaves, first, last,
            corners, planes, thin, faces, neighbours, near, pairs,
        )  # fmt: skip
        if count < 0:  # no room for all: the same leaves again with more
            room *= 4
            continue
        found.append(pairs[:count].copy())
        first = last
        progress.report(0.1 + 0.9 * first / used_leaves, "Looking for faces that cross")
    pairs = np.concatenate(found)
    pairs[:, :2] = np.sort(tree.order[pairs[:, :2]], axis=1)
    pairs = pairs[np.lexsort((pairs[:, 1], pairs[:, 0]))]
    crossing = pairs[:, 2] == CROSSING
    return SelfIntersections(pairs[crossing, :2], pairs[~crossing, :2], near)


@compiled
def _planes(corners, near):
    """Unit normal and offset of each face, and whether it is too thin to have one."""
    planes = np.zeros((len(corners), 4))
    thin = np.zeros(len(corners), np.bool_)
    for f in range(len(corners)):
        a, b, c = corners[f, 0], corners[f, 1], corners[f, 2]
        ux, uy, uz = b[0] - a[0], b[1] - a[1], b[2] - a[2]
        vx, vy, vz = c[0] - a[0], c[1] - a[1], c[2] - a[2]
        wx, wy, wz = vx - ux, vy - uy, vz - uz
        nx, ny, nz = uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx
        double_area = (nx * nx + ny * ny + nz * nz) ** 0.5
        longest = max(
            ux * ux + uy * uy + uz * uz, vx * vx + vy * vy + vz * vz, wx * wx + wy * wy + wz * wz
        )
        if double_area <= near * longest**0.5:
            thin[f] = True
            continue
        nx, ny, nz = nx / double_area, ny / double_area, nz / double_area
        planes[f, 0], planes[f, 1], planes[f, 2] = nx, ny, nz
        third = (a[0] + b[0] + c[0]) * nx + (a[1] + b[1] + c[1]) * ny + (a[2] + b[2] + c[2]) * nz
        planes[f, 3] = third / 3.0
    return planes, thin


@compiled
def _pairs_of_leaves(
    face_boxes, node_boxes, leaves, first, last,
    corners, planes, thin, faces, neighbours, near, pairs,
):  # fmt: skip
    """Write (face, face, kind) for the leaves first..last against themselves and later leaves.

    Returns how many were written, −1 if `pairs` is too short.
    """
    count = 0
    stack = np.empty(128, np.int64)
    for leaf in range(first, last):
        box = node_boxes[leaves + leaf]
        stack[0], height = 1, 1
        while height > 0:
            height -= 1
            node = stack[height]
            if boxes_apart(box, node_boxes[node]):
                continue
            if node < leaves:
                stack[height] = 2 * node + 1
                height += 1
                if _last_leaf(2 * node, leaves) >= leaf:
                    stack[height] = 2 * node
                    height += 1
                continue
            other = node - leaves
            if other < leaf:
                continue
            for s in range(leaf * LEAF_FACES, min((leaf + 1) * LEAF_FACES, len(faces))):
                start = s + 1 if other == leaf else other * LEAF_FACES
                for t in range(start, min((other + 1) * LEAF_FACES, len(faces))):
                    if boxes_apart(face_boxes[s], face_boxes[t]):
                        continue
                    if thin[s] or thin[t]:
                        continue
                    kind = meet(corners, planes, faces, neighbours, s, t, near)
                    if kind != APART:
                        if count == len(pairs):
                            return -1
                        pairs[count, 0], pairs[count, 1], pairs[count, 2] = s, t, kind
                        count += 1
    return count


@compiled
def _last_leaf(node, leaves):
    """The last leaf below a node of the heap."""
    while node < leaves:
        node = 2 * node + 1
    return node - leaves
