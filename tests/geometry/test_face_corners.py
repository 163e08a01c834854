"""Corners of faces for drawing: those of the mesh, less an origin, in single precision."""

import numpy as np

from tests.shapes import moved, sphere
from viewer.geometry.face_corners import face_corners_mm


def test_far_from_the_origin_nothing_is_lost_and_given_room_is_used():
    near = sphere(10.0, 3)
    far = moved(near, (1e6, -2e6, 3e6))
    rows = np.array([5, 0, 700, 5], np.int32)
    made = face_corners_mm(far, rows, np.array([1e6, -2e6, 3e6]))
    assert made.dtype == np.float32
    # Doubles of some 1e6 are 5e-10 apart; singles of some 10, 1e-6.
    assert np.allclose(made, near.corners_mm[rows], rtol=0, atol=1e-6)
    room = np.full((6, 3, 3), 7.0, np.float32)
    face_corners_mm(far, rows, np.array([1e6, -2e6, 3e6]), room[1:5])
    assert np.array_equal(room[1:5], made)
    assert (room[[0, 5]] == 7.0).all()
