"""Faces that bound a sealed hollow: support under them can never be taken out.

A face of the united surface bounds a sealed hollow if its shell lies inside another closed shell:
it is the wall of a hollow, or a body that floats in one.
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.mesh import Mesh
from viewer.geometry.shells import Shells, find_shells
from viewer.progress import Progress


class SealedFaces(NamedTuple):
    """of_solid_face : (t,) bool, the face of the united surface bounds a sealed hollow
    of_face : (m,) bool, the same for the part's own faces: some piece of the face does
    in_part : (m,) bool, some piece of the face does and another does not
    """

    of_solid_face: np.ndarray
    of_face: np.ndarray
    in_part: np.ndarray


def find_sealed_faces(
    solid_points_mm: np.ndarray,
    solid_faces: np.ndarray,
    solid_origin: np.ndarray,
    face_count: int,
    shells: Shells | None,
    progress: Progress | None = None,
) -> SealedFaces:
    """`SealedFaces` of a part of `face_count` faces.

    solid_points_mm, solid_faces : (p, 3) float64 and (t, 3) int32, the united surface
    solid_origin : (t,) int32, face of the part that each of solid_faces is a piece of
    shells : of the united surface where they are known, otherwise they are found here
    Raises Cancelled through `progress`.
    """
    progress = progress or Progress()
    if shells is None:
        shells = find_shells(Mesh(solid_points_mm, solid_faces), progress=progress)
    sealed = (shells.depth > 0)[shells.shell_of_face]
    if not sealed.any():
        nothing = np.zeros(face_count, bool)
        return SealedFaces(sealed, nothing, nothing)
    progress.check()
    some = np.bincount(solid_origin, sealed, face_count) > 0
    progress.check()
    other = np.bincount(solid_origin, ~sealed, face_count) > 0
    return SealedFaces(sealed, some, some & other)
