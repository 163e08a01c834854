"""A part as one closed solid that can be cut, whatever small faults it has.

A sound part is taken as it is; overlapping bodies as their union; a faulty one after the harmless
mending steps, and only where those do not close it, after the whole plan.
"""

from dataclasses import dataclass

import numpy as np

from viewer.geometry.edge_faults import find_edge_faults
from viewer.geometry.mend.mended import MendedMesh
from viewer.geometry.mend.plan_mending import mend_safely, plan_mending, take_all
from viewer.geometry.mesh import Mesh
from viewer.geometry.prepared_part import PreparedPart, prepare_part
from viewer.geometry.shells import Shells
from viewer.progress import Progress

_OPEN = "It could not be closed everywhere, so its pieces are open there, too."


@dataclass(frozen=True, eq=False)
class ClosedPart:
    """A solid in part coordinates.

    mesh : outward, bodies that touch or overlap united
    origin_face : (m,) int32, for each face the face of the part whose class it has
    closed : every edge joins two faces
    sentence : what had to be done for it, "" if nothing
    """

    mesh: Mesh
    origin_face: np.ndarray
    closed: bool
    sentence: str


def closed_part(prepared: PreparedPart, progress: Progress | None = None) -> ClosedPart:
    """The solid of a part; always gives one, and says what it had to do. Raises Cancelled."""
    progress = progress or Progress()
    progress.report(0.0, "Looking whether the part is closed")
    if _is_closed(prepared.mesh, prepared.shells):
        return _of_sound(prepared)
    steps, done = mend_safely(prepared.mesh, progress.part(0.1, 0.4))
    words = [step.words for step in steps]
    if not edges_join(done.mesh):
        plan = plan_mending(prepared.mesh, progress=progress.part(0.4, 0.9))
        if plan:
            done = take_all(plan, prepared.mesh)
            words = [step.words for step in plan]
    return _of_mended(done, words, progress.part(0.9, 1.0))


def _of_sound(prepared: PreparedPart) -> ClosedPart:
    """The part itself; the union of its bodies where they touch or overlap."""
    if not prepared.overlapping:
        mesh = prepared.mesh
        return ClosedPart(mesh, np.arange(mesh.face_count, dtype=np.int32), True, "")
    united = prepared.solid_faces is not prepared.faces
    mesh = Mesh(prepared.solid_points_mm + prepared.centre_mm, prepared.solid_faces)
    sentence = "Its bodies overlap or touch; they were united."
    if not united:
        sentence = "Its bodies overlap and could not be united; each is cut by itself."
    return ClosedPart(mesh, prepared.solid_origin, edges_join(mesh), sentence)


def _of_mended(done: MendedMesh, words: list[str], progress: Progress) -> ClosedPart:
    sentence = "It was mended first. " + " ".join(dict.fromkeys(words)) if words else ""
    if not edges_join(done.mesh):
        return ClosedPart(done.mesh, done.origin_face, False, f"{sentence} {_OPEN}".strip())
    sound = _of_sound(prepare_part(done.mesh, progress))
    sentence = f"{sentence} {sound.sentence}".strip()
    origin = done.origin_face[sound.origin_face]
    return ClosedPart(sound.mesh, origin.astype(np.int32), sound.closed, sentence)


def _is_closed(mesh: Mesh, shells: Shells) -> bool:
    """Whether every edge joins two faces the right way, and every body faces outward."""
    return bool(shells.closed.all() and (shells.orientation > 0).all() and edges_join(mesh))


def edges_join(mesh: Mesh) -> bool:
    """Whether every edge of a mesh joins exactly two faces that run along it either way."""
    a, b, c = mesh.faces.T
    if not mesh.face_count or ((a == b) | (b == c) | (c == a)).any():
        return False
    edges = find_edge_faults(mesh.faces)
    return not (len(edges.open) or len(edges.crowded) or len(edges.flipped))
