"""Where the scene is looked at from: named directions, a tight fit, and a state to keep."""

import numpy as np
from vtkmodules.vtkRenderingCore import vtkCamera, vtkRenderer

VIEW_ANGLE_DEG = 28.0
MARGIN = 1.15
_BACK = np.array([0.0, 0.0, 1.0])  # towards the eye in the camera's own axes
# From the part towards the eye; x right, y back, z up (ISO/ASTM 52921).
VIEWS: dict[str, tuple[float, float, float]] = {
    "corner": (0.55, -1.0, 0.62),
    "front": (0.0, -1.0, 0.0),
    "back": (0.0, 1.0, 0.0),
    "left": (-1.0, 0.0, 0.0),
    "right": (1.0, 0.0, 0.0),
    "top": (0.0, 0.0, 1.0),
    "bottom": (0.0, 0.0, -1.0),
    "below": (0.55, -1.0, -0.5),
}


def look_from(camera: vtkCamera, towards_eye: np.ndarray) -> None:
    """Turn the camera about the point it looks at; z stays up in the picture where it can."""
    direction = np.asarray(towards_eye, float) / np.linalg.norm(towards_eye)
    focal = np.array(camera.GetFocalPoint())
    upright = abs(direction[2]) > 0.999
    up = (0.0, float(np.sign(direction[2])), 0.0) if upright else (0.0, 0.0, 1.0)
    camera.SetPosition(*(focal + direction * camera.GetDistance()))
    camera.SetViewUp(*up)


def fit(renderer: vtkRenderer, points_mm: np.ndarray, clear_top: float = 0.0) -> None:
    """Move the camera along its direction so that the points (n, 3) just fill the view.

    clear_top : share of the view's height that is left to words at its top
    """
    camera = renderer.GetActiveCamera()
    back = np.array(camera.GetPosition()) - np.array(camera.GetFocalPoint())
    back /= np.linalg.norm(back)
    right = np.cross(np.array(camera.GetViewUp()), back)
    right /= np.linalg.norm(right)
    axes = np.stack([right, np.cross(back, right), back])
    seen = points_mm @ axes.T
    width, height = (max(side, 1) for side in renderer.GetSize())
    half = np.tan(np.radians(camera.GetViewAngle() / 2))
    across, room = half / MARGIN * width / height, half * (1.0 - clear_top) / MARGIN
    # In each direction the outermost lines of sight must enclose all points; where the top is to
    # be clear, the middle of what is left lies lower.
    slopes = ((-across, across), (-half * clear_top - room, -half * clear_top + room))
    ends, distance = [], -np.inf
    for axis, (falling, rising) in enumerate(slopes):
        high = (seen[:, axis] + rising * seen[:, 2]).max()
        low = (seen[:, axis] + falling * seen[:, 2]).min()
        ends.append((low, high))
        distance = max(distance, (high - low) / (rising - falling))
    # `distance` is how far along `back` the eye lies; look at the middle of the depth range.
    depth = (seen[:, 2].max() + seen[:, 2].min()) / 2
    distance = max(distance, seen[:, 2].max() + 1.0)
    middle = np.zeros(3)
    for axis, ((low, high), (falling, rising)) in enumerate(zip(ends, slopes, strict=True)):
        middle[axis] = (low + high - (falling + rising) * distance) / 2
    camera.SetFocalPoint(*((middle + depth * _BACK) @ axes))
    camera.SetPosition(*((middle + distance * _BACK) @ axes))
    renderer.ResetCameraClippingRange()


def state_of(camera: vtkCamera) -> dict[str, object]:
    """What a job keeps of the camera: plain numbers."""
    return {
        "position_mm": list(camera.GetPosition()),
        "focal_mm": list(camera.GetFocalPoint()),
        "view_up": list(camera.GetViewUp()),
        "view_angle_deg": camera.GetViewAngle(),
    }


def restore(camera: vtkCamera, state: dict[str, object]) -> None:
    """Put the camera where `state_of` found it."""
    camera.SetPosition(*state["position_mm"])
    camera.SetFocalPoint(*state["focal_mm"])
    camera.SetViewUp(*state["view_up"])
    camera.SetViewAngle(float(state["view_angle_deg"]))
