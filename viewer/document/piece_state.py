"""Pieces of a job made from cuts and specimens, and pieces as jobs of their own."""

import numpy as np

from viewer.document.job_piece import LONGEST_NOTE, JobPiece, PieceBody
from viewer.document.state import Part, State
from viewer.geometry.cut_pieces import Piece
from viewer.geometry.mesh import Mesh
from viewer.geometry.pose import Pose
from viewer.geometry.specimens.catalogue import SPECIMEN_NAMES
from viewer.geometry.specimens.specimen import Specimen
from viewer.words import say


def state_of_piece(state: State, piece: Piece, name: str, pose: Pose | None = None) -> State:
    """The job of a piece, in the pose of the whole unless another is given.

    name : what the piece is called, such as "Trowel grip, piece 1"
    """
    return State.of_part(
        Part(name, piece.mesh),
        piece.classes(state.face_classes),
        pose=state.pose if pose is None else pose,
        settings=state.settings,
    )


def cut_piece(
    state: State, piece: Piece, name: str, kind: str, pose: Pose | None = None, note: str = ""
) -> JobPiece:
    """A piece cut off the part of a job, with its marks, in the pose of the whole or another."""
    body = PieceBody(name, "model", piece.mesh, piece.classes(state.face_classes))
    return JobPiece(name, "cut", kind, (body,), pose or state.pose, note[:LONGEST_NOTE])


def specimen_piece(specimen: Specimen) -> JobPiece:
    """A specimen as a piece of a job, nothing of it marked."""
    bodies = tuple(
        PieceBody(body.name, body.material, body.mesh, np.zeros(body.mesh.face_count, np.uint8))
        for body in specimen.bodies
    )
    name = say(SPECIMEN_NAMES[specimen.kind])
    steps = tuple(dict.fromkeys(round(step.value, 4) for step in specimen.steps))
    return JobPiece(name, "specimen", specimen.kind, bodies, Pose(), specimen.question, steps)


def as_own_job(state: State, piece: JobPiece) -> State:
    """A piece as a job of its own, of its model bodies, with the process and shop of the whole."""
    bodies = [body for body in piece.bodies if body.material == "model"]
    starts = np.cumsum([0, *(len(body.mesh.vertices_mm) for body in bodies)])
    mesh = Mesh(
        np.concatenate([body.mesh.vertices_mm for body in bodies]),
        np.concatenate([b.mesh.faces + n for b, n in zip(bodies, starts, strict=False)]),
    )
    classes = np.concatenate([body.face_classes for body in bodies])
    return State.of_part(
        Part(piece.name, mesh, notes=(piece.note,) if piece.note else ()),
        classes,
        pose=piece.pose,
        settings=state.settings,
        shop_choice=state.shop_choice,
    )
