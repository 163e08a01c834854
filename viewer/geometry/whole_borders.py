"""How far faces lie from the border of marks, and borders smoothed by whole faces.

The border of a class is the line along which its faces meet others; distances from it are measured
over the surface and never through a wall. Smoothing gives a face near a border the class that holds
the largest share of the surface about it: straight runs stay, spikes and notches narrower than the
width go. Source: one step of B. Merriman, J. Bence, S. Osher, Diffusion generated motion by mean
curvature (1992), with a ball in place of diffusion as in S. Ruuth, B. Merriman,
Convolution-generated motion and generalized Huygens' principles for interface motion (2000), both
MEM.
"""

from concurrent.futures import ThreadPoolExecutor
from os import cpu_count

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.distances import cross, dot, minus, piece_triangle_mm
from viewer.geometry.known_of_mesh import neighbours_of
from viewer.geometry.mesh import Mesh
from viewer.geometry.outlines import middle_of_face
from viewer.progress import Progress

THROUGH = 0.7  # a border more than 45° below a face's plane lies on another wall
_AT_ONCE = 512  # faces smoothed in one go
_STOP_EVERY = 1024  # faces between two looks at the stop flag


def border_distances_mm(
    mesh: Mesh, labels: np.ndarray, reach_mm: float, progress: Progress | None = None
) -> np.ndarray:
    """(m,) from the middle of each face to the nearest border, inf where none comes within reach.

    labels : (m,) bool or uint8, different on both sides of a border. Raises Cancelled.
    """
    progress = progress or Progress()
    distances_mm = _border_distances(
        mesh.vertices_mm,
        mesh.faces,
        neighbours_of(mesh),
        np.ascontiguousarray(labels, np.uint8),
        float(reach_mm),
        progress.stop_flag,
    )
    progress.check()
    return distances_mm


def smooth_marks(
    mesh: Mesh, classes: np.ndarray, by_mm: float, progress: Progress | None = None
) -> np.ndarray:
    """(m,) uint8 classes with the borders of all classes rounded to about `by_mm`.

    A border moves over the faces beside it, so these are asked first, and those beyond only where
    a face has gone over to another class. Raises Cancelled.
    """
    progress = progress or Progress()
    before = np.ascontiguousarray(classes, np.uint8)
    changed, neighbours = before.copy(), neighbours_of(mesh)
    asked = np.zeros(mesh.face_count, bool)
    threads = cpu_count() or 1
    # Each thread has marks of its own; a face is asked once, so its number is a mark of its own.
    stamps = [np.full(mesh.face_count, -1, np.int32) for _ in range(threads)]

    def look(number: int, wave: np.ndarray) -> np.ndarray:
        mine = wave[number::threads]
        largest = np.empty(len(mine), np.uint8)
        for first in range(0, len(mine), _AT_ONCE):
            some = slice(first, first + _AT_ONCE)
            largest[some] = _largest_shares(
                mesh.vertices_mm, mesh.faces, neighbours, mesh.face_areas_mm2, before,
                mine[some], float(by_mm), stamps[number], progress.stop_flag,
            )  # fmt: skip
        return largest

    wave = _beside_other(neighbours, before)
    with ThreadPoolExecutor(threads) as workers:
        while len(wave):
            asked[wave] = True
            for number, largest in enumerate(workers.map(look, range(threads), [wave] * threads)):
                changed[wave[number::threads]] = largest
            progress.check()
            gone = wave[changed[wave] != before[wave]]
            beyond = np.unique(neighbours[gone])
            beyond = beyond[beyond >= 0]
            wave = beyond[~asked[beyond]].astype(np.int32)
    return changed


@compiled
def _at(vertices, v):
    return vertices[v, 0], vertices[v, 1], vertices[v, 2]


@compiled
def _from_piece(point, p, q):
    """Distance of a point from the straight piece p–q."""
    dx, dy, dz = q[0] - p[0], q[1] - p[1], q[2] - p[2]
    x, y, z = point[0] - p[0], point[1] - p[1], point[2] - p[2]
    square = dx * dx + dy * dy + dz * dz
    t = 0.0
    if square > 0.0:
        t = min(max((x * dx + y * dy + z * dz) / square, 0.0), 1.0)
    return np.sqrt((x - t * dx) ** 2 + (y - t * dy) ** 2 + (z - t * dz) ** 2)


