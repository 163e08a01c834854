"""Faces that are faulty by themselves (no area) or twins of others (the same three corners)."""

from dataclasses import dataclass

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.mesh import Mesh

ZERO_AREA_MM2 = 1e-12  # below this no direction can be given to a face


@dataclass(frozen=True, eq=False)
class FaceFaults:
    """Indices of faces, int32, ascending.

    degenerate : a corner named twice, or an area of nothing (below ZERO_AREA_MM2)
    duplicate : the same three corners as a face before it, whichever way round
    opposite : those duplicates that face against the face before them (a sheet without thickness)
    """

    degenerate: np.ndarray
    duplicate: np.ndarray
    opposite: np.ndarray


def find_face_faults(mesh: Mesh) -> FaceFaults:
    """Degenerate, duplicate and coincident-opposite faces of a mesh."""
    faces = mesh.faces
    twice = (
        (faces[:, 0] == faces[:, 1]) | (faces[:, 1] == faces[:, 2]) | (faces[:, 2] == faces[:, 0])
    )
    degenerate = np.flatnonzero(twice | (mesh.face_areas_mm2 < ZERO_AREA_MM2))
    kinds = _twins(faces, twice, len(mesh.vertices_mm))
    return FaceFaults(
        degenerate.astype(np.int32),
        np.flatnonzero(kinds).astype(np.int32),
        np.flatnonzero(kinds == 2).astype(np.int32),
    )


@compiled
def _twins(faces, leave_out, vertex_count):
    """(m,) 1 for a face with the corners and winding of an earlier one, 2 if wound against it.

    Faces are chained by their lowest vertex, so that each is compared with a handful of others.
    """
    kinds = np.zeros(len(faces), np.int8)
    newest = np.full(vertex_count, -1, np.int32)
    before = np.full(len(faces), -1, np.int32)
    for f in range(len(faces)):
        if leave_out[f]:
            continue
        a, b, c = faces[f]
        while a > b or a > c:  # turn the lowest vertex to the front, keeping the winding
            a, b, c = b, c, a
        g = newest[a]
        while g >= 0:
            p, q, r = faces[g]
            while p > q or p > r:
                p, q, r = q, r, p
            if b == q and c == r:
                kinds[f] = 1
                break
            if b == r and c == q:
                kinds[f] = 2
            g = before[g]
        before[f] = newest[a]
        newest[a] = f
    return kinds
