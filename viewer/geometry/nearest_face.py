"""The nearest place on a surface: for carrying marks over to a new mesh of the same part."""

from concurrent.futures import ThreadPoolExecutor
from typing import NamedTuple

import numpy as np

from viewer.errors import Cancelled
from viewer.geometry.compiled import compiled
from viewer.geometry.distances import cross, dot, minus
from viewer.geometry.face_tree import LEAF_FACES, order_along_curve
from viewer.geometry.mesh import Mesh
from viewer.geometry.ray_tree import RayTree, build_ray_tree
from viewer.progress import Progress

_DEEPEST = 64
LOOKS_ALONG = 0.5  # cosine of 60°
_BLOCK = 16  # points whose faces about them are looked for together
_MOST_FACES = 1024
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
    within_mm: float = np.inf,
    enough: np.ndarray | None = None,
) -> Nearest:
    """Nearest face of a surface, (n, 3) float64 and (m, 3) int32, to each of (k, 3) points.

    normals : (k, 3) unit; where given, only faces within 60° of them count
    within_mm : how far to look; −1 and inf where no face that counts is as near
    enough : (k,) bool, where any face that counts and is as near will do, which is quicker
    Raises Cancelled if `progress` says so.
    """
    if 2 * faces.size < len(vertices_mm):  # of a few faces only their own corners matter
        vertices_mm = vertices_mm[faces].reshape(-1, 3)
        faces = np.arange(len(vertices_mm), dtype=np.int32).reshape(-1, 3)
    tree = build_ray_tree(vertices_mm, faces)
    return nearest_in_tree(tree, points_mm, progress, normals, within_mm, enough)


def nearest_in_tree(
    tree: RayTree,
    points_mm: np.ndarray,
    progress: Progress | None = None,
    normals: np.ndarray | None = None,
    within_mm: float = np.inf,
    enough: np.ndarray | None = None,
) -> Nearest:
    """`nearest_faces` of a surface that is asked more than once."""
    progress = progress or Progress()
    if normals is None:
        normals = np.zeros_like(points_mm, np.float64)
    if enough is None:
        enough = np.zeros(len(points_mm), np.bool_)
    points = np.ascontiguousarray(points_mm, np.float64)
    places, distances = np.empty(len(points), np.int64), np.empty(len(points))
    each = np.arange(len(points), dtype=np.int32)
    along = order_along_curve(points, np.stack([each, each, each], axis=1)) if len(each) else each

    def look(first: int) -> None:
        part = along[first : first + _AT_ONCE]
        found = _nearest(tree, points[part], normals[part], float(within_mm), enough[part])
        places[part], distances[part] = found

    with ThreadPoolExecutor() as workers:
        starts = range(0, len(points), _AT_ONCE)
        try:
            for first, _ in zip(starts, workers.map(look, starts), strict=True):
                progress.report(first / len(points), "Looking for the nearest surface")
        except Cancelled:
            workers.shutdown(cancel_futures=True)
            raise
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
def _nearest(tree: RayTree, points, normals, within, enough):
    """Faces and distances of points; those that lie together had best follow one another."""
    places = np.full(len(points), -1, np.int64)
    distances = np.full(len(points), np.inf)
    waiting, squares = np.empty(_DEEPEST, np.int64), np.empty(_DEEPEST)
    few = np.empty(_MOST_FACES, np.int64)
    last, start = -1, 0
    while start < len(points):
        stop, low, high = _block(points, start, within)
        count = -1
        if within < np.inf:
            way, cosine = _way_of(normals[start:stop])
            count = _faces_about(tree, low, high, way, cosine, within, waiting, few)
        for i in range(start, stop):
            p = points[i, 0], points[i, 1], points[i, 2]
            normal = normals[i, 0], normals[i, 1], normals[i, 2]
            if count >= 0:
                best, last = _among(
                    tree.corners_mm, few, count, p, normal, within * within, enough[i]
                )
            else:
                best, last = _search(
                    tree, p, normal, within * within, last, enough[i], waiting, squares
                )
            if last >= 0:
                places[i], distances[i] = last, np.sqrt(best)
        start = stop
    return places, distances


@compiled
def _block(points, start, within):
    """End of a block of points that lie no farther apart than `within`, and its box."""
    low = high = (points[start, 0], points[start, 1], points[start, 2])
    for i in range(start + 1, min(start + _BLOCK, len(points))):
        x, y, z = points[i, 0], points[i, 1], points[i, 2]
        lower = min(low[0], x), min(low[1], y), min(low[2], z)
        higher = max(high[0], x), max(high[1], y), max(high[2], z)
        across = minus(higher, lower)
        if dot(across, across) > within * within:
            return i, low, high
        low, high = lower, higher
    return min(start + _BLOCK, len(points)), low, high


