"""Edges that are drawn, borders and creases: by kernels, or in plain numpy until those are ready.

Drawing asks on the window's thread, where nothing may wait for a compiler.
"""

import numpy as np

from viewer.geometry.compiled import kernels_at_hand
from viewer.geometry.regions import borders, creases


def borders_to_draw(faces: np.ndarray, neighbours: np.ndarray, labels: np.ndarray) -> np.ndarray:
    """(e, 2) int32, see `borders`."""
    if not kernels_at_hand():
        return plain_borders(faces, neighbours, labels)
    return borders(faces, neighbours, labels)


def creases_to_draw(
    faces: np.ndarray, neighbours: np.ndarray, normals: np.ndarray, crease_deg: float
) -> np.ndarray:
    """(e, 2) int32, see `creases`."""
    if not kernels_at_hand():
        return plain_creases(faces, neighbours, normals, crease_deg)
    return creases(faces, neighbours, normals, crease_deg)


def plain_borders(faces: np.ndarray, neighbours: np.ndarray, labels: np.ndarray) -> np.ndarray:
    """The same as `borders`."""
    face, corner, other = _edges(neighbours)
    kept = labels[face] != labels[other]
    return _ends(faces, face[kept], corner[kept])


def plain_creases(
    faces: np.ndarray, neighbours: np.ndarray, normals: np.ndarray, crease_deg: float
) -> np.ndarray:
    """The same as `creases`."""
    face, corner, other = _edges(neighbours)
    cosine = sum(normals[face, axis] * normals[other, axis] for axis in range(3))
    kept = cosine < np.cos(np.radians(crease_deg))
    return _ends(faces, face[kept], corner[kept])


def _edges(neighbours):
    """Each edge between two faces once: the lower face, its corner there, the higher face."""
    face, corner = np.nonzero(neighbours > np.arange(len(neighbours))[:, None])
    return face, corner, neighbours[face, corner]


def _ends(faces, face, corner):
    return np.column_stack([faces[face, corner], faces[face, (corner + 1) % 3]]).astype(np.int32)
