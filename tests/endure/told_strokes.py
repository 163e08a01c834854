"""Strokes that can be told from the marks they left: after n of them the marks are a function of n.

So whatever is read back says how many strokes it holds, and a state mixed of two is noticed.
"""

import numpy as np

from tests.shapes import torus
from viewer.document.state import Part, State
from viewer.geometry.mesh import Mesh

DIGITS = 20  # faces that count the strokes, base 3
_STEP = 7919  # a prime, so that the strokes go all over the part


def part_of(faces_about: int) -> Mesh:
    """A ring of about so many triangles."""
    around = max(8, round((faces_about / 2) ** 0.5))
    return torus(20.0, 5.0, around, around)


def fresh_state(faces_about: int) -> State:
    """The job before any stroke."""
    return State.of_part(Part("ring", part_of(faces_about), "ring.stl"))


def marks_after(strokes: int, face_count: int) -> np.ndarray:
    """(m,) uint8 classes after so many strokes."""
    classes = np.zeros(face_count, np.uint8)
    numbers = np.arange(1, strokes + 1)
    classes[DIGITS + numbers * _STEP % (face_count - DIGITS)] = 1 + numbers % 2
    classes[:DIGITS] = strokes // 3 ** np.arange(DIGITS) % 3
    return classes


def strokes_in(classes: np.ndarray) -> int:
    """How many strokes these marks hold; raises AssertionError where they are of no one moment."""
    strokes = int(classes[:DIGITS].astype(np.int64) @ 3 ** np.arange(DIGITS))
    assert np.array_equal(classes, marks_after(strokes, len(classes))), "marks of two moments"
    return strokes
