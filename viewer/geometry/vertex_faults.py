"""Vertices in which several fans of faces meet in nothing but a point."""

import numpy as np

from viewer.geometry.compiled import LOOK_BITS, compiled
from viewer.progress import Progress


def find_split_vertices(
    faces: np.ndarray,
    neighbours: np.ndarray,
    vertex_count: int,
    progress: Progress | None = None,
) -> np.ndarray:
    """Vertices (k,) int32, ascending, whose faces form more than one fan (not manifold).

    faces, neighbours : (m, 3) int32, from `face_neighbours`

    Two faces at a vertex belong to one fan if they share an edge there, however many faces that
    edge has; so the ends of an edge with four faces do not count again. Faces that name a vertex
    twice are left out. Raises Cancelled through `progress`.
    """
    progress = progress or Progress()
    if not len(faces):
        return np.empty(0, np.int32)
    doubtful = _not_all_in_one_walk(faces, neighbours, vertex_count, progress.stop_flag)
    progress.check()
    if not doubtful.any():
        return np.empty(0, np.int32)
    few = np.flatnonzero(doubtful[faces].any(axis=1))
    progress.check()
    # Two rows for each corner: its vertex, and the vertex at the other end of either edge.
    corner = faces[few]
    proper = (corner != np.roll(corner, 1, axis=1)).all(axis=1)
    corner = corner[proper].astype(np.int64)
    at = corner.ravel()
    ends = np.stack([np.roll(corner, -1, axis=1).ravel(), np.roll(corner, 1, axis=1).ravel()], 1)
    keep = doubtful[at]
    at, ends = at[keep], ends[keep]
    progress.check()
    return _with_several_fans(at, ends, progress)


def _with_several_fans(at, ends, progress):
    """Vertices of `at` whose rows of `ends`, joined where they share an end, stay in groups."""
    order = np.argsort(at, kind="stable")
    progress.check()
    at, ends = at[order], ends[order]
    first = np.flatnonzero(np.diff(at, prepend=-1))
    vertices, starts = at[first], np.append(first, len(at))
    progress.check()
    fans = _count_fans(starts, ends, progress.stop_flag)
    progress.check()
    return vertices[fans > 1].astype(np.int32)


@compiled
def _not_all_in_one_walk(faces, neighbours, vertex_count, stop):
    """(n,) bool: walking from face to face about the vertex does not meet all its corners."""
    corners = np.zeros(vertex_count, np.int32)
    last = np.full(vertex_count, -1, np.int32)
    for f in range(len(faces)):
        a, b, c = faces[f]
        if a == b or b == c or c == a:
            continue
        for v in (a, b, c):
            corners[v] += 1
            last[v] = f
    doubtful = np.zeros(vertex_count, np.bool_)
    for v in range(vertex_count):
        if v & LOOK_BITS == 0 and stop[0]:
            break
        if corners[v] == 0:
            continue
        met, f, came = 0, last[v], -1
        while met <= corners[v]:
            met += 1
            k = 0 if faces[f, 0] == v else (1 if faces[f, 1] == v else 2)
            one, other = neighbours[f, k], neighbours[f, (k + 2) % 3]
            step = one if one != came else other
            if met == 1:
                step = one
            if step < 0 or step == last[v]:
                break
            came, f = f, step
        doubtful[v] = met != corners[v]
    return doubtful


@compiled
def _count_fans(starts, ends, stop):
    fans = np.empty(len(starts) - 1, np.int32)
    for v in range(len(fans)):
        if v & LOOK_BITS == 0 and stop[0]:
            break
        rows = ends[starts[v] : starts[v + 1]]
        group = np.arange(len(rows))
        count = len(rows)
        for i in range(len(rows)):
            for j in range(i):
                if not (
                    rows[i, 0] == rows[j, 0]
                    or rows[i, 0] == rows[j, 1]
                    or rows[i, 1] == rows[j, 0]
                    or rows[i, 1] == rows[j, 1]
                ):
                    continue
                one, other = group[i], group[j]
                if one != other:
                    count -= 1
                    for k in range(len(rows)):
                        if group[k] == one:
                            group[k] = other
        fans[v] = count
    return fans
