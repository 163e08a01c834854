"""Faces that are faulty by themselves (no area, slivers) or twins of others (same corners)."""

from dataclasses import dataclass

import numpy as np

from viewer.geometry.compiled import LOOK_BITS, compiled
from viewer.geometry.mesh import Mesh
from viewer.progress import Progress

ZERO_AREA_MM2 = 1e-12  # below this no direction can be given to a face
SLIVER_MM = 0.001  # a face of less height than this is finer than any machine moves


@dataclass(frozen=True, eq=False)
class FaceFaults:
    """Indices of faces, int32, ascending.

    degenerate : a corner named twice, or an area of nothing (below ZERO_AREA_MM2)
    sliver : has an area, but is less than SLIVER_MM high over its longest side (needle or cap)
    duplicate : the same three corners as a face before it, whichever way round
    opposite : those duplicates that face against the face before them (a sheet without thickness)
    """

    degenerate: np.ndarray
    sliver: np.ndarray
    duplicate: np.ndarray
    opposite: np.ndarray

    @property
    def too_thin(self) -> np.ndarray:
        """Slivers and degenerate faces, across which nothing can be told apart."""
        return np.union1d(self.sliver, self.degenerate)


def find_face_faults(mesh: Mesh, progress: Progress | None = None) -> FaceFaults:
    """Degenerate, sliver, duplicate and coincident-opposite faces of a mesh. Raises Cancelled."""
    progress = progress or Progress()
    mesh.know_areas(progress)
    faces = mesh.faces
    twice = (
        (faces[:, 0] == faces[:, 1]) | (faces[:, 1] == faces[:, 2]) | (faces[:, 2] == faces[:, 0])
    )
    degenerate = twice | (mesh.face_areas_mm2 < ZERO_AREA_MM2)
    progress.check()
    low = _low(mesh.vertices_mm, faces, mesh.face_areas_mm2, SLIVER_MM, progress.stop_flag)
    progress.check()
    sliver = ~degenerate & low
    kinds = _twins(faces, twice, len(mesh.vertices_mm), progress.stop_flag)
    progress.check()
    return FaceFaults(
        np.flatnonzero(degenerate).astype(np.int32),
        np.flatnonzero(sliver).astype(np.int32),
        np.flatnonzero(kinds).astype(np.int32),
        np.flatnonzero(kinds == 2).astype(np.int32),
    )


@compiled
def _low(vertices, faces, areas, least, stop):
    """(m,) bool: the height over the longest side is below `least`."""
    low = np.zeros(len(faces), np.bool_)
    for f in range(len(faces)):
        if f & LOOK_BITS == 0 and stop[0]:
            break
        longest = 0.0
        for k in range(3):
            p, q = faces[f, k], faces[f, (k + 1) % 3]
            x, y = vertices[p, 0] - vertices[q, 0], vertices[p, 1] - vertices[q, 1]
            z = vertices[p, 2] - vertices[q, 2]
            longest = max(longest, x * x + y * y + z * z)
        low[f] = 2.0 * areas[f] < least * longest**0.5
    return low


@compiled
def _twins(faces, leave_out, vertex_count, stop):
    """(m,) 1 for a face with the corners and winding of an earlier one, 2 if wound against it.

    Faces are chained by their lowest vertex, so that each is compared with a handful of others.
    """
    kinds = np.zeros(len(faces), np.int8)
    newest = np.full(vertex_count, -1, np.int32)
    before = np.full(len(faces), -1, np.int32)
    for f in range(len(faces)):
        if f & LOOK_BITS == 0 and stop[0]:
            break
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
