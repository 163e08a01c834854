"""The sides that show are those from which class A is seen."""

import numpy as np
import pytest

from tests import shapes
from viewer.geometry.face_classes import CLASS_A, CLASS_B
from viewer.geometry.showing_sides import showing_sides


def sides_of_cube(count, **marked):
    mesh = shapes.cube()
    classes = np.zeros(12, np.uint8)
    for face_class, normals in marked.items():
        for normal in normals:
            classes[mesh.face_normals @ np.array(normal, float) > 0.9] = {
                "A": CLASS_A, "B": CLASS_B,
            }[face_class]  # fmt: skip
    return showing_sides(mesh.face_areas_mm2, mesh.face_normals, classes, count)


@pytest.mark.parametrize("normal", [(1, 0, 0), (-1, 0, 0), (0, 1, 0), (0, -1, 0)])
def test_one_marked_side_is_looked_at_from_there_and_above(normal):
    (side,) = sides_of_cube(1, A=[normal])
    assert side @ np.array(normal) > 0.8
    assert side[2] > 0
    assert np.linalg.norm(side) == pytest.approx(1.0)


def test_the_second_side_shows_what_the_first_does_not():
    first, second = sides_of_cube(2, A=[(1, 0, 0), (-1, 0, 0)])
    assert first[0] * second[0] < 0
    assert min(abs(first[0]), abs(second[0])) > 0.8


def test_class_a_counts_more_than_class_b_and_an_underside_is_seen_from_below():
    (side,) = sides_of_cube(1, A=[(0, 0, -1)], B=[(1, 0, 0)])
    assert side[2] < 0


def test_without_marks_any_side_will_do():
    sides = sides_of_cube(2)
    assert np.isfinite(sides).all()
    assert sides[0] @ sides[1] < 0.9
