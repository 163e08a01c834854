"""Outlines on the part: brush ring, faces of a click, hull face, what a newer version brought."""

import numpy as np
from vtkmodules.vtkCommonDataModel import vtkPolyData
from vtkmodules.vtkCommonMath import vtkMatrix4x4
from vtkmodules.vtkRenderingCore import vtkRenderer

from viewer.geometry.mesh import Mesh
from viewer.scene.actors import actor_of, draw_before_surfaces, paint, set_shape
from viewer.scene.arrays import lines, loop, surface
from viewer.scene.palettes import YELLOW
from viewer.scene.themes import Theme

RING_POINTS = 72
SHARP = 0.87  # cosine of some 30°: edges drawn within what is new, as a whole body has no border


class HoverMarks:
    """Marks in part coordinates less the part's centre; they move with the part."""

    def __init__(self, renderer: vtkRenderer, theme: Theme) -> None:
        # A light line under a dark one (or the reverse) shows on every colour.
        self._halos = {name: actor_of() for name in ("ring", "edge", "hull", "new")}
        self._lines = {name: actor_of() for name in ("ring", "edge", "hull", "new")}
        self._fills = {name: actor_of() for name in ("faces", "hull", "new")}
        for steps, actors in ((1.5, self._fills), (3.0, self._halos), (4.0, self._lines)):
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
        """Set the line "ring", "edge", "hull" or "new"; None hides it."""
        set_shape(self._halos[name], data)
        set_shape(self._lines[name], data)

    def hide_faces(self, new: bool = False) -> None:
        """Take back `show_faces_of`."""
        set_shape(self._fills["new" if new else "faces"], None)
        self.show_line("new" if new else "edge", None)

    def show_faces_of(
        self,
        mesh: Mesh,
        neighbours: np.ndarray,
        faces: np.ndarray,
        centre_mm: np.ndarray,
        new: bool = False,
    ) -> None:
        """Tint and outline faces (k,) of a mesh; `new` beside what is previewed."""
        inside = np.zeros(mesh.face_count, bool)
        inside[faces] = True
        around, corners = neighbours[faces], mesh.faces[faces]
        beyond = (around < 0) | ~inside[around]  # sides with nothing marked beyond
        if new:
            normals = mesh.face_normals
            beyond |= np.einsum("fx,fkx->fk", normals[faces], normals[around]) < SHARP
        row, k = np.nonzero(beyond)
        ends = np.stack([corners[row, k], corners[row, (k + 1) % 3]], axis=1)
        used, triangles = np.unique(corners, return_inverse=True)
        positions = mesh.vertices_mm[used] - centre_mm
        ends = np.searchsorted(used, ends)
        fill, line = ("new", "new") if new else ("faces", "edge")
        set_shape(self._fills[fill], surface(positions, triangles.reshape(-1, 3)))
        self.show_line(line, lines(positions, ends) if len(ends) else None)

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
        for name, actor in self._fills.items():
            # Tinted in the accent, what is new would be taken for class B.
            paint(actor, *((YELLOW, 0.55) if name == "new" else (theme.accent, 0.30)))
        for name, actor in self._halos.items():
            paint(actor, theme.halo, 1.0, (4.5 if name == "ring" else 4.0) * self._pixel_scale)
        for name, actor in self._lines.items():
            paint(actor, theme.accent, 1.0, (2.0 if name == "ring" else 1.8) * self._pixel_scale)

    def set_pixel_scale(self, scale: float) -> None:
        """Screen pixels to a line's pixel."""
        self._pixel_scale = scale
        self.set_theme(self._theme)
