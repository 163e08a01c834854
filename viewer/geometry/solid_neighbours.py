"""Neighbours at edges where more than two faces meet: around each wedge of material.

Two boxes that share an edge have four faces there. Going round the edge, material begins at a face
that runs along the edge backwards and ends at the next one that runs forwards; those two belong to
one solid.
"""

import numpy as np

from viewer.geometry.compiled import LOOK_BITS, compiled
from viewer.geometry.face_neighbours import edges_by_low_vertex, with_unpaired_edge
from viewer.progress import Progress


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
    # Of two faces at one angle, material of the one ends before that of the other begins.
    order = np.argsort(np.round(angle, 9) + np.where(ends, 0.0, 1e-10), kind="mergesort")
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
