"""Step: drop faces without area, and slivers thinner than a distance, without opening the surface.

A face that names a vertex twice is taken away: the edges left and right of it are one. A needle
(one edge shorter than the distance) goes by joining the two ends of that edge; a cap (a corner on
the edge opposite) by turning that edge over, so that the neighbour is cut at the corner instead.
The two cases and their cures: Botsch & Kobbelt 2001, "A robust procedure to eliminate degenerate
faces from triangle meshes" (from memory).
"""

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.face_neighbours import face_neighbours
from viewer.geometry.mend.around_vertices import faces_around
from viewer.geometry.mend.mended import MendedMesh, unchanged, without_unused_vertices
from viewer.geometry.mesh import Mesh
from viewer.progress import Progress

_MOST_PASSES = 30


def drop_degenerate(
    mesh: Mesh, thinner_than_mm: float, progress: Progress | None = None
) -> MendedMesh:
    """The mesh without faces thinner than a distance, as far as that opens and doubles nothing.

    No vertex moves by more than `thinner_than_mm` in one pass. Raises Cancelled.
    """
    progress = progress or Progress()
    points, faces, origin = mesh.vertices_mm, mesh.faces, np.arange(mesh.face_count)
    for turn in range(_MOST_PASSES):
        progress.report(turn / _MOST_PASSES, "Dropping faces without area")
        kept = _proper(faces)
        faces, origin = faces[kept].copy(), origin[kept].copy()
        bad = np.flatnonzero(_thin(points, faces, thinner_than_mm)) if len(faces) else []
        if not len(bad):
            break
        starts, members = faces_around(faces, len(points))
        changed = _mend_faces(
            points, faces, origin, face_neighbours(faces), starts, members, bad, thinner_than_mm
        )
        if not changed:
            break
    if len(faces) == mesh.face_count and (faces == mesh.faces).all():
        return unchanged(mesh)
    return without_unused_vertices(points, faces, origin)


def thin_faces(mesh: Mesh, thinner_than_mm: float) -> np.ndarray:
    """(m,) bool: faces that name a vertex twice or whose height over some edge is that small."""
    return _thin(mesh.vertices_mm, mesh.faces, thinner_than_mm) | ~_proper(mesh.faces)


def _proper(faces):
    a, b, c = faces.T
    return (a != b) & (b != c) & (c != a)


@compiled
def _thin(points, faces, within):
    thin = np.zeros(len(faces), np.bool_)
    for f in range(len(faces)):
        ax, ay, az = points[faces[f, 0]]
        bx, by, bz = points[faces[f, 1]]
        cx, cy, cz = points[faces[f, 2]]
        ux, uy, uz = bx - ax, by - ay, bz - az
        vx, vy, vz = cx - ax, cy - ay, cz - az
        wx, wy, wz = vx - ux, vy - uy, vz - uz
        nx, ny, nz = uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx
        longest = max(
            ux * ux + uy * uy + uz * uz, vx * vx + vy * vy + vz * vz, wx * wx + wy * wy + wz * wz
        )
        thin[f] = nx * nx + ny * ny + nz * nz <= within * within * longest
    return thin


@compiled
def _apart_mm(points, a, b):
    total = 0.0
    for axis in range(3):
        total += (points[a, axis] - points[b, axis]) ** 2
    return total**0.5


@compiled
def _holds(faces, f, v):
    return faces[f, 0] == v or faces[f, 1] == v or faces[f, 2] == v


@compiled
def _claim(faces, members, first, last, busy, take):
    """Whether no vertex around is busy in this pass; with `take` they all become so."""
    for i in range(first, last):
        for k in range(3):
            if take:
                busy[faces[members[i], k]] = True
            elif busy[faces[members[i], k]]:
                return False
    return True


@compiled
def _mend_faces(points, faces, origin, neighbours, starts, members, bad, within):
    """One pass over the thin faces; those whose surroundings have changed wait for the next."""
    busy = np.zeros(len(points), np.bool_)
    changed = 0
    for f in bad:
        if busy[faces[f, 0]] or busy[faces[f, 1]] or busy[faces[f, 2]]:
            continue
        shortest, longest = 0, 0
        lengths = np.empty(3)
        for k in range(3):
            lengths[k] = _apart_mm(points, faces[f, k], faces[f, (k + 1) % 3])
            if lengths[k] < lengths[shortest]:
                shortest = k
            if lengths[k] > lengths[longest]:
                longest = k
        if lengths[shortest] <= within:
            a, b = faces[f, shortest], faces[f, (shortest + 1) % 3]
            changed += _join_ends(faces, starts, members, busy, a, b)
        else:
            changed += _turn_edge(faces, origin, neighbours, starts, members, busy, f, longest)
    return changed


@compiled
def _join_ends(faces, starts, members, busy, a, b):
    """Let b become a, if the two have no common neighbours but across the faces at their edge."""
    if not (
        _claim(faces, members, starts[a], starts[a + 1], busy, False)
        and _claim(faces, members, starts[b], starts[b + 1], busy, False)
    ):
        return 0
    at_edge, common = 0, 0
    for i in range(starts[a], starts[a + 1]):
        f = members[i]
        at_edge += _holds(faces, f, b)
        for k in range(3):  # each neighbour once: as the one that follows a, or comes before it
            v = faces[f, k]
            if v in (a, b) or not _first_seen(faces, members, starts[a], i, v, k):
                continue
            for j in range(starts[b], starts[b + 1]):
                if _holds(faces, members[j], v):
                    common += 1
                    break
    if common != at_edge:
        return 0
    _claim(faces, members, starts[a], starts[a + 1], busy, True)
    _claim(faces, members, starts[b], starts[b + 1], busy, True)
    for j in range(starts[b], starts[b + 1]):
        for k in range(3):
            if faces[members[j], k] == b:
                faces[members[j], k] = a
    return 1


@compiled
def _first_seen(faces, members, first, i, v, k):
    for j in range(first, i):
        if _holds(faces, members[j], v):
            return False
    return not (k > 0 and faces[members[i], 0] == v) and not (k > 1 and faces[members[i], 1] == v)


@compiled
def _turn_edge(faces, origin, neighbours, starts, members, busy, f, k):
    """Let the edge k of f join the other two corners of its two faces instead."""
    g = neighbours[f, k]
    if g < 0:
        return 0
    a, b, c = faces[f, k], faces[f, (k + 1) % 3], faces[f, (k + 2) % 3]
    d = np.int32(-1)
    for j in range(3):
        if faces[g, j] == b and faces[g, (j + 1) % 3] == a:
            d = faces[g, (j + 2) % 3]
    if d < 0 or d == c or busy[d]:
        return 0
    for i in range(starts[c], starts[c + 1]):
        if _holds(faces, members[i], d):
            return 0  # the new edge is there already
    busy[a] = busy[b] = busy[c] = busy[d] = True
    faces[f, 0], faces[f, 1], faces[f, 2] = a, d, c
    faces[g, 0], faces[g, 1], faces[g, 2] = d, b, c
    origin[f] = origin[g]
    return 1
