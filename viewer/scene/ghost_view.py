"""A ghost: the part as it would lie in another pose, drawn as glass beside the one that is laid."""

import numpy as np
from vtkmodules.vtkCommonDataModel import vtkPolyData
from vtkmodules.vtkRenderingCore import vtkRenderer

from viewer.scene.actors import actor_of, paint, set_shape, vtk_matrix
from viewer.scene.themes import Theme

OPACITY = 0.38


class GhostView:
    """Shares the shape of the part; costs nothing while it is hidden."""

    def __init__(self, renderer: vtkRenderer, theme: Theme) -> None:
        self._renderer, self._actor = renderer, actor_of()
        # Seen from outside only, so that glass before glass does not add up; lit, so that its form
        # can be read.
        self._actor.GetProperty().BackfaceCullingOn()
        self._actor.GetProperty().LightingOn()
        self._actor.GetProperty().SetInterpolationToFlat()
        self._actor.VisibilityOff()
        renderer.AddActor(self._actor)
        self.set_theme(theme)

    @property
    def shown(self) -> bool:
        """Whether a ghost is drawn."""
        return bool(self._actor.GetVisibility())

    def show(self, shape: vtkPolyData, centred: np.ndarray) -> None:
        """Draw the ghost; `centred` (4, 4) takes the shape's positions to the posed frame."""
        if not self.shown:
            set_shape(self._actor, shape)
            self._renderer.RemoveActor(self._actor)  # glass is drawn after what it shows
            self._renderer.AddActor(self._actor)
        self._actor.SetUserMatrix(vtk_matrix(centred))

    def hide(self) -> None:
        """Draw none."""
        set_shape(self._actor, None)

    def set_theme(self, theme: Theme) -> None:
        """Repaint."""
        paint(self._actor, theme.accent, OPACITY)

    def set_pixel_scale(self, scale: float) -> None:
        """A ghost has no lines."""
