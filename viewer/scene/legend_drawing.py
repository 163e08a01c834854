"""The legend of a lens drawn into a renderer of its own, for pictures."""

import numpy as np
from vtkmodules.util.numpy_support import numpy_to_vtk
from vtkmodules.vtkCommonDataModel import vtkPolyData
from vtkmodules.vtkRenderingCore import (
    vtkActor2D,
    vtkPolyDataMapper2D,
    vtkRenderer,
    vtkTextActor,
)

from viewer.scene.arrays import lines, surface
from viewer.scene.drawn_words import set_words
from viewer.scene.legends import Entry, Hatch, Legend, Scale
from viewer.scene.palettes import Colour, ink_on
from viewer.scene.themes import Theme
from viewer.words import say, written

_EDGE_PX, _SWATCH_PX, _ROW_PX = 20, 22, 36
_TITLE_SIZE, _TEXT_SIZE = 20, 14
_SCALE_PX = (26, 220)


class LegendDrawing:
    """Title, explanation, scale and swatches from the top down."""

    def __init__(self, renderer: vtkRenderer, theme: Theme, legend: Legend, scale: float) -> None:
        """`scale`: device pixels to a pixel here."""
        self._renderer, self._theme, self._scale = renderer, theme, scale
        renderer.SetBackground(*theme.card)
        width, height = (side / scale for side in renderer.GetSize())
        self._width = width
        self._at = height - _EDGE_PX
        self._line(legend.title, _TITLE_SIZE, bold=True)
        self._paragraph(legend.explanation)
        self._at -= 14
        if legend.scale is not None:
            self._draw_scale(legend.scale, legend.unit)
        for entry in legend.entries:
            self._draw_entry(entry)
        if legend.note:
            self._paragraph(legend.note)

    def close(self) -> None:
        """Take everything out of the renderer."""
        self._renderer.RemoveAllViewProps()
        del self._renderer

    def _text(
        self,
        text: str,
        x: float,
        y: float,
        size: int,
        *,
        bold: bool = False,
        on_swatch: bool = False,
    ) -> None:
        """Text with its left end at x and its middle at height y; black and centred `on_swatch`."""
        actor = vtkTextActor()
        set_words(actor, text, bold)
        look = actor.GetTextProperty()
        look.SetFontSize(round(size * self._scale))
        look.SetColor(*(self._theme.text if not on_swatch else (0.0, 0.0, 0.0)))
        if on_swatch:
            look.SetJustificationToCentered()
        look.SetVerticalJustificationToCentered()
        actor.SetPosition(x * self._scale, y * self._scale)
        self._renderer.AddViewProp(actor)

    def _line(self, text: str, size: int, *, bold: bool = False) -> None:
        self._text(text, _EDGE_PX, self._at - size * 0.6, size, bold=bold)
        self._at -= size * 1.5

    def _wrapped(self, text: str, room_px: float) -> list[str]:
        """Lines that fit; a letter of this face is about half as wide as it is high."""
        letters = max(int(room_px / (_TEXT_SIZE * 0.52)), 8)
        rows = [""]
        for word in text.split():
            if rows[-1] and len(rows[-1]) + 1 + len(word) > letters:
                rows.append("")
            rows[-1] = f"{rows[-1]} {word}".strip()
        return rows

    def _paragraph(self, text: str) -> None:
        for row in self._wrapped(text, self._width - 2 * _EDGE_PX):
            self._line(row, _TEXT_SIZE)

    def _shape(self, data: vtkPolyData, colour: Colour | None, width_px: float = 1.0) -> None:
        mapper = vtkPolyDataMapper2D()
        mapper.SetInputData(data)
        actor = vtkActor2D()
        actor.SetMapper(mapper)
        if colour is not None:
            mapper.ScalarVisibilityOff()
            actor.GetProperty().SetColor(*colour)
        actor.GetProperty().SetLineWidth(width_px * self._scale)
        self._renderer.AddViewProp(actor)

    def _box(self, x: float, y: float, w: float, h: float, colour: Colour) -> None:
        corners = np.array([[x, y, 0], [x + w, y, 0], [x + w, y + h, 0], [x, y + h, 0]])
        corners = corners * self._scale
        self._shape(surface(corners, np.array([[0, 1, 2, 3]])), colour)
        self._shape(lines(corners, np.array([[0, 1, 2, 3, 0]])), self._theme.text)

    def _draw_scale(self, scale: Scale, unit: str) -> None:
        """A bar from low (below) to high, numbers beside it, a line at the mark."""
        w, h = _SCALE_PX
        x, bottom = _EDGE_PX, self._at - h
        rows = len(scale.stops)
        heights = bottom + np.linspace(0.0, h, rows + 1)
        left, right = np.full(rows + 1, x), np.full(rows + 1, x + w)
        points = np.concatenate(
            [
                np.stack([left, heights, np.zeros(rows + 1)], axis=1),
                np.stack([right, heights, np.zeros(rows + 1)], axis=1),
            ]
        )
        k = np.arange(rows)
        bar = surface(
            points * self._scale, np.stack([k, k + rows + 1, k + rows + 2, k + 1], axis=1)
        )
        bar.GetCellData().SetScalars(numpy_to_vtk((scale.stops * 255).round().astype(np.uint8)))
        self._shape(bar, None)
        rim = np.array([[x, bottom], [x + w, bottom], [x + w, bottom + h], [x, bottom + h]])
        rim = np.concatenate([rim, np.zeros((4, 1))], axis=1) * self._scale
        self._shape(lines(rim, np.array([[0, 1, 2, 3, 0]])), self._theme.text)
        mark_y = bottom + h * (scale.mark - scale.low) / (scale.high - scale.low)
        tick = np.array([[x - 4, mark_y, 0], [x + w + 8, mark_y, 0]]) * self._scale
        self._shape(lines(tick, np.array([[0, 1]])), self._theme.text, 2.5)
        self._text(scale.mark_label, x + w + 14, mark_y, _TEXT_SIZE)
        space = "" if unit == "°" else " "
        for value, y in ((scale.low, bottom), (scale.high, bottom + h)):
            if abs(y - mark_y) > 1.2 * _TEXT_SIZE:
                number = written(value, "g").replace("-", "−")
                ends = scale.above and (value == scale.high or value < 0)
                text = f"{number}{space}{unit}" + (say(" and more") if ends else "")
                self._text(text, x + w + 14, y, _TEXT_SIZE)
        self._at = bottom - 28

    def _draw_entry(self, entry: Entry) -> None:
        """A swatch with its hatch and letter, the label beside it."""
        size, x = _SWATCH_PX, _EDGE_PX
        bottom = self._at - size
        colour = entry.colour
        if entry.hatch is Hatch.TRANSLUCENT:
            colour = tuple(0.5 * c + 0.5 * k for c, k in zip(colour, self._theme.card, strict=True))
        self._box(x, bottom, size, size, colour)
        ink = ink_on(entry.colour)
        pattern = _pattern(entry.hatch, size)
        if pattern is not None:
            pattern = (pattern + np.array([x, bottom, 0.0])) * self._scale
            ends = np.arange(len(pattern)).reshape(-1, 2)
            wide = 3.0 if entry.hatch is Hatch.DOTS else 1.5
            self._shape(lines(pattern, ends), ink, wide)
        if entry.letter and entry.hatch is Hatch.NONE:
            middle = (x + size / 2, bottom + size / 2)
            self._text(entry.letter, *middle, _TEXT_SIZE, bold=True, on_swatch=True)
        rows = self._wrapped(entry.label, self._width - x - size - 12 - _EDGE_PX)
        for number, row in enumerate(rows):
            y = bottom + size / 2 - (number - (len(rows) - 1) / 2) * _TEXT_SIZE * 1.3
            self._text(row, x + size + 12, y, _TEXT_SIZE)
        self._at -= max(_ROW_PX, len(rows) * _TEXT_SIZE * 1.5)


def _pattern(hatch: Hatch, size: float) -> np.ndarray | None:
    """Pieces of line (2n, 3) inside a square swatch."""
    steps = np.arange(3.0, size, 6.0)
    if hatch is Hatch.LEVEL:
        pieces = [((0, s), (size, s)) for s in steps]
    elif hatch in (Hatch.RISING, Hatch.FALLING):
        pieces = []
        for s in np.arange(-size + 4, size, 6.0):
            low, high = max(s, 0.0), min(s + size, size)
            pieces.append(((low, low - s), (high, high - s)))
        if hatch is Hatch.FALLING:
            pieces = [((size - a, b), (size - c, d)) for (a, b), (c, d) in pieces]
    elif hatch is Hatch.DOTS:
        pieces = [((a - 1.5, b), (a + 1.5, b)) for a in steps for b in steps]
    else:
        return None
    flat = np.array(pieces, float).reshape(-1, 2)
    return np.concatenate([flat, np.zeros((len(flat), 1))], axis=1)
