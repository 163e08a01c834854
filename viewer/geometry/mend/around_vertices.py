"""Which faces lie around each vertex."""

import numpy as np

from viewer.geometry.compiled import compiled


@compiled
def faces_around(faces, vertex_count):
    """(starts, members): the faces at vertex v are members[starts[v]:starts[v + 1]], ascending.

    faces : (m, 3) int32; a face that names a vertex twice is listed there twice
    returns (vertex_count + 1,) int32 and (3·m,) int32
    """
    starts = np.zeros(vertex_count + 1, np.int32)
    for f in range(len(faces)):
        for k in range(3):
            starts[faces[f, k] + 1] += 1
    for v in range(vertex_count):
        starts[v + 1] += starts[v]
    members = np.empty(3 * len(faces), np.int32)
    place = starts[:-1].copy()
    for f in range(len(faces)):
        for k in range(3):
            members[place[faces[f, k]]] = f
            place[faces[f, k]] += 1
    return starts, members
