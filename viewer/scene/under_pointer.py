"""What the pointer meets, and what is drawn under it: the scene's side of the tools."""

import numpy as np
from vtkmodules.vtkRenderingCore import vtkRenderer

from viewer.geometry.mesh import Mesh
from viewer.scene.file_faces import FileFaces
from viewer.scene.hover_marks import HoverMarks
from viewer.scene.part_actor import PartActor
from viewer.scene.picking import PickLocator, ring_on_surface
from viewer.scene.rings import Rings
from viewer.scene.stroke_preview import StrokePreview

Ray = tuple[np.ndarray, np.ndarray]


class UnderPointer:
    """The part of `PartScene` that tools talk to; the scene owns all that is named here."""

    _renderer: vtkRenderer
    _part: PartActor | None
    _mesh: Mesh | None
    _file: FileFaces | None
    _locator: PickLocator | None
    _neighbours: np.ndarray | None
    _hover: HoverMarks
    _stroke: StrokePreview
    _rings: Rings

    def display_ray(self, x_px: float, y_px: float) -> Ray:
        """Line of sight through a display point: origin (on the near plane) and unit direction.

        Pixels are VTK's: device pixels from the lower left. Both results are in the posed frame.
        """
        ends = []
        for depth in (0.0, 1.0):
            self._renderer.SetDisplayPoint(x_px, y_px, depth)
            self._renderer.DisplayToWorld()
            x, y, z, w = self._renderer.GetWorldPoint()
            ends.append(np.array([x, y, z]) / w)
        direction = ends[1] - ends[0]
        return ends[0], direction / np.linalg.norm(direction)

    def pick(self, origin_mm: np.ndarray, direction: np.ndarray) -> tuple[int, np.ndarray] | None:
        """First face that a ray in the posed frame meets, and where, in part coordinates."""
        if self._locator is None:
            return None
        back = np.linalg.inv(self._centred_matrix())
        origin = back[:3, :3] @ np.asarray(origin_mm, float) + back[:3, 3]
        hit = self._locator.first_hit(origin, back[:3, :3] @ np.asarray(direction, float))
        if hit is None:
            return None
        face, point = self._part.face_at(hit[0]), hit[1] + self._part.centre_mm
        return self._file.drawn_under(self._mesh, self._neighbours, face, point), point

    def show_brush_ring(self, point_mm: np.ndarray, normal: np.ndarray, radius_mm: float) -> None:
        """Draw the brush as a ring that follows the surface; all in part coordinates."""
        if self._locator is None:
            return
        centre = np.asarray(point_mm, float) - self._part.centre_mm
        self._hover.show_line("ring", ring_on_surface(self._locator, centre, normal, radius_mm))

    def hide_brush_ring(self) -> None:
        """Hide the brush."""
        self._hover.show_line("ring", None)

    def preview_faces(self, face_indices: np.ndarray | None) -> None:
        """Tint and outline the faces a click would mark; None for none."""
        if self._mesh is None or face_indices is None or not len(face_indices):
            self._hover.hide_faces()
            return
        faces = np.asarray(face_indices, np.int64)
        self._hover.show_faces_of(self._mesh, self._neighbours, faces, self._part.centre_mm)

    def preview_pieces(self, mesh: Mesh, neighbours: np.ndarray, faces: np.ndarray) -> None:
        """The same for (k,) faces of a mesh of the same part that is not drawn."""
        if self._part is not None and len(faces):
            self._hover.show_faces_of(mesh, neighbours, faces, self._part.centre_mm)
        else:
            self.preview_faces(None)

    def show_new(self, mesh: Mesh | None, neighbours: np.ndarray, faces: np.ndarray) -> None:
        """Outline (k,) faces of a mesh of the part until told otherwise; None for none."""
        if self._part is None or mesh is None or not len(faces):
            self._hover.hide_faces(new=True)
        else:
            self._hover.show_faces_of(mesh, neighbours, faces, self._part.centre_mm, new=True)

    def preview_stroke(
        self, mesh: Mesh, whole: np.ndarray, rim_mm: np.ndarray, face_class: int
    ) -> None:
        """Lay (w,) more faces of a mesh of the part over it in the colour of a class.

        rim_mm : (t, 3, 3) triangles where the rim crosses faces
        """
        if self._part is not None:
            self._stroke.add(mesh, whole, rim_mm, self._part.centre_mm, face_class)

    def end_stroke_preview(self) -> None:
        """Lay nothing of a stroke over the part any more."""
        self._stroke.clear()

    def show_hull_face(self, polygon_mm: np.ndarray | None) -> None:
        """Outline a flat face of the part's hull, (k, 3) in part coordinates; None for none."""
        if self._part is None or polygon_mm is None:
            self._hover.show_hull(None)
            return
        self._hover.show_hull(np.asarray(polygon_mm, float) - self._part.centre_mm)

    def show_rings(self, shown: bool) -> None:
        """Show or hide the rings the part is turned by."""
        self._rings.show(bool(shown) and self._part is not None)
        self._renderer.ResetCameraClippingRange()

    def hit_ring(self, x_px: float, y_px: float) -> int | None:
        """Axis (0 x, 1 y, 2 z) of the ring near a display point, or None."""
        return self._rings.hit(x_px, y_px)

    def highlight_ring(self, axis: int | None) -> None:
        """Draw one ring stronger, or none."""
        self._rings.highlight(axis)

    def ring_centre_mm(self) -> np.ndarray:
        """(3,) middle of the rings in the posed frame."""
        return self._rings.centre_mm.copy()
