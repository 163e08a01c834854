"""The build platform: a plate with a mm grid, a scale, and the names of its axes.

The origin is at the centre of the platform, x to the right seen from the front, z up
(ISO/ASTM 52921). From below only the rim shows, so that undersides can be
looked at.
"""

import numpy as np
from vtkmodules.vtkCommonDataModel import vtkPolyData
from vtkmodules.vtkRenderingCore import vtkRenderer

from viewer.scene.actors import actor_of, hide_from_below, paint, set_shape
from viewer.scene.arrays import lines, loop, surface
from viewer.scene.lettering import flat_text, together
from viewer.scene.themes import Theme

FINE_MM, COARSE_MM = 10.0, 50.0
BELOW_MM = 0.05  # the plate lies this far below z = 0, so that it never flickers with the part
_TICK_MM, _LETTER_MM, _GAP_MM = 2.5, 4.2, 3.0


class PlatformView:
    """The build platform in a renderer."""

    def __init__(self, renderer: vtkRenderer, theme: Theme) -> None:
        self._plate, self._rim = actor_of(), actor_of()
        self._fine, self._coarse, self._text = actor_of(), actor_of(), actor_of()
        self._plate.GetProperty().BackfaceCullingOn()
        for actor in (self._fine, self._coarse, self._text):
            hide_from_below(actor)
        for actor in (self._plate, self._rim, self._fine, self._coarse, self._text):
            renderer.AddActor(actor)
        self.size_mm = (0.0, 0.0)
        self._pixel_scale = 1.0
        self.set_theme(theme)

    def set_size(self, size_x_mm: float, size_y_mm: float) -> None:
        """Lay out plate, grid and scale for a platform of this size."""
        if (size_x_mm, size_y_mm) == self.size_mm:
            return
        self.size_mm = (size_x_mm, size_y_mm)
        x, y = size_x_mm / 2, size_y_mm / 2
        corners = np.array([[-x, -y, 0], [x, -y, 0], [x, y, 0], [-x, y, 0]]) - [0, 0, BELOW_MM]
        set_shape(self._plate, surface(corners, np.array([[0, 1, 2, 3]])))
        set_shape(self._rim, loop(corners))
        set_shape(self._fine, _grid(x, y, FINE_MM, skip_mm=COARSE_MM))
        set_shape(self._coarse, _grid(x, y, COARSE_MM, skip_mm=None))
        set_shape(self._text, _scale(x, y))

    def set_place(self, x_mm: float, y_mm: float) -> None:
        """Lie so that this place of the platform is at the origin of the posed frame."""
        for actor in (self._plate, self._rim, self._fine, self._coarse, self._text):
            actor.SetPosition(-x_mm, -y_mm, 0.0)

    def set_theme(self, theme: Theme) -> None:
        """Repaint."""
        self._theme = theme
        paint(self._plate, theme.platform)
        paint(self._rim, theme.grid_strong, width_px=1.0 * self._pixel_scale)
        paint(self._fine, theme.grid, width_px=1.0 * self._pixel_scale)
        paint(self._coarse, theme.grid_strong, width_px=1.0 * self._pixel_scale)
        paint(self._text, theme.text)

    def set_pixel_scale(self, scale: float) -> None:
        """Screen pixels to a line's pixel."""
        self._pixel_scale = scale
        self.set_theme(self._theme)


def _places(half_mm: float, step_mm: float) -> np.ndarray:
    """Multiples of the step within ±half, counted from the origin."""
    count = int(half_mm / step_mm + 1e-9)
    return np.arange(-count, count + 1) * step_mm


def _grid(x: float, y: float, step_mm: float, skip_mm: float | None) -> vtkPolyData:
    """Lines across the plate; with `skip_mm` without its multiples, else with ticks outside."""
    z = -BELOW_MM / 2
    pieces = []
    for at in _places(x, step_mm):
        if skip_mm is None or at % skip_mm:
            pieces.append(((at, -y, z), (at, y, z)))
    for at in _places(y, step_mm):
        if skip_mm is None or at % skip_mm:
            pieces.append(((-x, at, z), (x, at, z)))
    if skip_mm is None:
        pieces += [((at, -y, z), (at, -y - _TICK_MM, z)) for at in _places(x, step_mm)]
        pieces += [((-x, at, z), (-x - _TICK_MM, at, z)) for at in _places(y, step_mm)]
    points = np.array(pieces, float).reshape(-1, 3)
    return lines(points, np.arange(len(points)).reshape(-1, 2))


def _number(value: float) -> str:
    return f"{value:g}".replace("-", "−")


def _scale(x: float, y: float) -> vtkPolyData:
    """Numbers along the front and the left edge, axis names at the ends of the axes."""
    z = -BELOW_MM / 2
    out = _TICK_MM + _GAP_MM * 0.6
    shapes = [
        flat_text(_number(at), _LETTER_MM, (at, -y - out, z), (0.5, 1))
        for at in _places(x, COARSE_MM)
    ]
    shapes += [
        flat_text(_number(at), _LETTER_MM, (-x - out, at, z), (1, 0.5))
        for at in _places(y, COARSE_MM)
    ]
    name = _LETTER_MM * 1.2
    shapes.append(flat_text("x mm", name, (x + _GAP_MM, -y - out, z), (0, 1)))
    shapes.append(flat_text("y mm", name, (-x - out, y + _GAP_MM, z), (1, 0)))
    return together(shapes)
