"""A part as it is drawn: every shell wound as it is measured, out of the material."""

import numpy as np

from viewer.geometry.known_of_mesh import StandIns, stand_ins_of
from viewer.geometry.mesh import Mesh
from viewer.geometry.stand_in import StandIn


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


def drawn_instead(mesh: Mesh, orientation: np.ndarray) -> StandIns:
    """What is drawn in place of a large part, wound as `turned_outward` winds it."""

    def turned(found: StandIn | None) -> StandIn | None:
        if found is None:
            return None
        return StandIn(turned_outward(found.mesh, orientation[found.face]), found.face)

    return StandIns(*(turned(found) for found in stand_ins_of(mesh)))
