"""Three rings round the part to turn it by: about x, y and z of the platform."""

import numpy as np
from vtkmodules.vtkCommonDataModel import vtkPolyData
from vtkmodules.vtkRenderingCore import vtkActor, vtkFollower, vtkRenderer

from viewer.scene.actors import actor_of, draw_before_surfaces, paint, set_shape
from viewer.scene.arrays import lines
from viewer.scene.lettering import flat_text
from viewer.scene.themes import Theme

NAMES = ("x", "y", "z")
SEGMENTS = 96
REACH_PX = 13.0  # how near the pointer must come
WIDTH_PX, HIGHLIGHT_PX = 2.5, 5.0
GHOST = 0.3  # opacity of what is hidden


def ring_points(axis: int, centre_mm: np.ndarray, radius_mm: float) -> np.ndarray:
    """(97, 3) points of a closed ring about `axis` (0 x, 1 y, 2 z), first = last."""
    angle = np.linspace(0.0, 2.0 * np.pi, SEGMENTS + 1)
    points = np.zeros((SEGMENTS + 1, 3))
    points[:, (axis + 1) % 3] = np.cos(angle)
    points[:, (axis + 2) % 3] = np.sin(angle)
    return np.asarray(centre_mm, float) + radius_mm * points


def nearest_ring(rings_px: list[np.ndarray], x_px: float, y_px: float) -> int | None:
    """Which polyline (k, 2) of pixels comes within reach of the pointer, the nearest of several."""
    pointer = np.array([x_px, y_px])
    best, least = None, REACH_PX
    for number, ring in enumerate(rings_px):
        start, along = ring[:-1], np.diff(ring, axis=0)
        length2 = np.maximum((along**2).sum(axis=1), 1e-12)
        share = np.clip(((pointer - start) * along).sum(axis=1) / length2, 0.0, 1.0)
        distance = np.linalg.norm(start + along * share[:, None] - pointer, axis=1).min()
        if distance <= least:
            best, least = number, float(distance)
    return best


class Rings:
    """The three rings in a renderer."""

    def __init__(self, renderer: vtkRenderer, theme: Theme) -> None:
        self._renderer = renderer
        self._rings = [actor_of() for _ in NAMES]
        # What part and platform hide of a ring stays faintly visible, and can be taken.
        self._ghosts = [actor_of() for _ in NAMES]
        for ghost in self._ghosts:
            draw_before_surfaces(ghost, 950.0)
            ghost.ForceOpaqueOn()
        self._letters = [_letter(name, renderer) for name in NAMES]
        for actor in self._all():
            actor.VisibilityOff()
            renderer.AddActor(actor)
        self.centre_mm, self.radius_mm = np.zeros(3), 1.0
        self.shown, self._highlighted, self._pixel_scale = False, None, 1.0
        self.set_theme(theme)
        self.place(self.centre_mm, self.radius_mm)

    def _all(self) -> list[vtkActor]:
        return [*self._rings, *self._ghosts, *self._letters]

    def draw_last(self, *, ghosts: bool) -> None:
        """Move the rings, or their ghosts, behind all actors added so far in order of drawing."""
        for actor in self._ghosts if ghosts else self._rings:
            self._renderer.RemoveActor(actor)
            self._renderer.AddActor(actor)

    def place(self, centre_mm: np.ndarray, radius_mm: float) -> None:
        """Put the rings round a part."""
        centre = np.asarray(centre_mm, float)
        if (
            radius_mm != self.radius_mm
            or not self._rings[0].GetMapper().GetInput().GetNumberOfPoints()
        ):
            for axis, (ring, ghost) in enumerate(zip(self._rings, self._ghosts, strict=True)):
                shape = _ring_shape(axis, radius_mm)
                set_shape(ring, shape)
                set_shape(ghost, shape)
            self.show(self.shown)
        self.centre_mm, self.radius_mm = centre, radius_mm
        for axis, letter in enumerate(self._letters):
            self._rings[axis].SetPosition(*centre)
            self._ghosts[axis].SetPosition(*centre)
            # The letter stands beside the ring at 45° between its two directions.
            letter.SetPosition(*ring_points(axis, centre, radius_mm * 1.09)[_LETTER_AT])
            letter.SetScale(radius_mm * 0.09)

    def show(self, shown: bool) -> None:
        """Show or hide all three."""
        self.shown = shown
        for actor in self._all():
            actor.SetVisibility(shown)

    def highlight(self, axis: int | None) -> None:
        """Draw one ring stronger, in the accent colour; None for none."""
        self._highlighted = axis
        for number, letter in enumerate(self._letters):
            strong = number == axis
            colour = self._theme.accent if strong else self._theme.ring
            width_px = (HIGHLIGHT_PX if strong else WIDTH_PX) * self._pixel_scale
            paint(self._rings[number], colour, 1.0, width_px)
            paint(self._ghosts[number], colour, GHOST, width_px)
            paint(letter, colour)

    def hit(self, x_px: float, y_px: float) -> int | None:
        """Axis of the ring near a display point, None if none is near or rings are hidden."""
        if not self.shown:
            return None
        rings = [
            self._display(ring_points(axis, self.centre_mm, self.radius_mm)) / self._pixel_scale
            for axis in range(3)
        ]
        return nearest_ring(rings, x_px / self._pixel_scale, y_px / self._pixel_scale)

    def _display(self, points: np.ndarray) -> np.ndarray:
        result = np.empty((len(points), 2))
        for k, point in enumerate(points):
            self._renderer.SetWorldPoint(*point, 1.0)
            self._renderer.WorldToDisplay()
            result[k] = self._renderer.GetDisplayPoint()[:2]
        return result

    def set_theme(self, theme: Theme) -> None:
        """Repaint."""
        self._theme = theme
        self.highlight(self._highlighted)

    def set_pixel_scale(self, scale: float) -> None:
        """Screen pixels to a line's pixel."""
        self._pixel_scale = scale
        self.highlight(self._highlighted)

    def close(self) -> None:
        """Let go of the camera that the letters turn to."""
        for letter in self._letters:
            letter.SetCamera(None)


_LETTER_AT = SEGMENTS // 8


def _ring_shape(axis: int, radius_mm: float) -> vtkPolyData:
    """A ring about the origin with a tick every 15°, longer at quarter turns."""
    ring = ring_points(axis, np.zeros(3), radius_mm)
    points, pieces = [ring], [np.stack([np.arange(SEGMENTS), np.arange(1, SEGMENTS + 1)], axis=1)]
    at = len(ring)
    for step in range(24):
        out = 1.045 if step % 6 == 0 else 1.02
        foot = ring[step * SEGMENTS // 24]
        points.append(np.stack([foot, foot * out]))
        pieces.append([[at, at + 1]])
        at += 2
    return lines(np.concatenate(points), np.concatenate(pieces))


def _letter(name: str, renderer: vtkRenderer) -> vtkActor:
    """A letter that always faces the camera."""
    follower = vtkFollower()
    follower.SetMapper(actor_of(flat_text(name, 1.0, (0, 0, 0), (0.5, 0.5))).GetMapper())
    follower.SetCamera(renderer.GetActiveCamera())
    follower.PickableOff()
    follower.GetProperty().LightingOff()
    return follower
