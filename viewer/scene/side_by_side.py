"""Several poses of one part side by side in one render window, seen from the same side.

Each pane is a renderer with a scene of its own, so that every lens, supports and outlines work as
in the single view. The cameras are linked by copying: each pane keeps its own clipping range. A
renderer over all panes holds captions, frames and whatever else is drawn over them.
"""

from dataclasses import dataclass

import numpy as np
from vtkmodules.vtkRenderingCore import (
    vtkActor2D,
    vtkCamera,
    vtkPolyDataMapper2D,
    vtkRenderer,
    vtkRenderWindow,
    vtkTextActor,
)

from viewer.scene.arrays import lines
from viewer.scene.drawn_words import set_words, shortened, width_px
from viewer.scene.part_scene import PartScene
from viewer.scene.themes import Theme

MOST_PANES = 4
CAPTION_SIZE, LINE_SIZE, LARGER = 15, 13, 1.5
_EDGE_PX, _FRAME_PX, _LINE_HEIGHT = 10, 1.5, 1.45
_MOVING_FRAME_PX = 4.0
ARROWS = "← →"
MOST_CAPTION = 0.45  # share of a pane that is left to words at most
Rect = tuple[float, float, float, float]  # left, lower, right, upper: shares of the window
WHOLE: Rect = (0.0, 0.0, 1.0, 1.0)


@dataclass(frozen=True)
class Caption:
    """What stands over a pane: its name, and lines with its most important numbers.

    moving : the arrow keys step this pane through the poses; its frame and arrows say so
    """

    title: str
    lines: tuple[str, ...] = ()
    moving: bool = False


