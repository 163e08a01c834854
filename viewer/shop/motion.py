"""How long a move takes that starts and ends at rest."""

import numpy as np


def move_time_s(
    length_mm: float | np.ndarray, speed_mm_s: float | np.ndarray, acceleration_mm_s2: float
) -> np.ndarray:
    """Time of a straight move of L at speed v and acceleration a: L/v + v/a, or 2·√(L/a).

    The latter is where the speed is never reached, L < v²/a (trapezoid of speed over time, CALC).
    length_mm, speed_mm_s : float64 of shapes that broadcast; returns float64 of that shape
    """
    length, speed = np.asarray(length_mm, np.float64), np.asarray(speed_mm_s, np.float64)
    ramps = np.minimum(speed, np.sqrt(length * acceleration_mm_s2))  # the highest speed reached
    cruising = np.divide(length, ramps, out=np.zeros(np.broadcast(length, ramps).shape),
                         where=ramps > 0)  # fmt: skip
    return cruising + ramps / acceleration_mm_s2


def pace_s_mm(
    length_mm: float | np.ndarray, speed_mm_s: float | np.ndarray, acceleration_mm_s2: float
) -> np.ndarray:
    """Seconds for each mm of a road that is printed in moves of `length_mm` each."""
    return move_time_s(length_mm, speed_mm_s, acceleration_mm_s2) / np.asarray(length_mm)
