"""The camera as an eye in part coordinates: what it sees, and where it draws a point."""

import numpy as np

from viewer.geometry.visible_faces import Eye


def eye_of(camera_state: dict[str, object], matrix: np.ndarray, aspect: float) -> Eye:
    """The eye of a camera (as `PartScene.camera_state`) looking at a part posed by (4, 4).

    aspect : width of the view by its height
    """
    place, focal, view_up = (
        np.asarray(camera_state[key], float) for key in ("position_mm", "focal_mm", "view_up")
    )
    towards = (focal - place) / np.linalg.norm(focal - place)
    upright = view_up - (view_up @ towards) * towards
    upright /= np.linalg.norm(upright)
    back = matrix[:3, :3].T  # a pose turns and shifts, so its transpose turns back
    return Eye(
        back @ (place - matrix[:3, 3]),
        back @ towards,
        back @ upright,
        float(camera_state["view_angle_deg"]) / 2.0,
        aspect,
    )


def to_pixels(eye: Eye, width_px: int, height_px: int) -> np.ndarray:
    """(4, 4) from (p mm, 1) to (x w, y w, 0, w), pixels from the lower left, w > 0 ahead."""
    scale = 0.5 * height_px / np.tan(np.radians(eye.half_angle_deg))
    right = np.cross(eye.towards, eye.upright)
    rows = np.zeros((4, 4))
    rows[0, :3] = scale * right + 0.5 * width_px * eye.towards
    rows[1, :3] = scale * eye.upright + 0.5 * height_px * eye.towards
    rows[3, :3] = eye.towards
    rows[:, 3] = -rows[:, :3] @ eye.place_mm
    return rows
