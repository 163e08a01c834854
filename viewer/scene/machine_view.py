"""A machine's volumes as boxes of lines, what sticks out of them, and copies on the platform.

Nothing rests on colour alone: what a nozzle reaches is dashed, each with dashes of its own, what
must stay free is crossed out, and what sticks out of the part is outlined and hatched. The part
stands at the origin of the posed frame; the machine lies about it.
"""

from dataclasses import dataclass, field
from typing import NamedTuple

import numpy as np
from vtkmodules.vtkCommonDataModel import vtkPolyData
from vtkmodules.vtkRenderingCore import vtkBillboardTextActor3D, vtkRenderer

from viewer.scene.actors import actor_of, draw_before_surfaces, paint, set_shape
from viewer.scene.arrays import lines
from viewer.scene.themes import Theme

_DASHES_MM = ((6.0, 4.0), (2.5, 4.0), (12.0, 3.0), (1.0, 2.0))  # drawn and left out
_LIFT_MM = 0.05
_LETTER_PX = 13
_ARMS_MM = (2.0, 2.0, 0.0)
NO_LINES = np.zeros((0, 2, 3))
_EDGES = [(0, 1), (1, 3), (3, 2), (2, 0), (4, 5), (5, 7), (7, 6), (6, 4), (0, 4), (1, 5), (2, 6),
          (3, 7)]  # fmt: skip


class DrawnBox(NamedTuple):
    """A box to draw: its corners, its words, and how its lines run.

    style : "solid", "dashed" or "crossed"
    """

    label: str
    low_mm: tuple[float, float, float]
    high_mm: tuple[float, float, float]
    style: str


@dataclass(frozen=True, eq=False)
class MachineLook:
    """Everything that is drawn of a machine for one pose; can be sent to another process.

    platform_mm : width and depth; place_mm : where on it the part stands
    outline_mm, hatch_mm : (n, 2, 3) lines where something sticks out, in the posed frame
    copies : (k, 2) outlines on the platform; pieces : name and such an outline of each
    """

    platform_mm: tuple[float, float]
    place_mm: tuple[float, float] = (0.0, 0.0)
    boxes: tuple[DrawnBox, ...] = ()
    outline_mm: np.ndarray = field(default_factory=lambda: NO_LINES)
    hatch_mm: np.ndarray = field(default_factory=lambda: NO_LINES)
    copies: tuple[np.ndarray, ...] = ()
    pieces: tuple[tuple[str, np.ndarray], ...] = ()


