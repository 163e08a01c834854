"""A coarser surface that is drawn in place of a large part; each face stands for one of the part's.

Vertices within one cell of a grid become one, at their middle (vertex clustering, Rossignac and
Borrel 1993); faces that keep three different vertices stay, once each. Nothing is measured on it.
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.mesh import Mesh
from viewer.progress import Progress

_COARSER = 1.1  # each further try, above what the number of faces asks for
_MOST_TRIES = 6
_MOST_CELLS = 1 << 20  # along one axis, so that the number of a cell fits into 63 bits


class StandIn(NamedTuple):
    """mesh : the coarser surface, wound as the part; face : (k,) int32 face each stands for."""

    mesh: Mesh
    face: np.ndarray


def stand_in(mesh: Mesh, most_faces: int, progress: Progress | None = None) -> StandIn | None:
    """A surface of so many faces or fewer; None where the part has no more than that.

    Raises Cancelled.
    """
    progress = progress or Progress()
    if mesh.face_count <= most_faces:
        return None
    # An even surface has two triangles for each vertex, hence one for half a cell.
    area_mm2 = float(mesh.face_areas_mm2.sum())
    size_mm = float(np.ptp(mesh.box_mm, axis=0).max())
    cell_mm = max(np.sqrt(2.0 * area_mm2 / most_faces), size_mm / _MOST_CELLS)
    for _ in range(_MOST_TRIES):
        progress.check()
        found = _clustered(mesh, cell_mm, progress)
        count = found.mesh.face_count
        if count <= most_faces:
            return found
        cell_mm *= _COARSER * np.sqrt(count / most_faces)
    return found  # a cloud of loose triangles; some more of them are no harm


def _clustered(mesh: Mesh, cell_mm: float, progress: Progress) -> StandIn:
    low, high = mesh.box_mm
    cells = np.floor((high - low) / cell_mm).astype(np.int64) + 1
    key = np.zeros(len(mesh.vertices_mm), np.int64)
    for axis in range(3):
        place = (mesh.vertices_mm[:, axis] - low[axis]) / cell_mm
        key = key * cells[axis] + np.clip(place.astype(np.int64), 0, cells[axis] - 1)
        progress.check()
    _, cluster = np.unique(key, return_inverse=True)
    progress.check()
    corners = cluster[mesh.faces]
    a, b, c = corners.T
    face = np.flatnonzero((a != b) & (b != c) & (c != a))
    face, corners = _once_each(corners, face, int(cluster.max()) + 1)
    progress.check()
    count = np.maximum(np.bincount(cluster), 1)
    middle = [np.bincount(cluster, mesh.vertices_mm[:, axis]) / count for axis in range(3)]
    return StandIn(Mesh(np.column_stack(middle), corners), face.astype(np.int32))


def _once_each(corners: np.ndarray, face: np.ndarray, count: int) -> tuple[np.ndarray, np.ndarray]:
    """Of faces with the same corners in the same sense the first: its number, and its corners."""
    kept = corners[face]
    first = kept.argmin(axis=1)
    turned = np.take_along_axis(kept, (first[:, None] + np.arange(3)) % 3, axis=1)
    # Two numbers, as three of a large part's would not fit into 63 bits.
    order = np.lexsort((turned[:, 1] * count + turned[:, 2], turned[:, 0]))
    ordered = turned[order]
    new = np.ones(len(order), bool)
    new[1:] = (ordered[1:] != ordered[:-1]).any(axis=1)
    rows = np.sort(order[new])
    return face[rows], kept[rows]
