"""What several rooms ask about the same mesh, worked out once: neighbours and shells.

A mesh never changes, so an answer stays right for as long as the mesh lives and goes with it. Two
threads that ask at the same moment may both work it out; they get the same.
"""

from weakref import WeakKeyDictionary

import numpy as np

from viewer.geometry.face_neighbours import face_neighbours
from viewer.geometry.mesh import Mesh, frozen
from viewer.geometry.shells import Shells, find_shells

_neighbours: WeakKeyDictionary[Mesh, np.ndarray] = WeakKeyDictionary()
_shells: WeakKeyDictionary[Mesh, Shells] = WeakKeyDictionary()


def neighbours_of(mesh: Mesh) -> np.ndarray:
    """(m, 3) int32, read-only: see `face_neighbours`."""
    known = _neighbours.get(mesh)
    if known is None:
        known = _neighbours[mesh] = frozen(face_neighbours(mesh.faces))
    return known


def shells_of(mesh: Mesh) -> Shells:
    """See `find_shells`."""
    known = _shells.get(mesh)
    if known is None:
        known = _shells[mesh] = find_shells(mesh, neighbours_of(mesh))
    return known


def get_to_know(mesh: Mesh) -> None:
    """Work out beforehand, on a worker, what drawing and measuring will ask."""
    shells_of(mesh)
    _ = mesh.face_normals, mesh.box_mm
