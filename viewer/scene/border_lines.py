"""Lines along the edges where what a lens shows changes: no meaning rests on colour alone.

The same drawing serves the creases of a part with sharp edges, faintly.
"""

import numpy as np
from vtkmodules.vtkCommonCore import vtkPoints
from vtkmodules.vtkCommonDataModel import vtkPlane, vtkPolyData
from vtkmodules.vtkCommonMath import vtkMatrix4x4
from vtkmodules.vtkRenderingCore import vtkRenderer

from viewer.geometry.mesh import Mesh
from viewer.geometry.pose_measures import FaceFields
from viewer.geometry.print_settings import PrintSettings
from viewer.scene.actors import actor_of, cut_actors, draw_before_surfaces, paint, set_shape
from viewer.scene.arrays import cells_of
from viewer.scene.lenses import Lens
from viewer.scene.part_shader import FLAT_FACE_DEG, STRICT_DEG
from viewer.scene.themes import Theme


def region_labels(
    lens: Lens,
    mesh: Mesh,
    matrix: np.ndarray,
    settings: PrintSettings,
    classes: np.ndarray,
    fields: FaceFields | None,
) -> np.ndarray:
    """(m,) uint8, different on both sides of each line the lens draws.

    Classes: the class. Overhang: below the support limit or not. Touch: touched or not. Terraces:
    wider than the road or not. Printed look: no line. Faults: the family of the fault; Deviation:
    farther off than a layer or not; Difference: the class; given in place of the classes. `fields`
    is needed for Touch and Terraces only.
    """
    if lens in (Lens.CLASSES, Lens.FAULTS, Lens.DEVIATION, Lens.DIFFERENCE):
        return classes
    if lens is Lens.PRINTED:  # what is printed has no outline; its texture tells touch
        return np.zeros(mesh.face_count, dtype=np.uint8)
    if lens is Lens.TOUCH:
        return (np.asarray(fields.touch_share) > 0).astype(np.uint8)
    up_z = mesh.face_normals @ matrix[2, :3]
    inclination_deg = np.degrees(np.arccos(np.clip(np.abs(up_z), 0.0, 1.0)))
    if lens is Lens.OVERHANG:
        return ((up_z < 0) & (inclination_deg < settings.support_limit_deg - STRICT_DEG)).astype(
            np.uint8
        )
    widest_deg = np.degrees(np.arctan2(settings.layer_mm, settings.shown_terrace_mm))
    wide = (inclination_deg < widest_deg) & (inclination_deg >= FLAT_FACE_DEG)
    return (wide & np.asarray(fields.terrace_counts)).astype(np.uint8)


MANY = 30_000  # pieces of line


class BorderLines:
    """Lines over the part's own points."""

    def __init__(
        self, renderer: vtkRenderer, theme: Theme, opacity: float = 1.0, width_px: float = 1.5
    ) -> None:
        self._opacity, self._width_px = opacity, width_px
        self._actor = actor_of()
        self._actor.ForceOpaqueOn()  # with the part, so that glass in front of it dims both
        draw_before_surfaces(self._actor, 2.0)
        self._actor.VisibilityOff()
        self._renderer = renderer
        renderer.AddActor(self._actor)
        self._points: vtkPoints | None = None
        self._thin = False
        self._pixel_scale = 1.0
        self.set_theme(theme)

    def draw_last(self) -> None:
        """Move behind all actors added so far in the order of drawing."""
        self._renderer.RemoveActor(self._actor)
        self._renderer.AddActor(self._actor)

    def set_points(self, points: vtkPoints | None) -> None:
        """The points that line ends index; None when there is no part."""
        self._points = points
        self.clear()

    def show(self, ends: np.ndarray) -> None:
        """Draw pieces (e, 2) of point indices."""
        if self._points is None or not len(ends):
            self.clear()
            return
        # Wide lines cost several times as much to draw; so many of them are a texture anyway.
        self._thin = len(ends) > MANY
        self._repaint()
        shape = vtkPolyData()
        shape.SetPoints(self._points)
        shape.SetLines(cells_of(ends))
        set_shape(self._actor, shape)

    def clear(self) -> None:
        """Draw nothing."""
        set_shape(self._actor, None)

    def set_matrix(self, matrix: vtkMatrix4x4) -> None:
        """Move with the part."""
        self._actor.SetUserMatrix(matrix)

    def set_cut(self, plane: vtkPlane | None) -> None:
        """Leave out what lies above a plane; None: nothing."""
        cut_actors([self._actor], plane)

    def set_theme(self, theme: Theme) -> None:
        """Repaint."""
        self._theme = theme
        self._repaint()

    def _repaint(self) -> None:
        width_px = 1.0 if self._thin else self._width_px * self._pixel_scale
        paint(self._actor, self._theme.contour, self._opacity, width_px)

    def set_pixel_scale(self, scale: float) -> None:
        """Screen pixels to a line's pixel."""
        self._pixel_scale = scale
        self.set_theme(self._theme)
