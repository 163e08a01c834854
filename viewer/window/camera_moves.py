"""Moves of the camera as pure functions: turning about the upright axis, panning, zooming.

A camera is (position, focal point, view up), each (3,) in mm in the posed frame; the view angle
stays. z is up, and the camera never rolls, so the platform always looks like a table.
"""

from typing import NamedTuple

import numpy as np

STEEPEST_DEG = 89.5  # short of straight above or below, where "up" would flip


class Camera(NamedTuple):
    """Where the camera is, what it looks at, which way is up in the picture."""

    position_mm: np.ndarray
    focal_mm: np.ndarray
    view_up: np.ndarray


def orbit(camera: Camera, sideways_deg: float, upwards_deg: float) -> Camera:
    """Turn the camera about the point it looks at."""
    focal = np.asarray(camera.focal_mm, float)
    away = np.asarray(camera.position_mm, float) - focal
    distance = float(np.linalg.norm(away))
    level = float(np.hypot(away[0], away[1]))
    if level > 1e-6 * distance:
        azimuth = np.arctan2(away[1], away[0])
    else:  # straight above or below: the picture's up tells where the front is
        up = np.asarray(camera.view_up, float)
        azimuth = np.arctan2(-up[1], -up[0]) if away[2] > 0 else np.arctan2(up[1], up[0])
    height = np.arctan2(away[2], level) + np.radians(upwards_deg)
    limit = np.radians(STEEPEST_DEG)
    height = min(max(height, -limit), limit)
    azimuth += np.radians(sideways_deg)
    direction = np.array(
        [np.cos(height) * np.cos(azimuth), np.cos(height) * np.sin(azimuth), np.sin(height)]
    )
    return Camera(focal + distance * direction, focal, np.array([0.0, 0.0, 1.0]))


def pan(camera: Camera, right_mm: float, up_mm: float) -> Camera:
    """Shift the camera and what it looks at within the picture's plane."""
    position, focal = np.asarray(camera.position_mm, float), np.asarray(camera.focal_mm, float)
    forward = focal - position
    forward = forward / np.linalg.norm(forward)
    right = np.cross(forward, np.asarray(camera.view_up, float))
    right = right / np.linalg.norm(right)
    shift = right_mm * right + up_mm * np.cross(right, forward)
    return Camera(position + shift, focal + shift, np.asarray(camera.view_up, float))


def zoom(camera: Camera, factor: float, anchor_mm: np.ndarray | None = None) -> Camera:
    """Come `factor` times closer to `anchor_mm`, the point looked at by default."""
    position, focal = np.asarray(camera.position_mm, float), np.asarray(camera.focal_mm, float)
    anchor = focal if anchor_mm is None else np.asarray(anchor_mm, float)
    return Camera(
        anchor + (position - anchor) / factor,
        anchor + (focal - anchor) / factor,
        np.asarray(camera.view_up, float),
    )


def looking_from(camera: Camera, direction: np.ndarray) -> Camera:
    """The camera at its distance, moved round what it looks at to stand in a direction.

    direction : (3,) from what is looked at towards the eye; never quite straight above or below
    """
    focal = np.asarray(camera.focal_mm, float)
    away = np.asarray(camera.position_mm, float) - focal
    distance = float(np.linalg.norm(away))
    x, y, z = np.asarray(direction, float) / np.linalg.norm(direction)
    level = float(np.hypot(x, y))
    azimuth = np.arctan2(y, x) if level > 1e-3 else np.arctan2(away[1], away[0])
    limit = np.radians(STEEPEST_DEG)
    height = min(max(np.arctan2(z, level), -limit), limit)
    towards = [np.cos(height) * np.cos(azimuth), np.cos(height) * np.sin(azimuth), np.sin(height)]
    return Camera(focal + distance * np.array(towards), focal, np.array([0.0, 0.0, 1.0]))


def between(start: Camera, end: Camera, share: float) -> Camera:
    """A camera on the way: straight for what is looked at, round it for the eye."""
    focal = (1 - share) * np.asarray(start.focal_mm) + share * np.asarray(end.focal_mm)
    arms = [np.asarray(c.position_mm, float) - np.asarray(c.focal_mm, float) for c in (start, end)]
    lengths = [float(np.linalg.norm(arm)) for arm in arms]
    arm = (1 - share) * arms[0] / lengths[0] + share * arms[1] / lengths[1]
    size = float(np.linalg.norm(arm))
    if size < 1e-3:  # from one side to the opposite one: over the top
        arm, size = np.array([0.0, 0.0, 1.0]), 1.0
    distance = lengths[0] ** (1 - share) * lengths[1] ** share
    moved = Camera(focal + distance * arm / size, focal, np.array([0.0, 0.0, 1.0]))
    return looking_from(moved, arm)


def enclosing(
    camera: Camera, centre_mm: np.ndarray, radius_mm: float, view_angle_deg: float, aspect: float
) -> Camera:
    """The camera along its own line of sight that just sees a whole ball.

    view_angle_deg : upright opening of the view; aspect : width of the picture over its height
    """
    half = np.radians(view_angle_deg) / 2.0
    narrow = min(half, np.arctan(np.tan(half) * aspect))
    centre = np.asarray(centre_mm, float)
    away = np.asarray(camera.position_mm, float) - np.asarray(camera.focal_mm, float)
    away = away / np.linalg.norm(away)
    distance = radius_mm / np.sin(narrow)
    return Camera(centre + distance * away, centre, np.asarray(camera.view_up, float))
