"""A brush stroke as it grows, one straight piece at a time: what it reached, whole or crossed."""

import numpy as np

from viewer.geometry.face_patches import FacePatches, face_patches
from viewer.geometry.mesh import Mesh
from viewer.geometry.swept_faces import CROSSED, WHOLE, Scratch, scratch_for, sweep


class BrushStroke:
    """The faces that a round brush reaches along surface points, as `stroke_faces` finds them.

    sweeps_mm : (2, 3) from and to of each piece so far
    """

    def __init__(
        self,
        mesh: Mesh,
        neighbours: np.ndarray,
        radius_mm: float,
        patches: FacePatches | None = None,
        scratch: Scratch | None = None,
    ) -> None:
        """Begin without a point.

        neighbours : (m, 3) int32 as of `face_neighbours`; patches : of the mesh, where known
        scratch : of strokes that are over, where it `holds` the mesh
        """
        if patches is None:
            patches = face_patches(mesh.vertices_mm, mesh.faces, neighbours)
        self._patches = patches
        self._scratch = scratch or scratch_for(mesh.face_count, len(patches.balls_mm))
        self._done = np.zeros(len(patches.balls_mm), np.bool_)
        self.mesh, self.neighbours, self.radius_mm = mesh, neighbours, float(radius_mm)
        self.sweeps_mm: list[np.ndarray] = []
        self._reach = np.zeros(mesh.face_count, np.uint8)
        self._last: tuple[int, np.ndarray] | None = None

    def lift(self) -> None:
        """The next point starts a strand of its own, as the pointer has left the part."""
        self._last = None

    def add(self, face: int, point_mm: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        """Draw on to a point (3,) of a face.

        Returns (w,) int32 faces that only now lie in the stroke altogether, and (c,) int32 faces
        that this piece reaches without their lying in any piece altogether.
        """
        point = np.asarray(point_mm, float)
        first, start = (face, point) if self._last is None else self._last
        self._last = (face, point)
        self.sweeps_mm.append(np.stack([start, point]))
        return sweep(
            self.mesh.vertices_mm,
            self.mesh.faces,
            self.neighbours,
            np.array([first, face], np.int64),
            tuple(float(x) for x in start),
            tuple(float(x) for x in point),
            self.radius_mm,
            self._reach,
            self._patches,
            self._done,
            self._scratch,
        )

    @property
    def whole(self) -> np.ndarray:
        """Sorted (w,) faces that lie in one of the pieces altogether."""
        return np.flatnonzero(self._reach == WHOLE)

    @property
    def crossed(self) -> np.ndarray:
        """Sorted (c,) faces reached otherwise; their parts within the pieces belong to it."""
        return np.flatnonzero(self._reach == CROSSED)
