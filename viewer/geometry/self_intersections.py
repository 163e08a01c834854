"""Faces that cross other faces of the part, and faces that only touch."""

from dataclasses import dataclass

import numpy as np

from viewer.geometry.compiled import LOOK_BITS, compiled
from viewer.geometry.face_contact import APART, CROSSING, may_meet, meet
from viewer.geometry.face_neighbours import face_neighbours
from viewer.geometry.face_tree import LEAF_FACES, SortedFaces, boxes_apart, sort_faces
from viewer.geometry.mesh import Mesh
from viewer.geometry.sort_keys import order_of_keys
from viewer.progress import Progress

_STEPS_A_GO = 100_000  # pairs of boxes between two looks at the progress token, some 15 ms
_ROOM = 1 << 16  # pairs of faces handed over at a time


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
    mesh: Mesh,
    neighbours: np.ndarray | None = None,
    progress: Progress | None = None,
    sorted_faces: SortedFaces | None = None,
) -> SelfIntersections:
    """All pairs of faces that cross or touch without being joined there.

    neighbours : (m, 3) int32 from `face_neighbours`, worked out here if not given
    sorted_faces : the mesh's, grown by `near_distance_mm`, worked out here if not given

    Faces thinner than `near_mm` are left out (they are reported as degenerate); so are pairs with
    the same three vertices (duplicates). Work is in float64 about the part's middle.
    """
    progress = progress or Progress()
    near = near_distance_mm(mesh.box_mm)
    if mesh.face_count < 2:
        none = np.empty((0, 2), np.int32)
        return SelfIntersections(none, none, near)
    if neighbours is None:
        neighbours = face_neighbours(mesh.faces, progress)
    # All in the order of the tree, so that faces met together lie together in memory.
    order, corners, tree = sorted_faces or sort_faces(mesh, near, progress)
    faces = mesh.faces[order]
    progress.check()
    place = np.empty(mesh.face_count + 1, np.int32)
    place[order], place[-1] = np.arange(mesh.face_count, dtype=np.int32), -1
    progress.check()
    neighbours = _moved_neighbours(place, neighbours, order)
    progress.check()
    planes, thin = _planes(corners, near, progress.stop_flag)
    progress.report(0.1, "Looking for faces that cross")
    stack = np.zeros((16 * 64, 2), np.int32)
    stack[0], height, done = 1, 1, 0
    found, pairs = [], np.empty((_ROOM, 3), np.int32)
    while height:
        height, count, passed = _meeting_pairs(
            stack, height, _STEPS_A_GO, tree.face_boxes, tree.node_boxes, tree.leaves,
            corners, planes, thin, faces, neighbours, near, pairs,
        )  # fmt: skip
        found.append(pairs[:count].copy())
        done += passed
        progress.report(0.1 + 0.9 * done / tree.leaves, "Looking for faces that cross")
    pairs = np.concatenate(found)
    ends = np.sort(order[pairs[:, :2]], axis=1).astype(np.uint64)
    progress.check()
    pairs[:, :2] = ends
    pairs = pairs[order_of_keys(ends[:, 0] << np.uint64(32) | ends[:, 1], progress)]
    progress.check()
    crossing = pairs[:, 2] == CROSSING
    return SelfIntersections(pairs[crossing, :2], pairs[~crossing, :2], near)


@compiled
def _moved_neighbours(place, neighbours, order):
    moved = np.empty_like(neighbours)
    for s in range(len(order)):
        for k in range(3):
            moved[s, k] = place[neighbours[order[s], k]]
    return moved


@compiled
def _planes(corners, near, stop):
    """Unit normal and offset of each face, and whether it is too thin to have one."""
    planes = np.zeros((len(corners), 4))
    thin = np.zeros(len(corners), np.bool_)
    for f in range(len(corners)):
        if f & LOOK_BITS == 0 and stop[0]:
            break
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
def _meeting_pairs(
    stack, height, steps, face_boxes, node_boxes, leaves,
    corners, planes, thin, faces, neighbours, near, pairs,
):  # fmt: skip
    """Walk the tree against itself; write (face, face, kind) for faces that meet.

    stack : (h, 2) int32, pairs of nodes of one level still to be compared, a node paired with
    itself for all that is inside it; `height` of them are in use

    Stops after `steps` pairs of nodes or when `pairs` is nearly full, to be called again. Returns
    the new height, how many pairs were written and how many leaves were paired with themselves.
    """
    count, passed = 0, 0
    full = len(pairs) - LEAF_FACES * LEAF_FACES
    gaps = np.empty((LEAF_FACES, LEAF_FACES), np.float32)
    while height > 0 and steps > 0 and count <= full:
        steps -= 1
        height -= 1
        a, b = stack[height]
        if a != b and boxes_apart(node_boxes, a, b):
            continue
        if a >= leaves:
            passed += a == b
            a, b = a - leaves, b - leaves
            _gaps_between(face_boxes, a, b, gaps)
            for s in range(LEAF_FACES):
                for t in range(s + 1 if a == b else 0, LEAF_FACES):
                    if gaps[s, t] > 0.0:
                        continue
                    i, j = a * LEAF_FACES + s, b * LEAF_FACES + t
                    if thin[i] or thin[j] or not may_meet(corners, planes, faces, i, j, near):
                        continue
                    kind = meet(corners, planes, faces, neighbours, i, j, near)
                    if kind != APART:
                        pairs[count, 0], pairs[count, 1], pairs[count, 2] = i, j, kind
                        count += 1
            continue
        stack[height] = 2 * a, 2 * b + 1
        stack[height + 1] = 2 * a + 1, 2 * b + 1
        stack[height + 2] = 2 * a, 2 * b
        height += 3
        if a != b:
            stack[height] = 2 * a + 1, 2 * b
            height += 1
    return height, count, passed


@compiled
def _gaps_between(face_boxes, a, b, gaps):
    """Widest gap along an axis between each two boxes of the faces of two leaves; < 0: they meet.

    Differences and the largest of them, no branch: the compiler takes all faces of b at once.
    """
    for s in range(LEAF_FACES):
        low_x, low_y, low_z = face_boxes[a, 0, s], face_boxes[a, 1, s], face_boxes[a, 2, s]
        high_x, high_y, high_z = face_boxes[a, 3, s], face_boxes[a, 4, s], face_boxes[a, 5, s]
        for t in range(LEAF_FACES):
            x = max(low_x - face_boxes[b, 3, t], face_boxes[b, 0, t] - high_x)
            y = max(low_y - face_boxes[b, 4, t], face_boxes[b, 1, t] - high_y)
            z = max(low_z - face_boxes[b, 5, t], face_boxes[b, 2, t] - high_z)
            gaps[s, t] = max(max(x, y), z)
