"""Undersides and terraces in one pass over all faces, which reads the memory once for both."""

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.face_rows import BLOCK, n_z_of_block
from viewer.geometry.overhang import Undersides, named_undersides, sort_block, underside_limits
from viewer.geometry.prepared_part import PreparedPart
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.smooth_runs import runs_higher_than
from viewer.geometry.terraces import Terraces, add_block, named_terraces
from viewer.geometry.turned_part import TurnedPart


def pass_over_faces(
    part: PreparedPart, turned: TurnedPart, face_classes: np.ndarray, settings: PrintSettings
) -> tuple[Undersides, Terraces]:
    """Overhangs, platform contact and terraces of a turned part, exact for each face.

    face_classes : (m,) uint8
    """
    layer = settings.layer_mm
    higher = runs_higher_than(part.runs, part.points_mm, part.faces, turned.up, layer)
    limits = underside_limits(turned, settings.support_limit_deg)
    kinds, down, counts, steps = _pass(
        part.rows, face_classes, part.faces, part.points_mm, limits, part.runs, higher, layer,
        settings.shown_terrace_mm,
    )  # fmt: skip
    return named_undersides(part, turned, kinds, down), named_terraces(counts, steps)


@compiled
def _pass(rows, face_classes, faces, points, limits, runs, higher, layer, road):
    kinds, down = np.zeros(len(faces), np.uint8), np.zeros((3, 3))
    counts, steps = np.empty(len(faces), np.bool_), np.zeros((3, 4))
    n_z, room = np.empty(BLOCK, np.float32), np.empty(BLOCK, np.float32)
    up = limits.up.astype(np.float32)
    for start in range(0, len(faces), BLOCK):
        stop = min(start + BLOCK, len(faces))
        least = n_z_of_block(rows, start, stop, up[0], up[1], up[2], n_z[: stop - start])
        sort_block(
            rows, start, stop, face_classes, faces, points, limits, n_z, least, room, kinds, down
        )
        add_block(
            rows, start, stop, face_classes, runs, higher, layer, road, n_z, room, counts, steps
        )
    return kinds, down, counts, steps
