"""A part as it is drawn: every shell wound as it is measured, out of the material."""

import numpy as np

from viewer.geometry.mesh import Mesh


def turned_outward(mesh: Mesh, orientation: np.ndarray) -> Mesh:
    """The same faces in the same order, wound as they are measured: out of the material."""
    if (orientation > 0).all():
        return mesh
    turned = np.where(orientation[:, None] > 0, mesh.faces, mesh.faces[:, [0, 2, 1]])
    return Mesh(mesh.vertices_mm, turned)


def as_turned(neighbours: np.ndarray, orientation: np.ndarray) -> np.ndarray:
    """Neighbours in the order of the edges of faces that `turned_outward` has turned."""
    if (orientation > 0).all():
        return neighbours
    return np.where(orientation[:, None] > 0, neighbours, neighbours[:, [2, 1, 0]])
