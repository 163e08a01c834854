"""A planned cut in the scene: the box with handles to drag, cut faces, and pieces beside the part.

Everything is in the posed frame. What the part hides of the cut stays faintly visible, since most
of it lies inside.
"""

from typing import NamedTuple

import numpy as np
from vtkmodules.vtkCommonDataModel import vtkPolyData
from vtkmodules.vtkRenderingCore import vtkActor, vtkRenderer

from viewer.geometry.cut_lines import CutShape
from viewer.scene.actors import actor_of, draw_before_surfaces, paint, set_shape
from viewer.scene.arrays import cells_of, lines, points_of, surface
from viewer.scene.palettes import ORANGE, PRINT_MATERIAL
from viewer.scene.themes import Theme

REACH_PX = 14.0  # how near the pointer must come to a handle
HANDLE_PX, HIGHLIGHT_PX = 12.0, 18.0
GHOST = 0.35  # opacity of what is hidden
FILL = 0.35
_EDGES = [(0, 1), (1, 3), (3, 2), (2, 0), (4, 5), (5, 7), (7, 6), (6, 4), (0, 4), (1, 5), (2, 6),
          (3, 7)]  # fmt: skip


class Handle(NamedTuple):
    """Something to drag: a side of the box (axis 0 to 2), or the whole of it (axis −1)."""

    axis: int
    high: bool
    at_mm: np.ndarray


class BesideBody(NamedTuple):
    """A body to draw beside the part: where it stands, and in which material."""

    points_mm: np.ndarray
    faces: np.ndarray
    material: str


