"""Corners of some faces for drawing: single precision, less an origin so that none is lost."""

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.mesh import Mesh


def face_corners_mm(
    mesh: Mesh, rows: np.ndarray, origin_mm: np.ndarray, into: np.ndarray | None = None
) -> np.ndarray:
    """(k, 3, 3) float32 corners of (k,) faces, from (3,) on; written to `into` where it is given.

    into : (k, 3, 3) float32, which spares making an array at each move of a brush
    """
    if into is None:
        into = np.empty((len(rows), 3, 3), np.float32)
    _fill(mesh.vertices_mm, mesh.faces, rows, np.asarray(origin_mm, np.float64), into)
    return into


@compiled
def _fill(vertices, faces, rows, origin, into):
    x, y, z = origin
    for i in range(len(rows)):
        for k in range(3):
            v = faces[rows[i], k]
            into[i, k, 0] = vertices[v, 0] - x
            into[i, k, 1] = vertices[v, 1] - y
            into[i, k, 2] = vertices[v, 2] - z
