"""Which piece of a face lies under a point, so that rays need to be shot at whole faces only."""

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.mesh import Mesh


def piece_under(
    mesh: Mesh, neighbours: np.ndarray, base_face: np.ndarray, face: int, point_mm: np.ndarray
) -> int:
    """The face of `mesh` under a point (3,) of base face `face`, found from neighbour to neighbour.

    neighbours : (m, 3) int32; base_face : (m,) int32, of which row `face` is `face` itself
    """
    point = np.asarray(point_mm, float)
    return int(_under(mesh.vertices_mm, mesh.faces, neighbours, base_face, face, point))


@compiled
def _least_share(vertices, faces, f, point):
    """The least of a point's three area shares in a face: below 0 outside, however small it is."""
    a, b, c = faces[f, 0], faces[f, 1], faces[f, 2]
    normal, whole = np.zeros(3), 0.0
    for axis in range(3):
        i, j = (axis + 1) % 3, (axis + 2) % 3
        ui, uj = vertices[b, i] - vertices[a, i], vertices[b, j] - vertices[a, j]
        vi, vj = vertices[c, i] - vertices[a, i], vertices[c, j] - vertices[a, j]
        normal[axis] = ui * vj - uj * vi
        whole += normal[axis] ** 2
    if whole <= 0.0:
        return -np.inf
    least = np.inf
    for k in range(3):
        p, q = faces[f, k], faces[f, (k + 1) % 3]
        share = 0.0
        for axis in range(3):
            i, j = (axis + 1) % 3, (axis + 2) % 3
            ui, uj = vertices[q, i] - vertices[p, i], vertices[q, j] - vertices[p, j]
            vi, vj = point[i] - vertices[p, i], point[j] - vertices[p, j]
            share += (ui * vj - uj * vi) * normal[axis]
        least = min(least, share / whole)
    return least


@compiled
def _under(vertices, faces, neighbours, base_face, face, point):
    queue = np.empty(64, np.int32)
    seen = {face}
    queue[0], head, tail = face, 0, 1
    best, best_share = face, -np.inf
    while head < tail:
        f = queue[head]
        head += 1
        share = _least_share(vertices, faces, f, point)
        if share > best_share:
            best, best_share = f, share
            if share >= 0.0:
                break
        for k in range(3):
            g = neighbours[f, k]
            if g >= 0 and base_face[g] == face and np.int64(g) not in seen:
                seen.add(np.int64(g))
                if tail == len(queue):
                    queue = np.concatenate((queue, np.empty(len(queue), np.int32)))
                queue[tail] = g
                tail += 1
    return np.int64(best)
