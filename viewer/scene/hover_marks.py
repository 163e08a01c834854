"""What the pointer is about to do, drawn on the part: brush ring, faces of a click, hull face."""

import numpy as np
from vtkmodules.vtkCommonDataModel import vtkPolyData
from vtkmodules.vtkCommonMath import vtkMatrix4x4
from vtkmodules.vtkRenderingCore import vtkRenderer

from viewer.scene.actors import actor_of, draw_before_surfaces, paint, set_shape
from viewer.scene.arrays import lines, loop, surface
from viewer.scene.themes import Theme

RING_POINTS = 72


class HoverMarks:
    """Marks in part coordinates less the part's centre; they move with the part."""

    def __init__(self, renderer: vtkRenderer, theme: Theme) -> None:
        # A light line under a dark one (or the reverse) shows on every colour.
        self._halos = {name: actor_of() for name in ("ring", "edge", "hull")}
        self._lines = {name: actor_of() for name in ("ring", "edge", "hull")}
        self._fills = {name: actor_of() for name in ("faces", "hull")}
        for steps, actors in ((1.5, self._fills), (3.0, self._halos), (3.5, self._lines)):
            for actor in actors.values():
                draw_before_surfaces(actor, steps)
                actor.VisibilityOff()
                renderer.AddActor(actor)
        self._pixel_scale = 1.0
        self.set_theme(theme)

    def _all(self) -> list:
        return [*self._fills.values(), *self._halos.values(), *self._lines.values()]

    def set_matrix(self, matrix: vtkMatrix4x4) -> None:
        """Move all marks with the part."""
        for actor in self._all():
            actor.SetUserMatrix(matrix)

    def show_line(self, name: str, data: vtkPolyData | None) -> None:
        """Set the line "ring", "edge" or "hull"; None hides it."""
        set_shape(self._halos[name], data)
        set_shape(self._lines[name], data)

    def show_faces(
        self, positions_mm: np.ndarray | None, triangles: np.ndarray, ends: np.ndarray
    ) -> None:
        """Tint triangles (k, 3) of points and outline them along `ends` (e, 2); None hides both."""
        if positions_mm is None:
            set_shape(self._fills["faces"], None)
            self.show_line("edge", None)
            return
        set_shape(self._fills["faces"], surface(positions_mm, triangles))
        self.show_line("edge", lines(positions_mm, ends) if len(ends) else None)

    def show_hull(self, polygon_mm: np.ndarray | None) -> None:
        """Outline and tint a flat polygon (k, 3)."""
        if polygon_mm is None:
            set_shape(self._fills["hull"], None)
            self.show_line("hull", None)
            return
        corners = np.arange(len(polygon_mm))[None, :]
        set_shape(self._fills["hull"], surface(polygon_mm, corners))
        self.show_line("hull", loop(polygon_mm))

    def hide(self) -> None:
        """Hide every mark."""
        for actor in self._all():
            set_shape(actor, None)

    def set_theme(self, theme: Theme) -> None:
        """Repaint."""
        self._theme = theme
        for actor in self._fills.values():
            paint(actor, theme.accent, 0.30)
        for name, actor in self._halos.items():
            paint(actor, theme.halo, 1.0, (4.5 if name == "ring" else 4.0) * self._pixel_scale)
        for name, actor in self._lines.items():
            paint(actor, theme.accent, 1.0, (2.0 if name == "ring" else 1.8) * self._pixel_scale)

    def set_pixel_scale(self, scale: float) -> None:
        """Screen pixels to a line's pixel."""
        self._pixel_scale = scale
        self.set_theme(self._theme)