@compiled
def _way_of(normals):
    """A direction, and the cosine of the angle from it that holds what looks along any of some."""
    x, y, z = 0.0, 0.0, 0.0
    for i in range(len(normals)):
        x, y, z = x + normals[i, 0], y + normals[i, 1], z + normals[i, 2]
    length = np.sqrt(x * x + y * y + z * z)
    least = 1.0
    for i in range(len(normals)):
        normal = normals[i, 0], normals[i, 1], normals[i, 2]
        if length == 0.0 or dot(normal, normal) == 0.0:
            return (0.0, 0.0, 0.0), -1.0
        least = min(least, dot(normal, (x, y, z)) / length)
    if least <= -LOOKS_ALONG:  # 60° more make 180°
        return (0.0, 0.0, 0.0), -1.0
    wider = LOOKS_ALONG * least - np.sqrt((1.0 - LOOKS_ALONG**2) * max(1.0 - least**2, 0.0))
    return (x / length, y / length, z / length), wider - 1e-9


@compiled
def _faces_about(tree, low, high, way, cosine, within, waiting, few):
    """Put into `few` each face that may count for some point of a box; how many, −1 if too many."""
    corners, boxes, leaves = tree.corners_mm, tree.node_boxes, tree.leaves
    waiting[0], left, count = 1, 1, 0
    while left > 0:
        left -= 1
        node = waiting[left]
        if not _square_between(low, high, boxes, node) <= within * within:
            continue
        if node < leaves:
            waiting[left], waiting[left + 1] = 2 * node, 2 * node + 1
            left += 2
            continue
        first = (node - leaves) * LEAF_FACES
        for f in range(first, min(first + LEAF_FACES, len(corners))):
            if _looks_along(*_corners(corners, f), way, cosine):
                if count == len(few):
                    return -1
                few[count] = f
                count += 1
    return count


@compiled
def _among(corners, few, count, p, normal, best, any_will_do):
    """Square of the distance and place of the nearest of some faces, where within `best`."""
    place = -1
    for i in range(count):
        f = few[i]
        square = _square_to_face(p, *_corners(corners, f))
        if square < best and _looks_along(*_corners(corners, f), normal, LOOKS_ALONG):
            best, place = square, f
            if any_will_do:
                break
    return best, place


@compiled
def _search(tree, p, normal, best, last, any_will_do, waiting, squares):
    """The same of all faces; `last` is one that may be near, or −1."""
    corners, boxes, leaves = tree.corners_mm, tree.node_boxes, tree.leaves
    place = -1
    if last >= 0:
        square = _square_to_face(p, *_corners(corners, last))
        if square <= best and _looks_along(*_corners(corners, last), normal, LOOKS_ALONG):
            best, place = square, last
    waiting[0], squares[0], count = 1, _square_to_box(p, boxes, 1), 1
    while count > 0 and not (any_will_do and place >= 0):
        count -= 1
        if squares[count] >= best:
            continue  # something nearer was found since
        node = waiting[count]
        if node < leaves:
            near, far = 2 * node, 2 * node + 1
            here, there = _square_to_box(p, boxes, near), _square_to_box(p, boxes, far)
            if there <= here:
                near, far, here, there = far, near, there, here
            # The farther one waits below the nearer one.
            if there < best:
                waiting[count], squares[count] = far, there
                count += 1
            if here < best:
                waiting[count], squares[count] = near, here
                count += 1
            continue
        first = (node - leaves) * LEAF_FACES
        for f in range(first, min(first + LEAF_FACES, len(corners))):
            square = _square_to_face(p, *_corners(corners, f))
            if square < best and _looks_along(*_corners(corners, f), normal, LOOKS_ALONG):
                best, place = square, f
    return best, place


@compiled(inline="always")
def _square_between(low, high, boxes, node):
    """Of the distance between two boxes."""
    x = max(boxes[node, 0] - high[0], 0.0, low[0] - boxes[node, 3])
    y = max(boxes[node, 1] - high[1], 0.0, low[1] - boxes[node, 4])
    z = max(boxes[node, 2] - high[2], 0.0, low[2] - boxes[node, 5])
    return x * x + y * y + z * z


@compiled(inline="always")
def _corners(corners, f):
    return (
        (corners[f, 0, 0], corners[f, 0, 1], corners[f, 0, 2]),
        (corners[f, 1, 0], corners[f, 1, 1], corners[f, 1, 2]),
        (corners[f, 2, 0], corners[f, 2, 1], corners[f, 2, 2]),
    )


@compiled
def _looks_along(a, b, c, normal, cosine):
    """Whether a face lies within an angle of a direction; any does if that is 0."""
    if normal[0] == 0.0 and normal[1] == 0.0 and normal[2] == 0.0:
        return True
    across = cross(minus(b, a), minus(c, a))
    return dot(across, normal) >= cosine * np.sqrt(dot(across, across))


@compiled(inline="always")
def _square_to_box(p, boxes, node):
    """∞ for a box that is empty, low = ∞ and high = −∞."""
    x = max(boxes[node, 0] - p[0], 0.0, p[0] - boxes[node, 3])
    y = max(boxes[node, 1] - p[1], 0.0, p[1] - boxes[node, 4])
    z = max(boxes[node, 2] - p[2], 0.0, p[2] - boxes[node, 5])
    return x * x + y * y + z * z


@compiled
def _square_to_face(p, a, b, c):
    """Squared distance to a triangle (Ericson 2005, Real-Time Collision Detection, 5.1.5)."""
    abx, aby, abz = minus(b, a)
    acx, acy, acz = minus(c, a)
    apx, apy, apz = minus(p, a)
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
