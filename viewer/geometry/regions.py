"""Regions of a part's surface that marking uses: round dabs, strokes, fills up to a crease.

A region grows from a face to the faces across its edges, so it follows the surface and never jumps
through a thin wall. `neighbours` is what `face_neighbours` returns: (m, 3) int32, −1 at open edges.
"""

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.distances import piece_triangle_mm
from viewer.geometry.mesh import Mesh


def stroke_faces(
    mesh: Mesh,
    neighbours: np.ndarray,
    hits: list[tuple[int, np.ndarray]],
    radius_mm: float,
) -> np.ndarray:
    """Sorted (k,) int32 faces that a round brush covers along surface points.

    hits : (face, point (3,) mm) in the order of the stroke; one hit is a single dab. A dab takes
    the faces that meet the ball about its point, as far as they hang together with the face hit
    through faces that meet it too. Between two points the ball sweeps the straight line, growing
    over the surface from both ends, so that fast strokes leave no gaps; where the line leaves the
    surface (over a gap, through a wall) nothing beyond it is reached. Faces hit always belong.
    """
    taken = np.zeros(mesh.face_count, np.bool_)
    stamp = np.zeros(mesh.face_count, np.int32)
    found = [np.zeros(0, np.int32)]
    previous: tuple[int, tuple[float, ...]] | None = None
    for number, (face, point) in enumerate(hits, start=1):
        end = tuple(float(x) for x in point)
        start = end if previous is None else previous[1]
        seeds = np.array([face if previous is None else previous[0], face], np.int64)
        found.append(
            _grow_capsule(
                mesh.vertices_mm, mesh.faces, neighbours, seeds, start, end,
                float(radius_mm), stamp, np.int32(number), taken,
            )
        )  # fmt: skip
        previous = (face, end)
    return np.sort(np.concatenate(found))


def crease_fill(
    neighbours: np.ndarray, normals: np.ndarray, seed_face: int, crease_deg: float
) -> np.ndarray:
    """Sorted (k,) int32 faces reached from the seed over edges bent by at most `crease_deg`.

    normals : (m, 3) unit face normals; the bend of an edge is the angle between its faces' normals.
    A face without area has no normal and is passed over from either side.
    """
    # A hair of slack: an edge bent by exactly the limit counts as smooth despite rounding.
    least_cosine = np.cos(np.radians(crease_deg)) - 1e-9
    return np.sort(_grow_smooth(neighbours, normals, int(seed_face), float(least_cosine)))


def borders(faces: np.ndarray, neighbours: np.ndarray, labels: np.ndarray) -> np.ndarray:
    """(e, 2) int32 vertex pairs of the edges between faces of different `labels`, each edge once.

    labels : (m,) uint8. Open edges are no borders.
    """
    return _borders(faces, neighbours, np.ascontiguousarray(labels, np.uint8))


def creases(
    faces: np.ndarray, neighbours: np.ndarray, normals: np.ndarray, crease_deg: float
) -> np.ndarray:
    """(e, 2) int32 vertex pairs of the edges bent by more than `crease_deg`, each edge once."""
    return _creases(faces, neighbours, normals, float(np.cos(np.radians(crease_deg))))


@compiled
def _creases(faces, neighbours, normals, least_cosine):
    ends = np.empty((3 * len(faces) // 2 + 1, 2), np.int32)
    count = 0
    for f in range(len(faces)):
        for k in range(3):
            g = neighbours[f, k]
            if g <= f:
                continue
            cosine = 0.0
            for axis in range(3):
                cosine += normals[f, axis] * normals[g, axis]
            if cosine < least_cosine:
                ends[count, 0] = faces[f, k]
                ends[count, 1] = faces[f, (k + 1) % 3]
                count += 1
    return ends[:count].copy()


@compiled
def _borders(faces, neighbours, labels):
    count = 0
    for f in range(len(faces)):
        for k in range(3):
            g = neighbours[f, k]
            if g > f and labels[g] != labels[f]:
                count += 1
    ends = np.empty((count, 2), np.int32)
    count = 0
    for f in range(len(faces)):
        for k in range(3):
            g = neighbours[f, k]
            if g > f and labels[g] != labels[f]:
                ends[count, 0] = faces[f, k]
                ends[count, 1] = faces[f, (k + 1) % 3]
                count += 1
    return ends


@compiled
def _grow_smooth(neighbours, normals, seed, least_cosine):
    reached = np.zeros(len(neighbours), np.bool_)
    queue = np.empty(len(neighbours), np.int32)
    queue[0], reached[seed], head, tail = seed, True, 0, 1
    while head < tail:
        f = queue[head]
        head += 1
        for k in range(3):
            g = neighbours[f, k]
            if g < 0 or reached[g]:
                continue
            cosine = 0.0
            size_f, size_g = 0.0, 0.0
            for axis in range(3):
                cosine += normals[f, axis] * normals[g, axis]
                size_f += abs(normals[f, axis])
                size_g += abs(normals[g, axis])
            if cosine >= least_cosine or size_f == 0.0 or size_g == 0.0:
                reached[g] = True
                queue[tail] = g
                tail += 1
    return queue[:tail].copy()


@compiled
def _grow_capsule(vertices, faces, neighbours, seeds, start, end, radius, stamp, number, taken):
    """Faces newly taken by one sweep; `stamp` remembers what this sweep has already looked at."""
    found = np.empty(64, np.int32)
    queue = np.empty(64, np.int32)
    count, head, tail = 0, 0, 0
    for seed in seeds:
        if stamp[seed] != number:
            stamp[seed] = number
            queue[tail] = seed
            tail += 1
    while head < tail:
        f = queue[head]
        head += 1
        if not taken[f]:
            taken[f] = True
            if count == len(found):
                found = np.concatenate((found, np.empty(len(found), np.int32)))
            found[count] = f
            count += 1
        for k in range(3):
            g = neighbours[f, k]
            if g < 0 or stamp[g] == number:
                continue
            stamp[g] = number
            a, b, c = (
                _at(vertices, faces[g, 0]),
                _at(vertices, faces[g, 1]),
                _at(vertices, faces[g, 2]),
            )
            if piece_triangle_mm(start, end, a, b, c) <= radius:
                if tail == len(queue):
                    queue = np.concatenate((queue, np.empty(len(queue), np.int32)))
                queue[tail] = g
                tail += 1
    return found[:count].copy()


@compiled
def _at(vertices, v):
    return vertices[v, 0], vertices[v, 1], vertices[v, 2]
