"""A triangle mesh as two read-only arrays, and what follows from them without a pose."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np


def frozen(array: np.ndarray) -> np.ndarray:
    """A C-contiguous, read-only view or copy of `array`."""
    array = np.ascontiguousarray(array)
    if array.flags.writeable:
        array = array.view()
        array.flags.writeable = False
    return array


@dataclass(frozen=True, eq=False)
class Mesh:
    """Indexed triangles in file order.

    vertices_mm : (n, 3) float64, finite; equal positions are merged into one vertex by the readers
    faces : (m, 3) int32, indices into vertices_mm, anticlockwise seen from outside

    No face is ever dropped or reordered here: a face's index is its place in the file, which is
    what marks refer to. Degenerate faces stay and count as zero area.
    """

    vertices_mm: np.ndarray
    faces: np.ndarray

    def __post_init__(self) -> None:
        object.__setattr__(self, "vertices_mm", frozen(np.asarray(self.vertices_mm, np.float64)))
        object.__setattr__(self, "faces", frozen(np.asarray(self.faces, np.int32)))

    @property
    def face_count(self) -> int:
        """Number of triangles."""
        return len(self.faces)

    @cached_property
    def corners_mm(self) -> np.ndarray:
        """(m, 3, 3) float64: the three corners of each face."""
        return frozen(self.vertices_mm[self.faces])

    @cached_property
    def _area_vectors_mm2(self) -> np.ndarray:
        # One row of numbers for each axis: twice as quick as a cross product of (m, 3) arrays.
        rows = np.ascontiguousarray(self.vertices_mm.T)
        a, b, c = np.ascontiguousarray(self.faces.T, np.intp)
        ux, uy, uz, vx, vy, vz = (row[end] - row[a] for end in (b, c) for row in rows)
        vectors = np.empty((len(self.faces), 3))
        vectors[:, 0] = uy * vz - uz * vy
        vectors[:, 1] = uz * vx - ux * vz
        vectors[:, 2] = ux * vy - uy * vx
        vectors *= 0.5
        return frozen(vectors)

    @cached_property
    def face_areas_mm2(self) -> np.ndarray:
        """(m,) float64: true area of each face."""
        x, y, z = self._area_vectors_mm2.T
        return frozen(np.sqrt(x * x + y * y + z * z))

    @cached_property
    def face_normals(self) -> np.ndarray:
        """(m, 3) float64: unit normals by winding; zero for degenerate faces."""
        area = self.face_areas_mm2
        with np.errstate(invalid="ignore", divide="ignore"):
            normals = self._area_vectors_mm2 / area[:, None]
        normals[~(area > 0)] = 0.0
        return frozen(normals)

    @cached_property
    def signed_volume_mm3(self) -> float:
        """Volume enclosed by the winding (divergence theorem), about the box centre."""
        if not len(self.faces):
            return 0.0
        centre = self.box_mm.mean(axis=0)
        a = self.vertices_mm[self.faces[:, 0]] - centre
        return float(np.einsum("ij,ij->", a, self._area_vectors_mm2) / 3.0)

    @cached_property
    def box_mm(self) -> np.ndarray:
        """(2, 3) float64: lowest and highest corner over the vertices that faces use."""
        if not len(self.faces):
            return frozen(np.zeros((2, 3)))
        used = np.zeros(len(self.vertices_mm), bool)
        used[self.faces.ravel()] = True
        rows = np.ascontiguousarray(self.vertices_mm[used].T)
        return frozen(np.stack([rows.min(axis=1), rows.max(axis=1)]))