@compiled
def _lies_through(point, p, q, a, b, c, far):
    """Whether the piece p–q lies on the other side of the wall that the face a, b, c belongs to."""
    normal = cross(minus(b, a), minus(c, a))
    size = np.sqrt(dot(normal, normal))
    height = max(dot(normal, minus(p, point)), dot(normal, minus(q, point)))
    return height < -THROUGH * far * size


@compiled
def _border_distances(vertices, faces, neighbours, labels, reach, stop):
    """(m,) from the middle of each face to the nearest border, inf where none comes within reach.

    Each face learns the nearest piece of border from the faces beside it, and tells those beyond
    as often as it learns of a nearer one.
    """
    distances = np.full(len(faces), np.inf)
    pieces = np.empty((len(faces), 2), np.int32)
    waits = np.zeros(len(faces), np.bool_)
    queue = np.empty(len(faces) + 1, np.int32)
    head, tail = 0, 0
    for f in range(len(faces)):
        for k in range(3):
            g = neighbours[f, k]
            if g < 0 or labels[g] == labels[f]:
                continue
            p, q = faces[f, k], faces[f, (k + 1) % 3]
            far = _from_piece(
                middle_of_face(vertices, faces, f), _at(vertices, p), _at(vertices, q)
            )
            if far < distances[f]:
                distances[f], pieces[f, 0], pieces[f, 1] = far, p, q
        if distances[f] < np.inf:
            queue[tail], waits[f] = f, True
            tail += 1
    looked = 0
    while head != tail:
        looked += 1
        if looked % _STOP_EVERY == 0 and stop[0]:
            return distances
        f = queue[head]
        head = (head + 1) % len(queue)
        waits[f] = False
        p, q = _at(vertices, pieces[f, 0]), _at(vertices, pieces[f, 1])
        for k in range(3):
            g = neighbours[f, k]
            if g < 0:
                continue
            far = _from_piece(middle_of_face(vertices, faces, g), p, q)
            if far >= distances[g]:
                continue
            a, b, c = (
                _at(vertices, faces[g, 0]),
                _at(vertices, faces[g, 1]),
                _at(vertices, faces[g, 2]),
            )
            if far > reach and piece_triangle_mm(p, q, a, b, c) > reach:
                continue
            if _lies_through(middle_of_face(vertices, faces, g), p, q, a, b, c, far):
                continue
            distances[g] = far
            pieces[g, 0], pieces[g, 1] = pieces[f, 0], pieces[f, 1]
            if not waits[g]:
                waits[g] = True
                queue[tail] = g
                tail = (tail + 1) % len(queue)
    return distances


@compiled
def _beside_other(neighbours, classes):
    """Faces with a neighbour of another class."""
    found = np.empty(len(neighbours), np.int32)
    count = 0
    for f in range(len(neighbours)):
        found[count] = f
        here = False
        for k in range(3):
            g = neighbours[f, k]
            here = here or (g >= 0 and classes[g] != classes[f])
        count += here
    return found[:count].copy()


@compiled
def _largest_shares(vertices, faces, neighbours, areas, classes, asked, radius, stamp, stop):
    """Of each face asked for, the class with most area within a ball about its middle."""
    largest = np.empty(len(asked), np.uint8)
    queue = np.empty(256, np.int32)
    share = np.zeros(3)
    for i in range(len(asked)):
        f = asked[i]
        if stop[0]:
            return largest
        x, y, z = middle_of_face(vertices, faces, f)
        share[:] = 0.0
        queue[0], stamp[f], head, tail = f, f, 0, 1
        while head < tail:
            g = queue[head]
            head += 1
            share[classes[g]] += areas[g]
            for k in range(3):
                h = neighbours[g, k]
                if h < 0 or stamp[h] == f:
                    continue
                stamp[h] = f
                mx, my, mz = middle_of_face(vertices, faces, h)
                if (mx - x) ** 2 + (my - y) ** 2 + (mz - z) ** 2 <= radius * radius:
                    if tail == len(queue):
                        queue = np.concatenate((queue, np.empty(len(queue), np.int32)))
                    queue[tail] = h
                    tail += 1
        best = classes[f]
        for other in range(3):
            if share[other] > share[best] * (1.0 + 1e-9):  # equal shares change nothing
                best = np.uint8(other)
        largest[i] = best
    return largest
