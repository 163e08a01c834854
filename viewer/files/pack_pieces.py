"""Test pieces of a pack: those of the job; where it has none, what is worst on class A, cut out."""

from pathlib import Path

import numpy as np

from viewer.document.job_piece import JobPiece
from viewer.document.piece_state import as_own_job, state_of_piece
from viewer.document.state import State
from viewer.errors import RequestProblem
from viewer.files.piece_files import plain_name, write_piece
from viewer.geometry.closed_part import ClosedPart
from viewer.geometry.cut_pieces import cut_out, largest_body
from viewer.geometry.mesh import Mesh
from viewer.geometry.pose_measures import PoseMeasures
from viewer.geometry.prepared_part import PreparedPart
from viewer.geometry.worst_patch import worst_patch
from viewer.progress import Progress
from viewer.words import say

PIECES = {"touch": "test-piece-touch.3mf", "terrace": "test-piece-terraces.3mf"}


def pack_pieces(
    state: State,
    part: PreparedPart,
    closed: ClosedPart,
    measures: PoseMeasures,
    progress: Progress | None = None,
) -> dict[str, State]:
    """By file name, a job for each; none of a kind that class A has nothing of.

    state : of the solid that `part` and `closed` are of, in its pose; measures : of that pose
    Raises Cancelled.
    """
    progress, found = progress or Progress(), {}
    for kind, name in PIECES.items():
        progress.check()
        try:
            patch = worst_patch(
                part, state.face_classes, measures.faces, state.pose, state.settings, kind
            )
        except RequestProblem:  # class A has none of it
            continue
        made = cut_out(closed, patch.planes)
        if made.pieces and made.pieces[0].mesh.face_count:
            title = say("{part}, worst patch", part=state.part.name)
            found[name] = state_of_piece(state, largest_body(made.pieces[0]), title)
    return found


def write_job_pieces(
    state: State, folder: Path, progress: Progress | None = None
) -> dict[str, State | Mesh]:
    """Write the job's own pieces as piece-….3mf; by file name, what is to be read there again.

    Raises CannotWrite, Cancelled.
    """
    progress, found = progress or Progress(), {}
    for number, piece in enumerate(state.pieces, 1):
        name = f"piece-{number}-{plain_name(piece.name)}.3mf"
        write_piece(state, piece, folder / name, progress)
        if len(piece.bodies) == 1:
            found[name] = as_own_job(state, piece)
        else:
            found[name] = _together(piece)
    return found


def _together(piece: JobPiece) -> Mesh:
    laid = piece.laid_mm
    starts = np.cumsum([0, *(len(points) for points in laid[:-1])])
    bodies = zip(piece.bodies, starts, strict=True)
    return Mesh(np.concatenate(laid), np.concatenate([b.mesh.faces + s for b, s in bodies]))
