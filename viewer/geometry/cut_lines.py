"""What is drawn of a cut: the cut faces, and the edges around and upon them."""

from typing import NamedTuple

import numpy as np

from viewer.geometry.face_neighbours import face_neighbours
from viewer.geometry.mesh import Mesh

_SHARP = np.cos(np.radians(30.0))  # edges of pins and of a box are drawn, those of facets are not


class CutShape(NamedTuple):
    """points_mm : (n, 3) in the posed frame; faces : (m, 3) cut faces; edges : (e, 2) indices"""

    points_mm: np.ndarray
    faces: np.ndarray
    edges: np.ndarray


def cut_shape(pieces: list[tuple[Mesh, np.ndarray]], matrix: np.ndarray) -> CutShape:
    """The cut faces of pieces and their edges.

    pieces : each mesh with (m,) bool, which of its faces are cut faces
    matrix : (4, 4) from part coordinates to the posed frame
    """
    points, faces, edges, count = [], [], [], 0
    for mesh, cut in pieces:
        used, corners = np.unique(mesh.faces[cut], return_inverse=True)
        corners = corners.reshape(-1, 3).astype(np.int32)
        if not len(corners):
            continue
        own = mesh.vertices_mm[used] @ matrix[:3, :3].T + matrix[:3, 3]
        points.append(own)
        faces.append(corners + count)
        edges.append(_edges(own, corners) + count)
        count += len(own)
    if not points:
        return CutShape(np.empty((0, 3)), np.empty((0, 3), np.int32), np.empty((0, 2), np.int32))
    return CutShape(np.concatenate(points), np.concatenate(faces), np.concatenate(edges))


def _edges(points: np.ndarray, corners: np.ndarray) -> np.ndarray:
    """(e, 2) edges along which the faces end or bend."""
    mesh = Mesh(points, corners)
    around = face_neighbours(mesh.faces)
    normals = mesh.face_normals
    bend = np.einsum("fx,fkx->fk", normals, normals[around]) < _SHARP
    row, k = np.nonzero((around < 0) | (bend & (around > np.arange(len(corners))[:, None])))
    return np.stack([corners[row, k], corners[row, (k + 1) % 3]], axis=1).astype(np.int32)
