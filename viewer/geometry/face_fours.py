"""Faces in fours that follow one another, told in few bytes: a ball round each, corners within it.

A ball stays a ball however the part turns, so one look at all balls tells which fours no line can
meet; the corners, in 127ths of the ball's radius, tell it more closely of the faces of the others.
Passing over a million faces costs the time in which memory is read: 13 bytes a face here.
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import LOOK_BITS, compiled
from viewer.progress import Progress

FOUR = 4
STEPS = 127  # of a radius, as many as 8 bits hold
_ROUNDED = 1.0 + 1e-6  # single precision must not shrink a ball


class FaceFours(NamedTuple):
    """Of m faces in k fours.

    x, y, z : (k,) float32, middle of the ball round each four; radius_mm : (k,) float32
    corners : (k, 9) int32, each of four numbers of 8 bits, one for each face: x, y, z of its first
        corner, then of its second and third, from the ball's middle in steps of radius / 127,
        rounded. Beyond the last face its first corner is repeated
    """

    x: np.ndarray
    y: np.ndarray
    z: np.ndarray
    radius_mm: np.ndarray
    corners: np.ndarray


def face_fours(corners_mm: np.ndarray, progress: Progress | None = None) -> FaceFours:
    """The fours of faces given by their (m, 3, 3) float64 corners. Raises Cancelled."""
    progress = progress or Progress()
    x, y, z, radius, corners = _fours(corners_mm, progress.stop_flag)
    progress.check()
    return FaceFours(x, y, z, radius, corners.reshape(len(x), 9 * FOUR).view(np.int32))


@compiled
def _fours(corners, stop):
    count = (len(corners) + FOUR - 1) // FOUR
    x, y, z = np.empty(count, np.float32), np.empty(count, np.float32), np.empty(count, np.float32)
    radius = np.empty(count, np.float32)
    steps = np.empty((count, 9, FOUR), np.int8)
    four = np.empty((FOUR, 3, 3))
    for i in range(count):
        if i & LOOK_BITS == 0 and stop[0]:
            break
        for lane in range(FOUR):
            f = FOUR * i + lane
            if f < len(corners):
                four[lane] = corners[f]
            else:
                four[lane] = corners[len(corners) - 1, 0]
        x[i], y[i], z[i], radius[i] = _ball_round(four)
        per_mm = STEPS / np.float64(radius[i]) if radius[i] > 0 else 0.0
        middle = np.float64(x[i]), np.float64(y[i]), np.float64(z[i])
        for lane in range(FOUR):
            for k in range(3):
                for axis in range(3):
                    step = np.rint((four[lane, k, axis] - middle[axis]) * per_mm)
                    steps[i, 3 * k + axis, lane] = np.int8(step)
    return x, y, z, radius, steps


@compiled
def _ball_round(four):
    """Middle and radius of a ball about the middle of the box round (4, 3, 3) corners."""
    middle = np.empty(3, np.float32)
    for axis in range(3):
        low, high = np.inf, -np.inf
        for lane in range(FOUR):
            for k in range(3):
                low, high = min(low, four[lane, k, axis]), max(high, four[lane, k, axis])
        middle[axis] = 0.5 * (low + high)
    far = 0.0
    for lane in range(FOUR):
        for k in range(3):
            square = 0.0
            for axis in range(3):
                # From the middle as it is kept, rounded.
                square += (four[lane, k, axis] - np.float64(middle[axis])) ** 2
            far = max(far, square)
    return middle[0], middle[1], middle[2], np.float32(np.sqrt(far) * _ROUNDED)