class MachineView:
    """Boxes, outlines and hatches in the posed frame."""

    def __init__(self, renderer: vtkRenderer, theme: Theme) -> None:
        self._renderer = renderer
        self._solid, self._fine, self._out = actor_of(), actor_of(), actor_of()
        self._copies = actor_of()
        self._halo = actor_of()
        for actor, nearer in ((self._halo, 1.5), (self._out, 2.5)):
            draw_before_surfaces(actor, nearer)
        for actor in (self._solid, self._fine, self._copies, self._halo, self._out):
            set_shape(actor, None)
            renderer.AddActor(actor)
        self._labels: list[vtkBillboardTextActor3D] = []
        self._names: list[vtkBillboardTextActor3D] = []
        self._corners_mm = np.zeros((0, 3))
        self._pixel_scale = 1.0
        self.set_theme(theme)

    @property
    def corners_mm(self) -> np.ndarray:
        """(k, 3) corners of everything drawn, in the posed frame."""
        return self._corners_mm

    def show(self, look: MachineLook) -> None:
        """Draw all of it, but for the platform."""
        self.show_boxes(look.boxes, look.place_mm)
        self.show_outside(look.outline_mm, look.hatch_mm)
        self.show_copies(look.copies, look.place_mm, look.pieces)

    def show_boxes(self, boxes: tuple[DrawnBox, ...], place_mm: tuple[float, float]) -> None:
        """Draw a machine's boxes; place_mm : where on its platform the part stands."""
        shift = np.array([-place_mm[0], -place_mm[1], 0.0])
        solid, fine, dashes = [], [], 0
        self._labels = self._without(self._labels)
        for box in boxes:
            corners = _corners(box) + shift
            edges = corners[np.array(_EDGES)]
            if box.style == "dashed":
                fine.append(_dashed(edges, *_DASHES_MM[dashes % len(_DASHES_MM)]))
                dashes += 1
            elif box.style == "crossed":
                top = corners[4:]
                fine += [edges, np.array([[top[0], top[3]], [top[1], top[2]]])]
            else:
                solid.append(edges)
            # One above the other, since boxes may share their corner.
            self._labels.append(self._label(box.label, corners[4], len(self._labels)))
        set_shape(self._solid, _shape(solid))
        set_shape(self._fine, _shape(fine))
        drawn = [_corners(box) + shift for box in boxes]
        self._corners_mm = np.concatenate(drawn) if drawn else np.zeros((0, 3))

    def show_outside(self, outline_mm: np.ndarray, hatch_mm: np.ndarray) -> None:
        """(n, 2, 3) and (k, 2, 3) lines where the part sticks out, in the posed frame."""
        both = np.concatenate([outline_mm, hatch_mm])
        set_shape(self._out, _shape([both]))
        set_shape(self._halo, _shape([outline_mm]))

    def show_copies(
        self,
        outlines_mm: tuple[np.ndarray, ...],
        place_mm: tuple[float, float],
        pieces: tuple[tuple[str, np.ndarray], ...] = (),
    ) -> None:
        """(k, 2) outlines on the platform: copies with a cross at the middle, pieces by name."""
        drawn = []
        self._names = self._without(self._names)
        for name, outline in pieces:
            flat = np.column_stack([outline - place_mm, np.full(len(outline), _LIFT_MM)])
            rim = np.stack([flat, np.roll(flat, -1, axis=0)], axis=1)
            drawn.append(_dashed(rim, *_DASHES_MM[1]))
            furthest = flat[np.argmax(np.hypot(flat[:, 0], flat[:, 1]))]  # clear of the part
            self._names.append(self._label(name, furthest, 0))
        for outline in outlines_mm:
            flat = np.column_stack([outline - place_mm, np.full(len(outline), _LIFT_MM)])
            drawn.append(np.stack([flat, np.roll(flat, -1, axis=0)], axis=1))
            middle = 0.5 * (flat.min(axis=0) + flat.max(axis=0))
            arms = np.diag(_ARMS_MM)[:2]
            drawn.append(np.stack([middle - arms, middle + arms], axis=1))
        set_shape(self._copies, _shape(drawn))

    @property
    def copies_shown(self) -> bool:
        """Whether outlines of copies are drawn."""
        return bool(self._copies.GetVisibility())

    @property
    def outside_shown(self) -> bool:
        """Whether something is outlined as sticking out."""
        return bool(self._out.GetVisibility())

    def _without(self, labels: list[vtkBillboardTextActor3D]) -> list:
        for label in labels:
            self._renderer.RemoveActor(label)
        return []

    def _label(self, text: str, at_mm: np.ndarray, line: int) -> vtkBillboardTextActor3D:
        label = vtkBillboardTextActor3D()
        label.SetInput(text)
        label.SetPosition(*(float(x) for x in at_mm))
        line_px = round(1.4 * _LETTER_PX * self._pixel_scale)
        label.SetDisplayOffset(4, 3 + line_px * line)
        label.PickableOff()
        self._renderer.AddActor(label)
        self._paint_label(label)
        return label

    def _paint_label(self, label: vtkBillboardTextActor3D) -> None:
        look = label.GetTextProperty()
        look.SetFontSize(round(_LETTER_PX * self._pixel_scale))
        look.SetColor(*self._theme.text)
        look.SetBackgroundColor(*self._theme.card)  # lines run behind it
        look.SetBackgroundOpacity(0.75)

    def set_theme(self, theme: Theme) -> None:
        """Repaint."""
        self._theme = theme
        scale = self._pixel_scale
        paint(self._solid, theme.ring, width_px=2.0 * scale)
        paint(self._fine, theme.ring, width_px=1.3 * scale)
        paint(self._copies, theme.accent, width_px=2.0 * scale)
        paint(self._halo, theme.halo, width_px=6.0 * scale)
        paint(self._out, theme.contour, width_px=2.5 * scale)
        for label in (*self._labels, *self._names):
            self._paint_label(label)

    def set_pixel_scale(self, scale: float) -> None:
        """Screen pixels to a line's pixel."""
        self._pixel_scale = scale
        self.set_theme(self._theme)


def _corners(box: DrawnBox) -> np.ndarray:
    """(8, 3) corners, x quickest, z slowest."""
    both = np.array([box.low_mm, box.high_mm], float)
    return np.array([[both[x, 0], both[y, 1], both[z, 2]]
                     for z in (0, 1) for y in (0, 1) for x in (0, 1)])  # fmt: skip


def _dashed(edges: np.ndarray, drawn_mm: float, left_mm: float) -> np.ndarray:
    """(n, 2, 3) dashes along edges (e, 2, 3)."""
    found = []
    for start, end in edges:
        length = float(np.linalg.norm(end - start))
        at = np.arange(0.0, length, drawn_mm + left_mm)
        way = (end - start) / max(length, 1e-9)
        ends = np.minimum(at + drawn_mm, length)
        found.append(np.stack([start + at[:, None] * way, start + ends[:, None] * way], axis=1))
    return np.concatenate(found)


def _shape(pieces: list[np.ndarray]) -> vtkPolyData | None:
    """Lines (n, 2, 3) as VTK data, None for none."""
    together = np.concatenate(pieces) if pieces else np.zeros((0, 2, 3))
    if not len(together):
        return None
    return lines(together.reshape(-1, 3), np.arange(2 * len(together)).reshape(-1, 2))
