"""What is seen of whole faces, against closed forms, and exchanged classes."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from tests.shapes import box, joined, sphere, turned_inside_out
from viewer.geometry.face_classes import CLASS_A, CLASS_B
from viewer.geometry.visible_faces import eye_on, ring_of_eyes
from viewer.geometry.whole_marks import see_faces, swap_classes


def test_an_inverted_ball_is_seen_like_the_ball():
    ball = sphere(10.0, 5)
    eyes = [eye_on((0.0, -40.0, 0.0), ball.box_mm)]
    cap = 2.0 * np.pi * 100.0 * (1.0 - 10.0 / 40.0)  # CALC: up to the tangents
    for each in (ball, turned_inside_out(ball)):
        seen = see_faces(each, eyes) > 0
        assert each.face_areas_mm2[seen].sum() == pytest.approx(cap, rel=0.02)


def test_a_cavity_is_never_seen():
    hollow = joined(box((-10, -10, -10), (10, 10, 10)), turned_inside_out(sphere(5.0, 3)))
    seen = see_faces(hollow, ring_of_eyes((0, 0, 1), 30.0, 100.0, 8, hollow.box_mm)) > 0
    up = hollow.face_normals[:12, 2]
    assert np.array_equal(seen[:12], up > -0.5)  # all but the floor
    assert not seen[12:].any()


@given(arrays(np.uint8, st.integers(0, 50), elements=st.integers(0, 2)))
def test_exchanging_the_classes_twice_changes_nothing(classes):
    once = swap_classes(classes)
    assert np.array_equal(once == CLASS_A, classes == CLASS_B)
    assert np.array_equal(once == 0, classes == 0)
    assert np.array_equal(swap_classes(once), classes)