class CutView:
    """Lines, handles, cut faces and bodies in a renderer."""

    def __init__(self, renderer: vtkRenderer, theme: Theme) -> None:
        self._renderer = renderer
        self._box, self._box_ghost = actor_of(), actor_of()
        self._halo, self._edges, self._edges_ghost = actor_of(), actor_of(), actor_of()
        self._fill = actor_of()
        self._dots, self._dot = actor_of(), actor_of()
        self._beside = {material: actor_of() for material in ("model", "support")}
        for ghost in (self._box_ghost, self._edges_ghost, self._fill):
            draw_before_surfaces(ghost, 900.0)
            ghost.ForceOpaqueOff()
        for near, actor in ((1.5, self._halo), (2.5, self._edges), (2.5, self._box)):
            draw_before_surfaces(actor, near)
        for dots in (self._dots, self._dot):
            draw_before_surfaces(dots, 950.0)
            dots.GetProperty().RenderPointsAsSpheresOn()
        for body in self._beside.values():
            body.GetProperty().LightingOn()
            body.GetProperty().SetInterpolationToFlat()
        for actor in self._all():
            set_shape(actor, None)
            renderer.AddActor(actor)
        self.handles: tuple[Handle, ...] = ()
        self._chosen: int | None = None
        self.beside_mm = np.zeros((0, 3))
        self._pixel_scale = 1.0
        self.set_theme(theme)

    def _all(self) -> list[vtkActor]:
        lines_ = (self._box, self._box_ghost, self._halo, self._edges, self._edges_ghost)
        return [*self._beside.values(), self._fill, *lines_, self._dots, self._dot]

    @property
    def cut_shown(self) -> bool:
        """Whether cut faces are drawn."""
        return bool(self._fill.GetVisibility())

    def show_box(
        self, corners_mm: np.ndarray | None, open_quads_mm: np.ndarray, handles: tuple[Handle, ...]
    ) -> None:
        """Draw a box by its (8, 3) corners, x quickest, or planes as (q, 4, 3); and handles."""
        pieces = []
        if corners_mm is not None:
            pieces.append(corners_mm[np.array(_EDGES)])
        pieces += [np.stack([quad, np.roll(quad, -1, axis=0)], axis=1) for quad in open_quads_mm]
        shape = _lines(np.concatenate(pieces)) if pieces else None
        set_shape(self._box, shape)
        set_shape(self._box_ghost, shape)
        kept = self._chosen if len(handles) == len(self.handles) else None
        self.handles, self._chosen = handles, None
        places = np.array([handle.at_mm for handle in handles]).reshape(-1, 3)
        set_shape(self._dots, _dots(places))
        set_shape(self._dot, None)
        self.highlight(kept)
        self._renderer.ResetCameraClippingRange()

    def show_cut(self, shape: CutShape | None) -> None:
        """Draw cut faces and their edges; None for none."""
        if shape is None or not len(shape.faces):
            for actor in (self._fill, self._halo, self._edges, self._edges_ghost):
                set_shape(actor, None)
            return
        set_shape(self._fill, surface(shape.points_mm, shape.faces))
        edges = lines(shape.points_mm, shape.edges) if len(shape.edges) else None
        for actor in (self._halo, self._edges, self._edges_ghost):
            set_shape(actor, edges)

    def show_beside(self, bodies: list[BesideBody]) -> None:
        """Draw bodies where they stand beside the part; [] for none."""
        points = [body.points_mm for body in bodies]
        self.beside_mm = np.concatenate(points) if points else np.zeros((0, 3))
        for material, actor in self._beside.items():
            own = [body for body in bodies if body.material == material]
            if not own:
                set_shape(actor, None)
                continue
            starts = np.cumsum([0, *(len(body.points_mm) for body in own)])
            faces = [body.faces + start for body, start in zip(own, starts, strict=False)]
            points = np.concatenate([body.points_mm for body in own])
            set_shape(actor, surface(points, np.concatenate(faces)))
        self._renderer.ResetCameraClippingRange()

    def hit(self, x_px: float, y_px: float) -> int | None:
        """The handle near a display point, None if none is near."""
        best, least = None, REACH_PX * self._pixel_scale
        for number, handle in enumerate(self.handles):
            self._renderer.SetWorldPoint(*(float(x) for x in handle.at_mm), 1.0)
            self._renderer.WorldToDisplay()
            x, y, _ = self._renderer.GetDisplayPoint()
            away = float(np.hypot(x - x_px, y - y_px))
            if away <= least:
                best, least = number, away
        return best

    def highlight(self, number: int | None) -> None:
        """Draw one handle larger, in the accent colour; None for none."""
        if number == self._chosen:
            return
        self._chosen = number
        chosen = None if number is None else self.handles[number].at_mm[None, :]
        set_shape(self._dot, None if chosen is None else _dots(chosen))

    def set_theme(self, theme: Theme) -> None:
        """Repaint."""
        self._theme, scale = theme, self._pixel_scale
        paint(self._box, theme.ring, 1.0, 2.0 * scale)
        paint(self._box_ghost, theme.ring, GHOST, 2.0 * scale)
        paint(self._halo, theme.halo, 1.0, 5.0 * scale)
        paint(self._edges, theme.accent, 1.0, 2.5 * scale)
        paint(self._edges_ghost, theme.accent, GHOST, 2.0 * scale)
        paint(self._fill, theme.accent, FILL)
        for dots, colour, size in (
            (self._dots, theme.ring, HANDLE_PX), (self._dot, theme.accent, HIGHLIGHT_PX),
        ):  # fmt: skip
            paint(dots, colour)
            dots.GetProperty().SetPointSize(size * scale)
        paint(self._beside["model"], PRINT_MATERIAL)
        paint(self._beside["support"], ORANGE)

    def set_pixel_scale(self, scale: float) -> None:
        """Screen pixels to a line's pixel."""
        self._pixel_scale = scale
        self.set_theme(self._theme)


def _lines(ends_mm: np.ndarray) -> vtkPolyData:
    """Lines (n, 2, 3) as VTK data."""
    return lines(ends_mm.reshape(-1, 3), np.arange(2 * len(ends_mm)).reshape(-1, 2))


def _dots(places_mm: np.ndarray) -> vtkPolyData | None:
    if not len(places_mm):
        return None
    data = vtkPolyData()
    data.SetPoints(points_of(places_mm))
    data.SetVerts(cells_of(np.arange(len(places_mm))[:, None]))
    return data
