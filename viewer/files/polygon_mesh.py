"""From polygons as a text or PLY reader collects them to a RawMesh of triangles."""

from pathlib import Path

import numpy as np

from viewer.errors import UnreadableFile
from viewer.files.polygons import split_polygons
from viewer.files.raw_mesh import RawMesh
from viewer.progress import Progress
from viewer.words import say


def raw_mesh_of_polygons(
    path: Path,
    positions: np.ndarray,
    starts: np.ndarray,
    corners: np.ndarray,
    progress: Progress,
    notes: tuple[str, ...] = (),
) -> RawMesh:
    """Check the corner indices and split the polygons.

    positions : (n, 3) float; starts : (k + 1,) int64; corners : (c,) integer, see split_polygons
    Raises UnreadableFile where a polygon names a corner that the file does not have, Cancelled.
    """
    lowest = int(corners.min()) if len(corners) else 0
    highest = int(corners.max()) if len(corners) else 0
    if lowest < 0 or highest >= len(positions) > 0:
        wrong = (corners < 0) | (corners >= len(positions))
        polygon = int(np.searchsorted(starts, np.flatnonzero(wrong)[0], side="right"))
        raise UnreadableFile(
            say(
                "{name} is damaged: its face {polygon:,} names a corner that the file "
                "does not have. Export it again.",
                name=path.name,
                polygon=polygon,
            )
        )
    if len(corners) and not len(positions):
        raise UnreadableFile(
            say("{name} has faces but no corners. Export it again.", name=path.name)
        )
    short = int(np.count_nonzero(np.diff(starts) < 3))
    if short:
        faces_have = say("face has") if short == 1 else say("faces have")
        notes = (
            *notes,
            say(
                "{short:,} {faces_have} fewer than three corners and no surface.",
                short=short,
                faces_have=faces_have,
            ),
        )
    faces, polygon_of_face = split_polygons(
        positions.astype(np.float64, copy=False), starts, corners.astype(np.int32), progress
    )
    return RawMesh(positions, faces, polygon_of_face, notes=notes)
