"""What every mending step gives back: a new mesh, and the old face that each new face follows."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from viewer.geometry.mesh import Mesh, frozen


@dataclass(frozen=True, eq=False)
class MendedMesh:
    """A mesh after a step.

    vertices_mm : (n, 3) float64; faces : (m, 3) int32
    origin_face : (m,) int32, for each face the face of the mesh before whose class it inherits:
        itself, what it was cut from, or the nearest one where the material is new
    """

    vertices_mm: np.ndarray
    faces: np.ndarray
    origin_face: np.ndarray

    def __post_init__(self) -> None:
        object.__setattr__(self, "vertices_mm", frozen(np.asarray(self.vertices_mm, np.float64)))
        object.__setattr__(self, "faces", frozen(np.asarray(self.faces, np.int32)))
        object.__setattr__(self, "origin_face", frozen(np.asarray(self.origin_face, np.int32)))

    @cached_property
    def mesh(self) -> Mesh:
        """The same as a Mesh, always the same one, so that what is known of it is kept."""
        return Mesh(self.vertices_mm, self.faces)


def unchanged(mesh: Mesh) -> MendedMesh:
    """A mesh that no step has touched."""
    return _of(mesh, np.arange(mesh.face_count, dtype=np.int32))


def kept_faces(mesh: Mesh, kept: np.ndarray) -> MendedMesh:
    """A mesh of the faces `kept` ((m,) bool) only."""
    origin = np.flatnonzero(kept)
    return without_unused_vertices(mesh.vertices_mm, mesh.faces[origin], origin)


def without_unused_vertices(
    vertices_mm: np.ndarray, faces: np.ndarray, origin_face: np.ndarray
) -> MendedMesh:
    """The mesh with only those vertices that a face uses, in their old order."""
    used = np.zeros(len(vertices_mm), bool)
    used[faces] = True
    if used.all():
        return MendedMesh(vertices_mm, faces, origin_face)
    new_index = np.cumsum(used, dtype=np.int32) - 1
    return MendedMesh(vertices_mm[used], new_index[faces], origin_face)


def after(first: MendedMesh, second: MendedMesh) -> MendedMesh:
    """Two steps as one: `second` was done to the outcome of `first`."""
    return _of(second.mesh, first.origin_face[second.origin_face])


def _of(mesh: Mesh, origin_face: np.ndarray) -> MendedMesh:
    """With that very mesh as its `mesh`, since neighbours and shells are remembered by mesh."""
    made = MendedMesh(mesh.vertices_mm, mesh.faces, origin_face)
    made.__dict__["mesh"] = mesh  # where cached_property keeps it
    return made


def carry_classes(face_classes: np.ndarray, origin_face: np.ndarray) -> np.ndarray:
    """(m,) uint8: the class of each face of the mended mesh, from the classes before."""
    return frozen(np.asarray(face_classes, np.uint8)[origin_face])
