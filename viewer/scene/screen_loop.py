"""A line drawn on the screen over everything, in device pixels from the lower left."""

import numpy as np
from vtkmodules.vtkCommonDataModel import vtkPolyData
from vtkmodules.vtkRenderingCore import vtkActor2D, vtkPolyDataMapper2D, vtkRenderer

from viewer.scene.arrays import loop
from viewer.scene.themes import LIGHT

WIDTHS_PX = (4.0, 1.8)  # a light line under a dark one shows on every colour of either theme


class ScreenLoop:
    """A closed line; hidden until it is shown."""

    def __init__(self, renderer: vtkRenderer) -> None:
        self._actors = [vtkActor2D(), vtkActor2D()]
        for actor, colour in zip(self._actors, (LIGHT.halo, LIGHT.accent), strict=True):
            actor.SetMapper(vtkPolyDataMapper2D())
            actor.GetProperty().SetColor(*colour)
            actor.VisibilityOff()
            renderer.AddViewProp(actor)
        self.corners = 0

    def show(self, points_px: np.ndarray | None, pixel_scale: float = 1.0) -> None:
        """Draw a closed line through (k, 2) pixels; None, or fewer than two, hides it."""
        self.corners = 0 if points_px is None else len(points_px)
        shown = self.corners >= 2
        data = vtkPolyData()
        if shown:
            data = loop(np.pad(np.asarray(points_px, float), ((0, 0), (0, 1))))
        for actor, width_px in zip(self._actors, WIDTHS_PX, strict=True):
            actor.GetProperty().SetLineWidth(width_px * pixel_scale)
            actor.GetMapper().SetInputData(data)
            actor.SetVisibility(shown)
