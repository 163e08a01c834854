"""Several pieces side by side on one platform, as one 3MF that can be printed as it is."""

from collections.abc import Sequence
from pathlib import Path

import numpy as np

from viewer.document.job_piece import JobPiece
from viewer.errors import CannotWrite
from viewer.files.atomic_write import replacing
from viewer.files.threemf_objects import PrintObject, write_objects
from viewer.files.threemf_write import separate_corners
from viewer.progress import Progress
from viewer.shop.packing import Placed
from viewer.words import say

# Okabe & Ito: bluish green for the model, orange for the other material.
_COLOURS = {"model": (0, 158, 115), "support": (230, 159, 0)}


def write_platform(
    pieces: Sequence[JobPiece],
    places: Sequence[Placed],
    path: Path,
    progress: Progress | None = None,
) -> None:
    """Write pieces where they stand, each body an object in the colour of its material.

    places : from `pack`, for the pieces in their order. Raises CannotWrite, Cancelled.
    """
    progress = progress or Progress()
    if not pieces or len(pieces) != len(places):
        raise CannotWrite(say("There is nothing to put on a platform; make pieces first."))
    objects = []
    for piece, place in zip(pieces, places, strict=True):
        for body, vertices in zip(piece.bodies, placed_vertices_mm(piece, place), strict=True):
            points, faces = separate_corners(vertices, body.mesh.faces)
            name = piece.name if len(piece.bodies) == 1 else f"{piece.name}, {body.name}"
            objects.append(
                PrintObject(name, "model", points, faces, colour=_COLOURS[body.material])
            )
        progress.check()
    with replacing(path, progress) as temporary:
        write_objects(temporary, objects, progress)


def placed_vertices_mm(piece: JobPiece, place: Placed) -> list[np.ndarray]:
    """(n, 3) vertices of each body, moved to its place on a platform."""
    laid = piece.laid_mm
    both = np.concatenate(laid)
    middle = 0.5 * (both.min(axis=0) + both.max(axis=0))
    turn = np.array([[0.0, -1.0], [1.0, 0.0]]) if place.turned else np.eye(2)
    moved = []
    for vertices in laid:
        plan = (vertices[:, :2] - middle[:2]) @ turn.T + (place.x_mm, place.y_mm)
        moved.append(np.column_stack([plan, vertices[:, 2]]))
    return moved
