"""A triangle mesh as two read-only arrays, and what follows from them without a pose."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from viewer.progress import Progress

_FACES_A_GO = 1 << 16  # looked at in some 8 ms


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

    def __setstate__(self, state: dict) -> None:
        """Arrays that come from another process may be written to; here none may."""
        for name, value in state.items():
            kept = frozen(value) if isinstance(value, np.ndarray) else value
            object.__setattr__(self, name, kept)

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
        self.know_areas()
        return self.__dict__["_area_vectors_mm2"]

    @cached_property
    def face_areas_mm2(self) -> np.ndarray:
        """(m,) float64: true area of each face."""
        self.know_areas()
        return self.__dict__["face_areas_mm2"]

    @cached_property
    def face_normals(self) -> np.ndarray:
        """(m, 3) float64: unit normals by winding; zero for degenerate faces."""
        return self._unit_normals(Progress())

    def know_areas(self, progress: Progress | None = None, normals: bool = False) -> None:
        """Work out areas, and normals if wanted, in short steps; raises Cancelled and keeps none.

        Whoever asks for them afterwards gets them at once.
        """
        progress = progress or Progress()
        known = self.__dict__  # where cached properties live
        if "face_areas_mm2" not in known:
            vectors, areas = self._vectors_and_areas(progress)
            known["_area_vectors_mm2"], known["face_areas_mm2"] = vectors, areas
        if normals and "face_normals" not in known:
            known["face_normals"] = self._unit_normals(progress)

    def _vectors_and_areas(self, progress: Progress) -> tuple[np.ndarray, np.ndarray]:
        # One row of numbers for each axis: twice as quick as a cross product of (m, 3) arrays.
        rows = np.ascontiguousarray(self.vertices_mm.T)
        progress.check()
        vectors, areas = np.empty(self.faces.shape), np.empty(len(self.faces))
        for first in range(0, len(areas), _FACES_A_GO):
            some = slice(first, first + _FACES_A_GO)
            a, b, c = np.ascontiguousarray(self.faces[some].T, np.intp)
            ux, uy, uz, vx, vy, vz = (row[end] - row[a] for end in (b, c) for row in rows)
            x, y, z = uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx
            for axis, values in enumerate((x, y, z)):
                values *= 0.5
                vectors[some, axis] = values
            areas[some] = np.sqrt(x * x + y * y + z * z)
            progress.check()
        return frozen(vectors), frozen(areas)

    def _unit_normals(self, progress: Progress) -> np.ndarray:
        vectors, areas = self._area_vectors_mm2, self.face_areas_mm2
        normals = np.empty(vectors.shape)
        for first in range(0, len(areas), _FACES_A_GO):
            some = slice(first, first + _FACES_A_GO)
            with np.errstate(invalid="ignore", divide="ignore"):
                normals[some] = vectors[some] / areas[some, None]
            normals[some][~(areas[some] > 0)] = 0.0
            progress.check()
        return frozen(normals)

    def take_over_from(self, whole: "Mesh") -> None:
        """Take over what is known of a mesh whose faces this one holds, or pieces in their rows.

        Faces that are the same are not worked out again; their vertices come first in both.
        """
        count = whole.face_count
        differs = np.logical_or.reduce([*(self.faces[:count] != whole.faces).T])
        rows = np.concatenate([np.flatnonzero(differs), np.arange(count, self.face_count)])
        corners = self.vertices_mm[self.faces[rows]]
        others = Mesh(corners.reshape(-1, 3), np.arange(3 * len(rows)).reshape(-1, 3))
        for name in ("_area_vectors_mm2", "face_areas_mm2", "face_normals"):
            if name in whole.__dict__:
                known = whole.__dict__[name]
                taken = np.empty((self.face_count, *known.shape[1:]))
                taken[:count] = known
                taken[rows] = getattr(others, name)
                self.__dict__[name] = frozen(taken)
        if "box_mm" in whole.__dict__:  # midpoints of edges lie within
            self.__dict__["box_mm"] = whole.box_mm

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
