"""The nearest place on a surface: for carrying marks over to a new mesh of the same part."""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.face_tree import LEAF_FACES
from viewer.geometry.mesh import Mesh
from viewer.geometry.ray_tree import RayTree, build_ray_tree
from viewer.progress import Progress

_DEEPEST = 64
_AT_ONCE = 5_000  # points between two looks at the progress token


class Nearest(NamedTuple):
    """For each point asked for.

    faces : (k,) int64, the face that lies nearest
    distances_mm : (k,) float64
    """

    faces: np.ndarray
    distances_mm: np.ndarray


def nearest_faces(
    vertices_mm: np.ndarray,
    faces: np.ndarray,
    points_mm: np.ndarray,
    progress: Progress | None = None,
    normals: np.ndarray | None = None,
) -> Nearest:
    """Nearest face of a surface, (n, 3) float64 and (m, 3) int32, to each of (k, 3) points.

    normals : (k, 3) unit; where given, only faces within 60° of them count, −1 and inf if none is
    Raises Cancelled if `progress` says so.
    """
    progress = progress or Progress()
    if normals is None:
        normals = np.zeros_like(points_mm, np.float64)
    tree = build_ray_tree(vertices_mm, faces)
    points = np.ascontiguousarray(points_mm, np.float64)
    places, distances = np.empty(len(points), np.int64), np.empty(len(points))
    for first in range(0, len(points), _AT_ONCE):
        progress.report(first / len(points), "Looking for the nearest surface")
        part = slice(first, first + _AT_ONCE)
        places[part], distances[part] = _nearest(tree, points[part], normals[part])
    return Nearest(np.where(places < 0, -1, tree.order[places]).astype(np.int64), distances)


def carried_over(
    vertices_mm: np.ndarray, faces: np.ndarray, values: np.ndarray, onto: Mesh
) -> np.ndarray:
    """Values of faces ((m,) any type) for another mesh of the same surface, by nearest face.

    Asked at the middle of each of its faces, first among faces that look the same way: where a rim
    is round, a finer triangle beside it may lie nearer to the face round the corner.
    """
    if not len(faces) or not onto.face_count or (values == values[0]).all():
        return np.full(onto.face_count, values[0] if len(values) else 0, values.dtype)
    middles = onto.corners_mm.mean(axis=1)
    found = nearest_faces(vertices_mm, faces, middles, normals=onto.face_normals).faces
    lost = np.flatnonzero(found < 0)
    if len(lost):
        found[lost] = nearest_faces(vertices_mm, faces, middles[lost]).faces
    return values[found]


@compiled
def _nearest(tree: RayTree, points, normals):
    places = np.full(len(points), -1, np.int64)
    distances = np.empty(len(points))
    waiting = np.empty(_DEEPEST, np.int64)
    for i in range(len(points)):
        p = points[i, 0], points[i, 1], points[i, 2]
        # Neighbours in a row lie close together: the last answer is a good first bound.
        best, last = np.inf, places[max(i - 1, 0)]
        if last >= 0 and _looks_along(tree.corners_mm[last], normals[i]):
            best, places[i] = _square_to_face(p, tree.corners_mm[last]), last
        waiting[0], count = 1, 1
        while count > 0:
            count -= 1
            node = waiting[count]
            if _square_to_box(p, tree.node_boxes[node]) >= best:
                continue
            if node < tree.leaves:
                left, right = 2 * node, 2 * node + 1
                left_first = _square_to_box(p, tree.node_boxes[left]) < _square_to_box(
                    p, tree.node_boxes[right]
                )
                waiting[count] = right if left_first else left
                waiting[count + 1] = left if left_first else right
                count += 2
                continue
            first = (node - tree.leaves) * LEAF_FACES
            for f in range(first, min(first + LEAF_FACES, len(tree.corners_mm))):
                square = _square_to_face(p, tree.corners_mm[f])
                if square < best and _looks_along(tree.corners_mm[f], normals[i]):
                    best, places[i] = square, f
        distances[i] = np.sqrt(best)
    return places, distances


@compiled
def _looks_along(corners, normal):
    """Whether a face lies within 60° of a direction; any does if that is 0."""
    if normal[0] == 0.0 and normal[1] == 0.0 and normal[2] == 0.0:
        return True
    ax, ay, az = corners[0]
    bx, by, bz = corners[1, 0] - ax, corners[1, 1] - ay, corners[1, 2] - az
    cx, cy, cz = corners[2, 0] - ax, corners[2, 1] - ay, corners[2, 2] - az
    x, y, z = by * cz - bz * cy, bz * cx - bx * cz, bx * cy - by * cx
    along = x * normal[0] + y * normal[1] + z * normal[2]
    return along >= 0.5 * np.sqrt(x * x + y * y + z * z)


@compiled
def _square_to_box(p, box):
    if box[0] > box[3]:
        return np.inf
    square = 0.0
    for axis in range(3):
        short = max(box[axis] - p[axis], 0.0, p[axis] - box[axis + 3])
        square += short * short
    return square


@compiled
def _square_to_face(p, corners):
    """Squared distance to a triangle (Ericson 2005, Real-Time Collision Detection, 5.1.5)."""
    ax, ay, az = corners[0, 0], corners[0, 1], corners[0, 2]
    abx, aby, abz = corners[1, 0] - ax, corners[1, 1] - ay, corners[1, 2] - az
    acx, acy, acz = corners[2, 0] - ax, corners[2, 1] - ay, corners[2, 2] - az
    apx, apy, apz = p[0] - ax, p[1] - ay, p[2] - az
    d1, d2 = abx * apx + aby * apy + abz * apz, acx * apx + acy * apy + acz * apz
    bb, cc, bc = (
        abx * abx + aby * aby + abz * abz,
        acx * acx + acy * acy + acz * acz,
        abx * acx + aby * acy + abz * acz,
    )
    s, t = 0.0, 0.0
    area = bb * cc - bc * bc
    inside = False
    if area > 0.0:
        s, t = (cc * d1 - bc * d2) / area, (bb * d2 - bc * d1) / area
        inside = s >= 0.0 and t >= 0.0 and s + t <= 1.0
    if inside:
        dx, dy, dz = apx - s * abx - t * acx, apy - s * aby - t * acy, apz - s * abz - t * acz
        return dx * dx + dy * dy + dz * dz
    return min(
        _square_to_piece(apx, apy, apz, abx, aby, abz),
        _square_to_piece(apx, apy, apz, acx, acy, acz),
        _square_to_piece(apx - abx, apy - aby, apz - abz, acx - abx, acy - aby, acz - abz),
    )


@compiled
def _square_to_piece(x, y, z, ex, ey, ez):
    """Squared distance of a point to the straight piece from the origin to e."""
    length = ex * ex + ey * ey + ez * ez
    t = 0.0
    if length > 0.0:
        t = min(max((x * ex + y * ey + z * ez) / length, 0.0), 1.0)
    dx, dy, dz = x - t * ex, y - t * ey, z - t * ez
    return dx * dx + dy * dy + dz * dz
