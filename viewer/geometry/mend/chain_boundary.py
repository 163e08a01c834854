"""The edges at which a surface does not add up, and the loops they form.

Count each edge once for every face that runs along it forwards, and take one away for every face
that runs along it backwards. Where the sum is not zero the surface has a boundary: at open edges,
but also where three faces meet. The boundary of any set of faces has no end itself, so these edges
always form closed loops; faces that fill them make every edge add up (the boundary of a boundary
is nothing: Hatcher, Algebraic Topology, 2002, lemma 2.1; from memory).
"""

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.edge_faults import find_edge_faults


def chain_boundary(faces: np.ndarray) -> np.ndarray:
    """(k, 2) int32 directed edges, each as often as more faces run along it so than against it.

    faces : (m, 3) int32; faces that name a vertex twice are left out
    """
    faults = find_edge_faults(faces)
    edges = np.concatenate([faults.open, faults.crowded, faults.flipped])
    if not len(edges):
        return np.empty((0, 2), np.int32)
    concerned = np.zeros(len(faces), bool)
    for some in (faults.open_faces, faults.crowded_faces, faults.flipped_faces):
        concerned[some] = True
    few = faces[concerned]
    sides = np.concatenate([few[:, [0, 1]], few[:, [1, 2]], few[:, [2, 0]]])
    count = int(faces.max()) + 1
    key = sides.min(axis=1).astype(np.int64) * count + sides.max(axis=1)
    forwards = np.where(sides[:, 0] < sides[:, 1], 1, -1)
    keys, which = np.unique(key, return_inverse=True)
    total = np.bincount(which, weights=forwards).astype(np.int64)
    wanted = np.sort(edges, axis=1).astype(np.int64) @ [count, 1]
    total[~np.isin(keys, wanted)] = 0  # edges of the faces concerned that are in order elsewhere
    low, high = np.divmod(keys, count)
    pairs = np.where((total > 0)[:, None], np.stack([low, high], 1), np.stack([high, low], 1))
    return np.repeat(pairs, np.abs(total), axis=0).astype(np.int32)


def boundary_loops(edges: np.ndarray) -> list[np.ndarray]:
    """Closed loops of vertices, none of which names a vertex twice, that use every edge once.

    edges : (k, 2) int32 directed, as many arriving as leaving at every vertex
    """
    corners, starts = loops_in_a_row(edges)
    return np.split(corners, starts[1:-1]) if len(starts) > 1 else []


def loops_in_a_row(edges: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """The loops of `boundary_loops` one after the other.

    returns the vertices, int32, and (loops + 1,) int64, where each loop starts and the last ends
    """
    if not len(edges):
        return np.empty(0, np.int32), np.zeros(1, np.int64)
    vertices, ends = np.unique(edges, return_inverse=True)
    ends = ends.reshape(-1, 2)
    order = np.argsort(ends[:, 0], kind="stable")
    first = np.searchsorted(ends[order, 0], np.arange(len(vertices) + 1))
    met, seeds = np.unique(ends[:, 0], return_index=True)
    loops, starts = _loops(first, ends[order, 1], met[np.argsort(seeds)])
    return vertices[loops].astype(np.int32), starts


@compiled
def _loops(first, towards, seeds):
    """Follow edges that nobody took yet; whenever the path meets itself, a loop is cut off it.

    first : (n + 1,), the edges that leave vertex v lead to towards[first[v]:first[v + 1]]
    """
    count = len(first) - 1
    left = first[1:].copy()  # those behind are taken
    place = np.full(count, -1, np.int64)  # in the path
    path = np.empty(count + 1, np.int64)
    loops, starts = np.empty(len(towards), np.int64), np.zeros(len(towards) + 1, np.int64)
    used, found = 0, 0
    for seed in seeds:
        path[0], length = seed, 1
        place[seed] = 0
        while left[path[length - 1]] > first[path[length - 1]]:
            here = path[length - 1]
            left[here] -= 1
            vertex = towards[left[here]]
            if place[vertex] < 0:
                place[vertex] = length
                path[length] = vertex
                length += 1
                continue
            start = place[vertex]
            for i in range(start, length):
                loops[used] = path[i]
                used += 1
                if i > start:
                    place[path[i]] = -1
            found += 1
            starts[found] = used
            length = start + 1
        for i in range(length):
            place[path[i]] = -1
    return loops[:used], starts[: found + 1]
