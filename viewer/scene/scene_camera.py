"""What a scene lets others do with its camera."""

from collections.abc import Callable

import numpy as np
from vtkmodules.vtkRenderingCore import vtkRenderer

from viewer.scene import camera


class SceneCamera:
    """The part of `PartScene` that looks at it; it needs a renderer and points to be seen."""

    _renderer: vtkRenderer
    points_to_fit_mm: Callable[[], np.ndarray]

    def fit_view(self) -> None:
        """Bring the whole part (without one, the platform) into view."""
        camera.fit(self._renderer, self.points_to_fit_mm())

    def fit_points(self, points_mm: np.ndarray, clear_top: float = 0.0) -> None:
        """Bring (k, 3) points of the posed frame into view, the top share of which stays clear."""
        camera.fit(self._renderer, points_mm, clear_top)

    def set_view_direction(self, direction: str | np.ndarray) -> None:
        """Look from a named side (`camera.VIEWS`) or from (3,) towards the eye; fit the view."""
        towards = camera.VIEWS[direction] if isinstance(direction, str) else direction
        camera.look_from(self._renderer.GetActiveCamera(), np.asarray(towards, float))
        self.fit_view()

    def camera_state(self) -> dict[str, object]:
        """Where the camera is: plain numbers, mm and degrees."""
        return camera.state_of(self._renderer.GetActiveCamera())

    def set_camera_state(self, state: dict[str, object]) -> None:
        """Put the camera back where `camera_state` found it."""
        camera.restore(self._renderer.GetActiveCamera(), state)
        self._renderer.ResetCameraClippingRange()
