"""The pieces that stand beside the part on the platform, as layers that the shop reckons with."""

import weakref

import numpy as np

from viewer.document.job_piece import JobPiece
from viewer.document.state import State
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.print_settings import PrintSettings
from viewer.progress import Progress
from viewer.shop.beside import BesidePiece
from viewer.shop.job_layers import JobLayers, layers_of
from viewer.shop.piece_numbers import LaidBody, layers_of_bodies

# Of the last settings asked for: a piece is measured once, not each time the part was turned.
_known: "weakref.WeakKeyDictionary[JobPiece, tuple[PrintSettings, JobLayers]]"
_known = weakref.WeakKeyDictionary()


def pieces_beside(state: State) -> tuple[JobPiece, ...]:
    """The pieces of the job that are to stand beside the part, in the order of the job."""
    return tuple(piece for piece in state.pieces if piece.name in state.shop_choice.beside)


def reckoned_beside(state: State, progress: Progress | None = None) -> tuple[BesidePiece, ...]:
    """The same as what the shop reckons with. Raises Cancelled."""
    return tuple(
        BesidePiece(piece.name, _layers(piece, state.settings, progress), piece.source != "cut")
        for piece in pieces_beside(state)
    )


def _layers(piece: JobPiece, settings: PrintSettings, progress: Progress | None) -> JobLayers:
    known = _known.get(piece)
    if known is None or known[0] != settings:
        known = _known[piece] = settings, _measured(piece, settings, progress or Progress())
    return known[1]


def _measured(piece: JobPiece, settings: PrintSettings, progress: Progress) -> JobLayers:
    if piece.source != "cut":
        return layers_of_bodies(laid_bodies(piece), settings.layer_mm, progress)
    body = piece.bodies[0]
    prepared = prepare_part(body.mesh, progress.part(0.0, 0.4))
    classes = np.asarray(body.face_classes)
    return layers_of(
        measure_pose(prepared, classes, piece.pose, settings, progress=progress.part(0.4, 1.0))
    )


def laid_bodies(piece: JobPiece) -> list[LaidBody]:
    """The bodies of a piece as they stand."""
    return [
        LaidBody(vertices, body.mesh.faces, body.material)
        for vertices, body in zip(piece.laid_mm, piece.bodies, strict=True)
    ]
