"""Neighbours at edges where more than two faces meet: around each wedge of material.

Two boxes that share an edge have four faces there. Going round the edge, material begins at a face
that runs along the edge backwards and ends at the next one that runs forwards; those two belong to
one solid.
"""

import numpy as np

from viewer.geometry.compiled import LOOK_BITS, compiled
from viewer.geometry.face_neighbours import edges_by_low_vertex, with_unpaired_edge
from viewer.progress import Progress

_ONE_ANGLE_DEG = 0.006  # what float32 leaves of an angle at faces of a tenth of a millimetre


def join_at_crowded_edges(
    vertices_mm: np.ndarray,
    faces: np.ndarray,
    neighbours: np.ndarray,
    progress: Progress | None = None,
) -> np.ndarray:
    """`neighbours` with the faces at edges of more than two faces joined wedge by wedge.

    vertices_mm : (n, 3) float64
    faces : (m, 3) int32
    neighbours : (m, 3) int32 from `face_neighbours`
    returns (m, 3) int32; −1 stays at open edges and where directions leave a face without partner
    Raises Cancelled through `progress`.
    """
    progress = progress or Progress()
    bare = with_unpaired_edge(neighbours)
    progress.check()
    if not len(bare):
        return neighbours
    joined = neighbours.copy()
    few = np.ascontiguousarray(faces[bare])
    starts, edges = edges_by_low_vertex(few, int(few.max()) + 1, progress.stop_flag)
    progress.check()
    _join_wedges(vertices_mm, faces, bare, starts, edges, joined, progress.stop_flag)
    progress.check()
    return joined


@compiled
def _join_wedges(vertices, faces, bare, starts, edges, joined, stop):
    for v in range(len(starts) - 1):
        if v & LOOK_BITS == 0 and stop[0]:
            break
        here = edges[starts[v] : starts[v + 1]]
        if len(here) < 3:
            continue
        here.sort()
        i = 0
        while i < len(here):
            j = i + 1
            while j < len(here) and here[j] >> 32 == here[i] >> 32:
                j += 1
            if j - i > 2:
                _join_at_edge(vertices, faces, bare, here[i:j], joined)
            i = j


@compiled
def _join_at_edge(vertices, faces, bare, edges, joined):
    count = len(edges)
    face = np.empty(count, np.int64)
    corner = np.empty(count, np.int64)
    ends = np.empty(count, np.bool_)
    angle = np.empty(count)
    high = edges[0] >> 32
    for i in range(count):
        face[i] = bare[(edges[i] & 0xFFFFFFFF) >> 2]
        corner[i] = edges[i] & 3
        ends[i] = faces[face[i], (corner[i] + 1) % 3] == high  # runs from the lower to the higher
        angle[i] = _angle_about_edge(vertices, faces[face[i]], corner[i], high)
    order = _around(angle, ends)
    waiting = np.empty(2 * count, np.int64)
    first, last = 0, 0
    for step in range(2 * count):
        i = order[step % count]
        if joined[face[i], corner[i]] >= 0:
            continue
        if not ends[i]:
            if step < count:
                waiting[last] = i
                last += 1
        elif first < last:
            j = waiting[first]
            first += 1
            joined[face[i], corner[i]] = face[j]
            joined[face[j], corner[j]] = face[i]


@compiled
def _around(angle, ends):
    """The faces as one meets them going round the edge, from behind the widest gap on.

    Of faces at one angle, material of the one ends before that of the other begins, a slit; unless
    there is none before them that could end, then they are the rim of a sheet. So their order is
    the same all along the edge, whatever the rounding of their corners.
    """
    count = len(angle)
    order = np.argsort(angle, kind="mergesort")
    widest, start = angle[order[0]] + 2.0 * np.pi - angle[order[-1]], 0
    for k in range(1, count):
        gap = angle[order[k]] - angle[order[k - 1]]
        if gap > widest:
            widest, start = gap, k
    order = np.concatenate((order[start:], order[:start]))
    place = np.zeros(count, np.int64)  # the same for faces at one angle
    for k in range(1, count):
        apart = (angle[order[k]] - angle[order[k - 1]]) % (2.0 * np.pi) > np.radians(_ONE_ANGLE_DEG)
        place[k] = place[k - 1] + (1 if apart else 0)
    begun = np.zeros(place[-1] + 2, np.int64)  # how much more has begun before each place
    ending = np.zeros(place[-1] + 1, np.int64)
    for k in range(count):
        ending[place[k]] += 1 if ends[order[k]] else 0
        begun[place[k] + 1] += -1 if ends[order[k]] else 1
    begun = np.cumsum(begun)
    begun -= begun.min()
    crossed = begun.max() == 0  # at each place as much ends as begins: a sheet runs on across
    key = np.empty(count, np.int64)
    for k in range(count):
        ends_first = crossed or begun[place[k]] >= ending[place[k]]
        key[k] = 2 * place[k] + (0 if ends[order[k]] == ends_first else 1)
    return order[np.argsort(key, kind="mergesort")]


@compiled
def _angle_about_edge(vertices, corners, corner, high):
    start, end = corners[corner], corners[(corner + 1) % 3]
    if end != high:
        start, end = end, start
    axis = vertices[end] - vertices[start]
    axis = axis / np.sqrt(np.sum(axis * axis))
    away = vertices[corners[(corner + 2) % 3]] - vertices[start]
    other = np.zeros(3)
    other[np.argmin(np.abs(axis))] = 1.0
    e1 = np.cross(axis, other)
    e2 = np.cross(axis, e1)
    return np.arctan2(np.sum(away * e2), np.sum(away * e1))