def pane_rects(count: int, size_px: tuple[int, int], area: Rect = WHOLE) -> list[Rect]:
    """`count` equal panes in rows from the top left, as near to square as the area allows."""
    left, lower, right, upper = area
    width, height = (right - left) * size_px[0], (upper - lower) * size_px[1]

    def smaller_side(columns: int) -> float:
        rows = -(-count // columns)
        return min(width / columns, height / rows)

    # Of equals the fewest rows; an empty place would look like a pose that is missing.
    choices = [columns for columns in range(count, 0, -1) if count % columns == 0]
    columns = max(choices, key=smaller_side)
    rows = count // columns
    across, down = (right - left) / columns, (upper - lower) / rows
    return [
        (
            left + (k % columns) * across,
            upper - (k // columns + 1) * down,
            left + (k % columns + 1) * across,
            upper - (k // columns) * down,
        )
        for k in range(count)
    ]


class SideBySide:
    """The panes of a render window, which outlives them.

    scenes : one for each pane; over : the renderer that lies over all of them
    """

    def __init__(
        self, window: vtkRenderWindow, theme: Theme, count: int, area: Rect = WHOLE
    ) -> None:
        self._window, self._theme, self._area = window, theme, area
        self._larger, self._pixel_scale = False, 1.0
        self._captions = [Caption("")] * count
        self._size_px: tuple[int, int] | None = None
        self.scenes: list[PartScene] = []
        self._renderers: list[vtkRenderer] = []
        for _ in range(count):
            renderer = vtkRenderer()
            window.AddRenderer(renderer)
            self._renderers.append(renderer)
            self.scenes.append(PartScene(renderer, theme))
        self._layers_before = window.GetNumberOfLayers()
        self.over = vtkRenderer()
        self.over.SetLayer(self._layers_before)
        self.over.InteractiveOff()
        window.SetNumberOfLayers(self._layers_before + 1)
        window.AddRenderer(self.over)
        self._drawn_over: list[vtkActor2D] = []
        self.lay_out()

    @property
    def count(self) -> int:
        """How many panes there are."""
        return len(self.scenes)

    @property
    def rects(self) -> list[Rect]:
        """Where each pane is, as shares of the window."""
        return pane_rects(self.count, self._window.GetSize(), self._area)

    def lay_out(self) -> None:
        """Give each pane its place; to be called whenever the window has another size."""
        size_px = tuple(self._window.GetSize())
        if size_px == self._size_px:
            return
        self._size_px = size_px
        for renderer, rect in zip(self._renderers, self.rects, strict=True):
            renderer.SetViewport(*rect)
        self._write_captions()

    def pane_at(self, x_px: float, y_px: float) -> int | None:
        """The pane under a display point (from the lower left), or None."""
        width, height = (max(side, 1) for side in self._window.GetSize())
        x, y = x_px / width, y_px / height
        for place, (left, lower, right, upper) in enumerate(self.rects):
            if left <= x < right and lower <= y < upper:
                return place
        return None

    # --- the camera
    def follow(self, eye: vtkCamera) -> None:
        """See every pane as `eye` sees its own renderer."""
        self.lay_out()
        for renderer in self._renderers:
            camera = renderer.GetActiveCamera()
            camera.SetPosition(eye.GetPosition())
            camera.SetFocalPoint(eye.GetFocalPoint())
            camera.SetViewUp(eye.GetViewUp())
            camera.SetViewAngle(eye.GetViewAngle())
            renderer.ResetCameraClippingRange()

    @property
    def caption_share(self) -> float:
        """The share of a pane's height that the longest caption takes from its top."""
        _, lower, _, upper = self.rects[0]
        height = max((upper - lower) * self._window.GetSize()[1], 1.0)
        sizes = [
            CAPTION_SIZE * bool(caption.title) + LINE_SIZE * len(caption.lines)
            for caption in self._captions
        ]
        words_px = (_LINE_HEIGHT * max(sizes) + _EDGE_PX * any(sizes)) * self._words_scale
        return min(words_px / height, MOST_CAPTION)

    @property
    def _words_scale(self) -> float:
        return self._pixel_scale * (LARGER if self._larger else 1.0)

    def points_to_fit_mm(self) -> np.ndarray:
        """(k, 3) what a view must hold so that it holds the part in every pane."""
        return np.concatenate([scene.points_to_fit_mm() for scene in self.scenes])

    # --- what is drawn over the panes
    def set_captions(self, captions: list[Caption], larger: bool = False) -> None:
        """Name the panes; `larger` for people who sit farther away."""
        self._captions, self._larger = list(captions), larger
        self._write_captions()

    def set_theme(self, theme: Theme) -> None:
        """Repaint."""
        self._theme = theme
        for scene in self.scenes:
            scene.set_theme(theme)
        self._write_captions()

    def set_pixel_scale(self, scale: float) -> None:
        """Device pixels to a drawn pixel."""
        self._pixel_scale = float(scale)
        for scene in self.scenes:
            scene.set_pixel_scale(scale)
        self._write_captions()

    def _write_captions(self) -> None:
        for actor in self._drawn_over:
            self.over.RemoveViewProp(actor)
        self._drawn_over = []
        width, height = self._window.GetSize()
        scale = self._words_scale
        for (left, lower, right, upper), caption in zip(self.rects, self._captions, strict=True):
            low, high = (left * width, lower * height), (right * width, upper * height)
            if self.count > 1:
                self._frame(low, high, caption.moving)
            x, y = low[0] + _EDGE_PX * scale, high[1] - _EDGE_PX * scale
            room = high[0] - x - _EDGE_PX * scale
            if caption.moving:
                self._text(ARROWS, x + room, y, CAPTION_SIZE * scale, True, right=True)
                room -= width_px(ARROWS, CAPTION_SIZE * scale, True) + _EDGE_PX * scale
            words = [(caption.title, CAPTION_SIZE, True)]
            words += [(line, LINE_SIZE, False) for line in caption.lines]
            for text, size, bold in words:
                if text:
                    fitting = shortened(text, size * scale, bold, room)
                    self._text(fitting, x, y, size * scale, bold)
                    y -= _LINE_HEIGHT * size * scale

    def _frame(
        self, low: tuple[float, float], high: tuple[float, float], moving: bool = False
    ) -> None:
        wide = (_MOVING_FRAME_PX if moving else _FRAME_PX) * self._pixel_scale
        if moving:  # whole, not half under the neighbours
            low = tuple(side + wide / 2 for side in low)
            high = tuple(side - wide / 2 for side in high)
        corners = np.array(
            [[low[0], low[1], 0], [high[0], low[1], 0], [high[0], high[1], 0], [low[0], high[1], 0]]
        )
        mapper, actor = vtkPolyDataMapper2D(), vtkActor2D()
        mapper.SetInputData(lines(corners, np.array([[0, 1, 2, 3, 0]])))
        actor.SetMapper(mapper)
        actor.GetProperty().SetColor(*(self._theme.accent if moving else self._theme.grid_strong))
        actor.GetProperty().SetLineWidth(wide)
        self._put(actor)

    def _text(
        self, text: str, x: float, y: float, size_px: float, bold: bool, *, right: bool = False
    ) -> None:
        actor = vtkTextActor()
        set_words(actor, text, bold)
        look = actor.GetTextProperty()
        look.SetFontSize(round(size_px))
        look.SetColor(*self._theme.text)
        # Where the part reaches up to the words they stay legible.
        look.SetBackgroundColor(*self._theme.card)
        look.SetBackgroundOpacity(0.8)
        look.SetVerticalJustificationToTop()
        if right:
            look.SetJustificationToRight()
        actor.SetPosition(x, y)
        self._put(actor)

    def _put(self, actor: vtkActor2D) -> None:
        self.over.AddViewProp(actor)
        self._drawn_over.append(actor)

    def close(self) -> None:
        """Take all panes out of the window and let go of them."""
        self.over.RemoveAllViewProps()
        for scene in self.scenes:
            scene.close()
        for renderer in (*self._renderers, self.over):
            self._window.RemoveRenderer(renderer)
            renderer.ReleaseGraphicsResources(self._window)
        self._window.SetNumberOfLayers(self._layers_before)
        self.scenes, self._renderers, self._drawn_over = [], [], []
        del self.over, self._window
