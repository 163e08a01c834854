"""What several rooms ask about the same mesh, worked out once: neighbours, shells, stand-ins.

A mesh never changes, so an answer stays right for as long as the mesh lives and goes with it. Two
threads that ask at the same moment may both work it out; they get the same.

Before the kernels are compiled, a part that was just opened becomes known by plain numpy, so that
it can be drawn at once. Neighbours are the same either way; shells found so serve for drawing only.
"""

from dataclasses import replace
from typing import NamedTuple
from weakref import WeakKeyDictionary

import numpy as np

from viewer.geometry.compiled import kernels_at_hand
from viewer.geometry.drawn_edges import creases_to_draw
from viewer.geometry.face_neighbours import face_neighbours
from viewer.geometry.mesh import Mesh, frozen
from viewer.geometry.plain_shells import (
    PlainShells,
    face_pairs,
    neighbours_of_pairs,
    plain_shells,
)
from viewer.geometry.shells import Shells, find_shells
from viewer.geometry.stand_in import StandIn, stand_in
from viewer.progress import Progress

LARGE_FACES = 500_000  # from here on a part is drawn coarser while it moves,
VAST_FACES = 4_000_000  # and from here on at rest as well
MOVING_FACES, RESTING_FACES = 150_000, 1_500_000
CREASE_DEG = 40.0  # edges bent more than this are drawn

_neighbours: WeakKeyDictionary[Mesh, np.ndarray] = WeakKeyDictionary()
_shells: WeakKeyDictionary[Mesh, Shells] = WeakKeyDictionary()
_cut_from: WeakKeyDictionary[Mesh, tuple[Mesh, np.ndarray]] = WeakKeyDictionary()
_first_shells: WeakKeyDictionary[Mesh, PlainShells] = WeakKeyDictionary()
_creases: WeakKeyDictionary[Mesh, np.ndarray] = WeakKeyDictionary()
_stand_ins: WeakKeyDictionary[Mesh, "StandIns"] = WeakKeyDictionary()


class StandIns(NamedTuple):
    """What is drawn in place of a part, at rest and while it moves; None: the part itself."""

    resting: StandIn | None = None
    moving: StandIn | None = None


def neighbours_of(mesh: Mesh, progress: Progress | None = None) -> np.ndarray:
    """(m, 3) int32, read-only: see `face_neighbours`. Raises Cancelled, and then keeps nothing."""
    known = _neighbours.get(mesh)
    if known is None:
        known = _neighbours[mesh] = frozen(face_neighbours(mesh.faces, progress))
    return known


def shells_of(mesh: Mesh, progress: Progress | None = None) -> Shells:
    """See `find_shells`. Raises Cancelled, and then keeps nothing."""
    known = _shells.get(mesh)
    if known is None and mesh in _cut_from:
        # Cutting leaves the surface where it was: pieces hang together as their faces did.
        whole, face = _cut_from[mesh]
        shells = shells_of(whole, progress)
        known = _shells[mesh] = replace(
            shells,
            shell_of_face=frozen(shells.shell_of_face[face]),
            orientation=frozen(shells.orientation[face]),
            rewound=frozen(shells.rewound[face]),
        )
    if known is None:
        known = _shells[mesh] = find_shells(mesh, neighbours_of(mesh, progress), progress)
    return known


def creases_of(mesh: Mesh) -> np.ndarray:
    """(e, 2) int32 ends of the edges at which the surface, turned outward, bends sharply."""
    known = _creases.get(mesh)
    if known is None:
        orientation = shells_to_draw(mesh).orientation
        normals = mesh.face_normals
        if (orientation < 0).any():
            normals = normals * orientation[:, None]
        known = creases_to_draw(mesh.faces, neighbours_of(mesh), normals, CREASE_DEG)
        _creases[mesh] = frozen(known)
    return known


def stand_ins_of(mesh: Mesh) -> StandIns:
    """Coarser surfaces to draw in place of a large part; none where `get_to_know` made none."""
    if mesh not in _stand_ins and mesh in _cut_from:
        return stand_ins_of(_cut_from[mesh][0])  # pieces lie where their faces did, in their rows
    return _stand_ins.get(mesh, StandIns())


def _make_stand_ins(mesh: Mesh) -> None:
    if mesh.face_count >= LARGE_FACES and stand_ins_of(mesh).moving is None:
        vast = mesh.face_count >= VAST_FACES
        resting = stand_in(mesh, RESTING_FACES) if vast else None
        _stand_ins[mesh] = StandIns(resting, stand_in(mesh, MOVING_FACES))


def shells_to_draw(mesh: Mesh) -> Shells | PlainShells:
    """Orientation and closedness at once: `shells_of`, or what plain numpy found if that is all."""
    first = _first_shells.get(mesh)
    return shells_of(mesh) if mesh in _shells or first is None else first


def get_to_know_pieces(
    mesh: Mesh, whole: Mesh, whole_face: np.ndarray, neighbours: np.ndarray | None = None
) -> None:
    """Remember that the faces of a mesh are pieces of those of another, and their neighbours.

    whole_face : (m,) face of `whole` that each face of `mesh` is a piece of
    neighbours : (m, 3) int32 as of `face_neighbours`, or None where they are not known
    """
    _cut_from[mesh] = (whole, whole_face)
    mesh.take_over_from(whole)
    if neighbours is not None:
        _neighbours[mesh] = frozen(neighbours)


def cut_from(mesh: Mesh) -> tuple[Mesh, np.ndarray] | None:
    """The mesh whose faces were cut in pieces to make this one, and the (m,) face of each piece."""
    return _cut_from.get(mesh)


def get_to_know(mesh: Mesh) -> None:
    """Work out beforehand, on a worker, what drawing and measuring will ask."""
    if not kernels_at_hand() and mesh not in _shells:
        pairs = face_pairs(mesh.faces)
        _neighbours[mesh] = frozen(neighbours_of_pairs(mesh.face_count, pairs))
        points = mesh.vertices_mm - mesh.box_mm.mean(axis=0)
        _first_shells[mesh] = plain_shells(points, mesh.faces, pairs)
    else:
        shells_of(mesh)
    _ = mesh.face_normals, mesh.box_mm, creases_of(mesh)
    _make_stand_ins(mesh)
