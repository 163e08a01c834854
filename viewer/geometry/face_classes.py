"""How much a face shows: unmarked (hidden), class A (always in view), class B (seen in use)."""

from typing import NamedTuple

import numpy as np

UNMARKED, CLASS_A, CLASS_B = 0, 1, 2


class ByClass(NamedTuple):
    """One number for each class, and their sum."""

    A: float
    B: float
    unmarked: float
    total: float


def sum_by_class(values: np.ndarray, face_classes: np.ndarray) -> ByClass:
    """Sum per-face `values` ((m,) float) by `face_classes` ((m,) uint8)."""
    unmarked, a, b = np.bincount(face_classes, weights=values, minlength=3)[:3]
    return ByClass(float(a), float(b), float(unmarked), float(a + b + unmarked))
