"""The direction map as a globe round the part: at its top lies the direction that points up.

It turns with the part, so that turning the part brings another place of the globe to the top.
"""

import numpy as np
from vtkmodules.util.numpy_support import numpy_to_vtk
from vtkmodules.vtkRenderingCore import vtkRenderer

from viewer.geometry.sphere_directions import icosphere
from viewer.scene.actors import actor_of, use_point_colours, vtk_matrix
from viewer.scene.arrays import surface
from viewer.scene.themes import Theme

OPACITY = 0.30


class GlobeView:
    """Glass of the near side only, so that the part stays in sight; nothing until it is shown."""

    def __init__(self, renderer: vtkRenderer, theme: Theme) -> None:
        self._renderer, self._actor = renderer, None
        self._matrix = np.eye(4)

    @property
    def shown(self) -> bool:
        """Whether the globe is drawn."""
        return self._actor is not None

    def show(self, colours: np.ndarray | None) -> None:
        """(d, 3) uint8, a colour for each direction of the usual spread; None hides it."""
        if self._actor is not None:
            self._renderer.RemoveActor(self._actor)
            self._actor = None
        if colours is None:
            return
        sphere = icosphere()
        shape = surface(sphere.directions, sphere.triangles)
        shape.GetPointData().SetScalars(numpy_to_vtk(np.ascontiguousarray(colours), deep=True))
        self._actor = actor_of(shape)
        use_point_colours(self._actor)
        look = self._actor.GetProperty()
        look.SetOpacity(OPACITY)
        look.BackfaceCullingOn()
        self._actor.SetUserMatrix(vtk_matrix(self._matrix))
        self._renderer.AddActor(self._actor)

    def place(self, centred: np.ndarray, radius_mm: float) -> None:
        """Round the part's centre; `centred` (4, 4) takes positions about it to the posed frame."""
        self._matrix = centred @ np.diag([radius_mm, radius_mm, radius_mm, 1.0])
        if self._actor is not None:
            self._actor.SetUserMatrix(vtk_matrix(self._matrix))

    def set_theme(self, theme: Theme) -> None:
        """Its colours are those of a measure."""

    def set_pixel_scale(self, scale: float) -> None:
        """A globe has no lines."""
