"""Make a lid over a curved hole as fine as the surface around it, and as smooth.

Long edges of the lid are halved, longest first, until they are like those of the rim; then its
inner corners are laid so that the surface bends as evenly as the surface around goes on (the least
sum of squared Laplacians over the lid and its rim: Liepa 2003, "Filling holes in meshes", section
5; from memory).
"""

import heapq
from itertools import count

import numpy as np

from viewer.geometry.mesh import Mesh
from viewer.progress import Progress

MOST_POINTS = 500  # inner corners of one lid: they are solved for together
_FAIRINGS = 2
_LONG = 1.5  # an edge is long from so many mean edges of the rim on


def smooth_lid(
    mesh: Mesh, corners: np.ndarray, triangles: np.ndarray, first: int, progress: Progress
) -> tuple[np.ndarray, np.ndarray]:
    """New points ((k, 3) float64) and triangles ((t, 3)) of a lid, made fine and smooth.

    corners : (n,) vertices of the rim in order
    triangles : (s, 3) vertices, the rough lid
    first : number that the first new point is to get
    """
    rim = mesh.vertices_mm[corners]
    mean_mm = float(np.linalg.norm(np.roll(rim, -1, axis=0) - rim, axis=1).mean())
    area = _area(mesh.vertices_mm[triangles])
    # A round hole with n even edges takes some n² / 11 points; twice that is enough for any hole.
    most = min(MOST_POINTS, max(1, len(corners) ** 2 // 5))
    target_mm = max(mean_mm, (area / most) ** 0.5)
    fine, points = _refined(mesh, corners, triangles, first, _LONG * target_mm, progress)
    if not len(points):
        return points, fine
    return _faired(mesh, corners, fine, first, points), fine


def _area(corners):
    a, b, c = corners[:, 0], corners[:, 1], corners[:, 2]
    return 0.5 * float(np.linalg.norm(np.cross(b - a, c - a), axis=1).sum())


def _refined(mesh, corners, triangles, first, longest_mm, progress):
    """Triangles and new points after halving inner edges longer than `longest_mm`."""
    old = mesh.vertices_mm
    added: list[np.ndarray] = []
    third: dict[tuple[int, int], int] = {}  # directed edge → the corner across
    for a, b, c in triangles.tolist():
        third[a, b], third[b, c], third[c, a] = c, a, b

    def place(v):
        return added[v - first] if v >= first else old[v]

    ticket = count()
    waiting: list[tuple[float, int, int, int]] = []

    def queue(a, b):
        length = float(np.linalg.norm(place(a) - place(b)))
        if length > longest_mm and (a, b) in third and (b, a) in third:
            heapq.heappush(waiting, (-length, next(ticket), a, b))

    for a, b in list(third):
        if a < b:
            queue(a, b)
    while waiting and len(added) < MOST_POINTS:
        _, _, a, b = heapq.heappop(waiting)
        if (a, b) not in third or (b, a) not in third:
            continue
        progress.check()
        c, d = third.pop((a, b)), third.pop((b, a))
        m = first + len(added)
        added.append(0.5 * (place(a) + place(b)))
        for v, w, x in ((a, m, c), (m, b, c), (b, m, d), (m, a, d)):
            third[v, w], third[w, x], third[x, v] = x, v, w
        for v in (a, b, c, d):
            queue(m, v)
        for v, w in ((b, c), (c, a), (a, d), (d, b)):
            queue(v, w)
    seen, found = set(), []
    for (a, b), c in third.items():
        if a < b and a < c and (a, b, c) not in seen:
            seen.add((a, b, c))
            found.append((a, b, c))
    return np.array(found, np.int64), np.array(added).reshape(-1, 3)


def _faired(mesh, corners, triangles, first, points):
    """New points where the squared Laplacians at them and at the rim add up to least."""
    around = np.zeros(len(mesh.vertices_mm), bool)
    around[corners] = True
    near = mesh.faces[around[mesh.faces].any(axis=1)]
    faces = np.concatenate([near, triangles])
    used, faces = np.unique(faces, return_inverse=True)
    faces = faces.reshape(-1, 3)
    free = used >= first
    place = np.empty((len(used), 3))
    place[~free], place[free] = mesh.vertices_mm[used[~free]], points
    rows = np.flatnonzero(free | np.isin(used, corners))
    for _ in range(_FAIRINGS):  # the second time with the weights of the lid as it then lies
        matrix = _laplacian_rows(place, faces, rows)
        inner, outer = matrix[:, free], matrix[:, ~free]
        # Normal equations: several times quicker than least squares by singular values. The hair
        # on the diagonal keeps loose ends of the lid from making them unsolvable.
        square = inner.T @ inner
        square[np.diag_indices_from(square)] *= 1.0 + 1e-10
        place[free] = np.linalg.solve(square, -inner.T @ (outer @ place[~free]))
    return place[free]


def _laplacian_rows(points, faces, rows):
    """(r, n) cotangent Laplacian at the vertices `rows`, over the root of the area they stand for.

    So the squares of the rows add up to the integral of the squared Laplacian (Meyer, Desbrun,
    Schröder & Barr 2003, "Discrete differential-geometry operators"; from memory).
    """
    row_of = np.full(len(points), -1)
    row_of[rows] = np.arange(len(rows))
    matrix = np.zeros((len(rows), len(points)))
    area = np.zeros(len(points))
    for k in range(3):
        a, b, c = (faces[:, (k + j) % 3] for j in range(3))
        u, v = points[b] - points[a], points[c] - points[a]
        double_area = np.linalg.norm(np.cross(u, v), axis=1)
        least = 1e-3 * np.maximum((u * u).sum(axis=1), (v * v).sum(axis=1))
        cotangent = np.einsum("ij,ij->i", u, v) / np.maximum(double_area, np.maximum(least, 1e-300))
        area += np.bincount(a, double_area / 6.0, len(points))
        for one, other in ((b, c), (c, b)):
            known = row_of[one] >= 0
            at = row_of[one[known]]
            np.add.at(matrix, (at, other[known]), cotangent[known])
            np.add.at(matrix, (at, one[known]), -cotangent[known])
    area = np.maximum(area, 1e-3 * area.mean())
    return matrix / np.sqrt(area[rows])[:, None]
