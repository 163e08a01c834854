"""A ball round each face, which stays a ball however the part turns: what no line through it meets.

Kept as rows of single precision, so that a pass over all faces reads little and works on several
faces at a time.
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import LOOK_BITS, compiled
from viewer.progress import Progress

_ROUNDED = 1.0 + 1e-6  # single precision must not shrink a ball


class FaceBalls(NamedTuple):
    """x, y, z : (m,) float32, middle of the least ball round each face; radius_mm : (m,) float32"""

    x: np.ndarray
    y: np.ndarray
    z: np.ndarray
    radius_mm: np.ndarray


def face_balls(corners_mm: np.ndarray, progress: Progress | None = None) -> FaceBalls:
    """The balls round faces given by their (m, 3, 3) float64 corners. Raises Cancelled."""
    progress = progress or Progress()
    rows = _balls(corners_mm, progress.stop_flag)
    progress.check()
    return FaceBalls(*rows)


@compiled
def _balls(corners, stop):
    rows = np.empty((4, len(corners)), np.float32)
    for f in range(len(corners)):
        if f & LOOK_BITS == 0 and stop[0]:
            break
        middle = _middle_of_ball(corners[f])
        far = 0.0
        for axis in range(3):
            rows[axis, f] = middle[axis]
        for k in range(3):
            square = 0.0
            for axis in range(3):
                # From the middle as it is kept, rounded.
                square += (corners[f, k, axis] - np.float64(rows[axis, f])) ** 2
            far = max(far, square)
        rows[3, f] = np.sqrt(far) * _ROUNDED
    return rows[0], rows[1], rows[2], rows[3]


@compiled
def _middle_of_ball(corners):
    """The middle of the longest side, or of the circle through the corners of an acute face."""
    squares = np.empty(3)  # of the side from corner k to the next
    for k in range(3):
        side = corners[(k + 1) % 3] - corners[k]
        squares[k] = side[0] ** 2 + side[1] ** 2 + side[2] ** 2
    longest = 0
    for k in range(1, 3):
        longest = k if squares[k] > squares[longest] else longest
    total = squares[0] + squares[1] + squares[2]
    # Of a needle of two long sides, rounding would carry the weights below away.
    if 2.0 * squares[longest] >= total * (1.0 - 1e-6):
        return 0.5 * (corners[longest] + corners[(longest + 1) % 3])
    # Weights of the circumcentre: the square of the opposite side by the two others' excess.
    middle, weights = np.zeros(3), 0.0
    for k in range(3):
        opposite = squares[(k + 1) % 3]
        weight = opposite * (total - 2.0 * opposite)
        weights += weight
        for axis in range(3):
            middle[axis] += weight * corners[k, axis]
    return middle / weights
