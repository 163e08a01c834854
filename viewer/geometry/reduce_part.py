"""A part of many millions of faces with fewer of them, its marks and their borders kept."""

from typing import NamedTuple

import numpy as np

from viewer.geometry.mesh import Mesh
from viewer.geometry.simplify_solid import simplify_to
from viewer.geometry.unite_solids import Solid
from viewer.progress import Progress

WITHIN_MM = 0.02  # a tenth of a usual layer
REDUCED_FACES = 2_000_000
# Each tolerance is half as much again as the one before and adds to what those have moved, so that
# all of them together come to three times the last.
_LAST_MM, _FIRST_MM = WITHIN_MM / 3.0, 0.0005


class Reduced(NamedTuple):
    """mesh, and the (m,) uint8 class of each of its faces."""

    mesh: Mesh
    face_classes: np.ndarray


def reduce_part(
    mesh: Mesh, face_classes: np.ndarray, most_faces: int, progress: Progress | None = None
) -> Reduced | None:
    """The part with at most so many faces, no place of its surface moved by more than `WITHIN_MM`.

    face_classes : (m,) uint8; faces of different classes are never joined
    None if it is not closed, or cannot be had so. Raises Cancelled; ShowsideError when the process
    in which it is done dies.
    """
    solid = Solid(
        np.array(mesh.vertices_mm, order="C"),  # copies: the modeller takes no frozen array
        np.array(mesh.faces, np.uint64, order="C"),
        np.array(face_classes, np.uint64),
    )
    made = simplify_to(solid, most_faces, _FIRST_MM, _LAST_MM, progress)
    if made is None:
        return None
    return Reduced(Mesh(made.points_mm, made.faces), np.asarray(made.origin, np.uint8))
