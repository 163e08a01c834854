"""What there is to see at one place of a fault: a ball to look at, its faces, and their side."""

from dataclasses import dataclass

import numpy as np

from viewer.geometry.face_groups import join_rows
from viewer.geometry.mesh import Mesh


@dataclass(frozen=True, eq=False)
class Sight:
    """A place of a fault as one looks at it.

    centre_mm : (3,) float64 in part coordinates, the place itself
    radius_mm : of a ball about it that holds every corner of the faces
    normal : (3,) float64, mean of the faces' normals, shorter than 1 where they differ
    faces : (k,) int32, at least one
    """

    centre_mm: np.ndarray
    radius_mm: float
    normal: np.ndarray
    faces: np.ndarray


def look_at_place(mesh: Mesh, faces: np.ndarray, point_mm: np.ndarray, size_mm: float) -> Sight:
    """The place of a fault at `point_mm` ((3,) float64), no farther across than `size_mm`.

    faces : (m,) int32, at least one, all faces of the fault

    What belongs to a place hangs together by corners with its nearest face, and has a corner no
    farther from it than its size.
    """
    faces = np.asarray(faces, np.int32)
    corners = mesh.vertices_mm[mesh.faces[faces]]
    nearest = int(np.argmin(np.linalg.norm(corners.mean(axis=1) - point_mm, axis=1)))
    group = join_rows(len(mesh.vertices_mm), mesh.faces[faces])[mesh.faces[faces, 0]]
    away = np.linalg.norm(corners - point_mm, axis=2)
    here = (group == group[nearest]) & (away.min(axis=1) <= max(size_mm, away[nearest].min()))
    return Sight(
        np.asarray(point_mm, float),
        float(away[here].max()),
        np.asarray(mesh.face_normals[faces[here]], float).mean(axis=0),
        faces[here],
    )
