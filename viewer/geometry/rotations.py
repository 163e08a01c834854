"""Turns as matrices: from a rotation vector, from quaternions, the 24 of a cube, the angle."""

from itertools import permutations, product

import numpy as np


def turn_of_vector(vector_rad: np.ndarray) -> np.ndarray:
    """(3, 3) turn about a vector by its length.

    vector_rad : (3,) axis times angle; Rodrigues' formula, I + sin θ·K + (1 − cos θ)·K²
    """
    angle = float(np.linalg.norm(vector_rad))
    if angle == 0.0:
        return np.eye(3)
    cross = _cross(np.asarray(vector_rad) / angle)
    return np.eye(3) + np.sin(angle) * cross + (1.0 - np.cos(angle)) * cross @ cross


def turns_of_quaternions(quaternions: np.ndarray) -> np.ndarray:
    """(n, 3, 3) turns.

    quaternions : (n, 4) as x, y, z, w, of any length but 0 (Kuipers 1999, from memory)
    """
    x, y, z, w = (quaternions / np.linalg.norm(quaternions, axis=1, keepdims=True)).T
    rows = [
        [1 - 2 * (y * y + z * z), 2 * (x * y - z * w), 2 * (x * z + y * w)],
        [2 * (x * y + z * w), 1 - 2 * (x * x + z * z), 2 * (y * z - x * w)],
        [2 * (x * z - y * w), 2 * (y * z + x * w), 1 - 2 * (x * x + y * y)],
    ]
    return np.moveaxis(np.array(rows), 2, 0)


def quarter_turns() -> np.ndarray:
    """(24, 3, 3) turns that bring a cube onto itself, lying still first."""
    found = []
    for order in permutations(range(3)):
        for signs in product((1.0, -1.0), repeat=3):
            turn = np.zeros((3, 3))
            turn[range(3), order] = signs
            if np.linalg.det(turn) > 0:
                found.append(turn)
    return np.array(found)


def turn_angle_deg(turn: np.ndarray) -> float:
    """By how much a (3, 3) turn turns, 0 to 180; exact for small angles as well.

    From its sine (the skew part) and its cosine (the trace), as either alone is blunt somewhere.
    """
    skew = np.array([turn[2, 1] - turn[1, 2], turn[0, 2] - turn[2, 0], turn[1, 0] - turn[0, 1]])
    return float(np.degrees(np.arctan2(np.linalg.norm(skew), np.trace(turn) - 1.0)))


def _cross(axis: np.ndarray) -> np.ndarray:
    x, y, z = axis
    return np.array([[0.0, -z, y], [z, 0.0, -x], [-y, x, 0.0]])
