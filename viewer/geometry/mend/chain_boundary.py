"""The edges at which a surface does not add up, and the loops they form.

Count each edge once for every face that runs along it forwards, and take one away for every face
that runs along it backwards. Where the sum is not zero the surface has a boundary: at open edges,
but also where three faces meet. The boundary of any set of faces has no end itself, so these edges
always form closed loops; faces that fill them make every edge add up (the boundary of a boundary
is nothing: Hatcher, Algebraic Topology, 2002, lemma 2.1; from memory).
"""

import numpy as np

from viewer.geometry.edge_faults import find_edge_faults


def chain_boundary(faces: np.ndarray) -> np.ndarray:
    """(k, 2) int32 directed edges, each as often as more faces run along it so than against it.

    faces : (m, 3) int32; faces that name a vertex twice are left out
    """
    faults = find_edge_faults(faces)
    edges = np.concatenate([faults.open, faults.crowded, faults.flipped])
    if not len(edges):
        return np.empty((0, 2), np.int32)
    concerned = np.unique(
        np.concatenate([faults.open_faces, faults.crowded_faces, faults.flipped_faces])
    )
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
    leaving: dict[int, list[int]] = {}
    for start, end in edges.tolist():
        leaving.setdefault(start, []).append(end)
    loops = []
    for seed in list(leaving):
        path, place = [seed], {seed: 0}
        while leaving.get(path[-1]):
            vertex = leaving[path[-1]].pop()
            if vertex not in place:
                place[vertex] = len(path)
                path.append(vertex)
                continue
            start = place[vertex]  # the path has met itself: what lies since then is a loop
            loops.append(np.array(path[start:], np.int32))
            for passed in path[start + 1 :]:
                del place[passed]
            del path[start + 1 :]
    return loops
