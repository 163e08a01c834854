"""What a stroke under way will mark, laid over the part; the part itself is cut at the end of it.

Pieces are added at the end of an array with room to spare, so that a long stroke is not copied
with every move of the mouse.
"""

import numpy as np
from vtkmodules.vtkCommonDataModel import vtkPlane, vtkPolyData
from vtkmodules.vtkCommonMath import vtkMatrix4x4
from vtkmodules.vtkRenderingCore import vtkRenderer

from viewer.geometry.face_corners import face_corners_mm
from viewer.geometry.mesh import Mesh
from viewer.scene.actors import actor_of, cut_actors, draw_before_surfaces, paint, set_shape
from viewer.scene.arrays import cells_of, points_of
from viewer.scene.palettes import CLASS_COLOURS

MOST_KEPT = 1 << 20  # triangles, 50 MB: making room anew takes as long as a frame


class StrokePreview:
    """Triangles in part coordinates less the part's centre, in the colour of a class."""

    def __init__(self, renderer: vtkRenderer) -> None:
        self._actor = actor_of()
        self._actor.ForceOpaqueOn()
        draw_before_surfaces(self._actor, 1.0)
        self._actor.VisibilityOff()
        renderer.AddActor(self._actor)
        self._corners_mm = np.empty((0, 3, 3), np.float32)
        self._numbers = np.empty((0, 3), np.int32)
        self._count = 0

    def add(
        self,
        mesh: Mesh,
        whole: np.ndarray,
        rim_mm: np.ndarray,
        centre_mm: np.ndarray,
        face_class: int,
    ) -> None:
        """Lay (w,) more faces of the part over it, and (t, 3, 3) triangles along the rim."""
        paint(self._actor, CLASS_COLOURS[face_class])
        start, middle = self._count, self._count + len(whole)
        self._count = middle + len(rim_mm)
        if self._count > len(self._numbers):
            room = max(4096, 2 * self._count)
            corners_mm = np.empty((room, 3, 3), np.float32)
            corners_mm[:start] = self._corners_mm[:start]
            self._corners_mm = corners_mm
            self._numbers = np.arange(3 * room, dtype=np.int32).reshape(-1, 3)
        face_corners_mm(mesh, whole, centre_mm, self._corners_mm[start:middle])
        self._corners_mm[middle : self._count] = rim_mm - centre_mm
        if self._count:
            shape = vtkPolyData()
            shape.SetPoints(points_of(self._corners_mm[: self._count].reshape(-1, 3)))
            shape.SetPolys(cells_of(self._numbers[: self._count]))
            set_shape(self._actor, shape)

    def clear(self) -> None:
        """Show nothing; the room is kept for the next stroke, unless it is large."""
        self._count = 0
        set_shape(self._actor, None)
        if len(self._numbers) > MOST_KEPT:
            self._corners_mm = np.empty((0, 3, 3), np.float32)
            self._numbers = np.empty((0, 3), np.int32)

    def set_matrix(self, matrix: vtkMatrix4x4) -> None:
        """Move with the part."""
        self._actor.SetUserMatrix(matrix)

    def set_cut(self, plane: vtkPlane | None) -> None:
        """Leave out what lies above a plane; None: nothing."""
        cut_actors([self._actor], plane)
