"""A ring at the pointer and the fading trail behind it, so that others see what is pointed at.

It lies over everything, in display pixels, and is in the renderer only while it is shown.
"""

import numpy as np
from vtkmodules.util.numpy_support import numpy_to_vtk
from vtkmodules.vtkRenderingCore import vtkActor2D, vtkPolyDataMapper2D, vtkRenderer

from viewer.scene.arrays import surface

RING_PX, RING_WIDTH_PX, TRAIL_WIDTH_PX = 18.0, 4.0, 7.0
CASING_PX = 1.5  # a dark rim, so that the bright line is seen on light parts, too
# Okabe & Ito 2008: yellow, the one hue of theirs that no lens and no class uses; and black
BRIGHT, RIM = (240, 228, 66), (0, 0, 0)
_TURNS = np.radians(np.arange(0.0, 361.0, 7.5))


class PointerTrail:
    """Ring and trail in a renderer, which outlives them."""

    def __init__(self, renderer: vtkRenderer) -> None:
        self._renderer = renderer
        self._mapper = vtkPolyDataMapper2D()
        self._actor = vtkActor2D()
        self._actor.SetMapper(self._mapper)
        self._shown = False

    @property
    def shown(self) -> bool:
        """Whether there is anything to draw."""
        return self._shown

    def show(self, places_px: np.ndarray, strengths: np.ndarray, scale: float = 1.0) -> None:
        """Draw the ring at the last place and the trail through all of them.

        places_px : (k, 2) device pixels from the lower left, oldest first
        strengths : (k,) 0 (faded) to 1; scale : device pixels to a drawn pixel
        """
        places = np.asarray(places_px, float).reshape(-1, 2)
        strengths = np.asarray(strengths, float)
        pieces = [
            *_trail(places, strengths, scale, CASING_PX, RIM),
            *_trail(places, strengths, scale, 0.0, BRIGHT),
            _ring(places[-1], scale, CASING_PX, RIM),
            _ring(places[-1], scale, 0.0, BRIGHT),
        ]
        points, quads, colours, start = [], [], [], 0
        for piece_points, piece_quads, piece_colours in pieces:
            points.append(piece_points)
            quads.append(piece_quads + start)
            colours.append(piece_colours)
            start += len(piece_points)
        flat = np.concatenate(points)
        data = surface(np.column_stack([flat, np.zeros(len(flat))]), np.concatenate(quads))
        data.GetPointData().SetScalars(numpy_to_vtk(np.concatenate(colours), deep=True))
        self._mapper.SetInputData(data)
        if not self._shown:
            self._shown = True
            self._renderer.AddViewProp(self._actor)

    def hide(self) -> None:
        """Take ring and trail out of the renderer."""
        if self._shown:
            self._shown = False
            self._renderer.RemoveViewProp(self._actor)

    def close(self) -> None:
        """Hide and let go of everything."""
        self.hide()
        del self._renderer, self._mapper, self._actor


Piece = tuple[np.ndarray, np.ndarray, np.ndarray]


def _band(middle: np.ndarray, across: np.ndarray, colours: np.ndarray) -> Piece:
    """A band of quads: (k, 2) middle line, (k, 2) half widths with direction, (k, 4) colours."""
    k = len(middle)
    row = np.arange(k - 1)
    quads = np.stack([row, row + 1, row + 1 + k, row + k], axis=1)
    points = np.concatenate([middle - across, middle + across])
    return points, quads, np.concatenate([colours, colours])


def _ring(centre: np.ndarray, scale: float, casing_px: float, colour: tuple) -> Piece:
    outward = np.stack([np.cos(_TURNS), np.sin(_TURNS)], axis=1)
    colours = np.full((len(outward), 4), (*colour, 255), np.uint8)
    half_px = RING_WIDTH_PX / 2 + casing_px
    return _band(centre + RING_PX * scale * outward, half_px * scale * outward, colours)


def _trail(
    places: np.ndarray, strengths: np.ndarray, scale: float, casing_px: float, colour: tuple
) -> list[Piece]:
    """Narrower and paler the older it is; nothing while the pointer rests."""
    moved = np.ones(len(places), bool)
    moved[1:] = np.linalg.norm(np.diff(places, axis=0), axis=1) > 0.5
    places, strengths = places[moved], strengths[moved]
    if len(places) < 2:
        return []
    along = np.gradient(places, axis=0)
    length = np.maximum(np.linalg.norm(along, axis=1, keepdims=True), 1e-9)
    sideways = np.stack([-along[:, 1], along[:, 0]], axis=1) / length
    half_px = (TRAIL_WIDTH_PX / 2 + casing_px) * scale * strengths
    colours = np.full((len(places), 4), (*colour, 0), np.uint8)
    colours[:, 3] = np.round(255 * strengths)
    return [_band(places, sideways * half_px[:, None], colours)]
