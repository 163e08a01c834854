"""The supports of a pose as samples, each of which stands for some plan area."""

from typing import NamedTuple

import numpy as np


class SupportSamples(NamedTuple):
    """Every support met by a sample line, what is bridged left out, in the frame of `TurnedPart`.

    places_mm : (s, 2) float64, x and y
    bottom_mm, top_mm : (s,) float64, above the platform
    bottom_face : (s,) int32, face on which the support lands, −1 for the platform
    top_face : (s,) int32, face that bears on the support
    plan_mm2 : (s,) float64, plan area that the sample stands for; their sum is the exact plan area
    row : (s,) int32, row of sample lines; `rows` of them, each with random shifts of its own, so
        that sums over rows are independent samples
    """

    places_mm: np.ndarray
    bottom_mm: np.ndarray
    top_mm: np.ndarray
    bottom_face: np.ndarray
    top_face: np.ndarray
    plan_mm2: np.ndarray
    row: np.ndarray
    rows: int


NO_SUPPORTS = SupportSamples(
    np.empty((0, 2)),
    np.empty(0),
    np.empty(0),
    np.empty(0, np.int32),
    np.empty(0, np.int32),
    np.empty(0),
    np.empty(0, np.int32),
    0,
)
