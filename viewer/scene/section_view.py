"""The outline of one layer in the scene, and crosses where it does not close."""

import numpy as np
from vtkmodules.vtkRenderingCore import vtkRenderer

from viewer.geometry.section import Section
from viewer.scene.actors import actor_of, draw_before_surfaces, paint, set_shape
from viewer.scene.arrays import lines
from viewer.scene.fault_looks import Shape
from viewer.scene.glyphs import Glyphs
from viewer.scene.palettes import VERMILION
from viewer.scene.themes import Theme

CROSS_PX = 19.0


class SectionView:
    """Lines in the posed frame."""

    def __init__(self, renderer: vtkRenderer, theme: Theme) -> None:
        self._halo, self._line = actor_of(), actor_of()
        self._crosses = Glyphs(Shape.CROSS, CROSS_PX)
        for actor, steps in ((self._halo, 2.5), (self._line, 3.0)):
            draw_before_surfaces(actor, steps)
            actor.ForceOpaqueOn()
            actor.VisibilityOff()
        self._renderer, self._pixel_scale = renderer, 1.0
        self.draw_last()
        self.set_theme(theme)

    def draw_last(self) -> None:
        """Move behind all actors added so far in the order of drawing."""
        for actor in (self._halo, self._line, self._crosses.actor):
            self._renderer.RemoveActor(actor)
            self._renderer.AddActor(actor)

    def show(self, section: Section | None) -> None:
        """Draw the outline of a layer; None for none."""
        if section is None or not len(section.segments_mm):
            set_shape(self._halo, None)
            set_shape(self._line, None)
            self._crosses.show(None)
            return
        points = _raised(section.segments_mm.reshape(-1, 2), section.height_mm)
        shape = lines(points, np.arange(len(points)).reshape(-1, 2))
        set_shape(self._halo, shape)
        set_shape(self._line, shape)
        self._crosses.show(_raised(section.open_ends_mm, section.height_mm))

    def set_theme(self, theme: Theme) -> None:
        """Repaint."""
        self._theme = theme
        paint(self._halo, theme.halo, 1.0, 4.5 * self._pixel_scale)
        paint(self._line, theme.accent, 1.0, 2.0 * self._pixel_scale)
        self._crosses.paint(VERMILION, theme.halo, self._pixel_scale)

    def set_pixel_scale(self, scale: float) -> None:
        """Screen pixels to a line's pixel."""
        self._pixel_scale = scale
        self.set_theme(self._theme)


def _raised(flat_mm: np.ndarray, height_mm: float) -> np.ndarray:
    return np.column_stack([flat_mm, np.full(len(flat_mm), height_mm)])
