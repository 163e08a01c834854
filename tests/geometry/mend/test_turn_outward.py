"""Whatever way the faces of solid shapes are wound: afterwards bodies face outward."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.few import few
from tests.geometry.mend.judges import accepted
from tests.shapes import cube, joined, moved, sealed_cavity, sphere, torus, turned_inside_out
from viewer.geometry.mend.turn_outward import turn_outward
from viewer.geometry.mesh import Mesh

SHAPES = {
    "ball": sphere(10.0, 2),
    "ring": torus(20.0, 5.0, 24, 16),
    "hollow": sealed_cavity(),
    "two": joined(cube(10.0), moved(sphere(5.0, 1), (20, 0, 0))),
    "body in a hollow": joined(
        cube(40.0), turned_inside_out(cube(30.0)), moved(sphere(5.0, 1), (1, 2, 3))
    ),
}


@settings(max_examples=few(20, 60), deadline=None)
@given(name=st.sampled_from(sorted(SHAPES)), seed=st.integers(0, 2**32 - 1))
def test_any_choice_of_faces_turned_is_turned_back(name, seed):
    shape = SHAPES[name]
    turned = np.random.default_rng(seed).random(shape.face_count) < 0.4
    part = Mesh(shape.vertices_mm, np.where(turned[:, None], shape.faces[:, ::-1], shape.faces))
    done = turn_outward(part)
    assert accepted(done.mesh) == ""
    assert done.mesh.signed_volume_mm3 == pytest.approx(shape.signed_volume_mm3)
    np.testing.assert_array_equal(done.mesh.face_normals.round(9), shape.face_normals.round(9))
    np.testing.assert_array_equal(done.origin_face, np.arange(part.face_count))
    np.testing.assert_array_equal(np.sort(done.faces, axis=1), np.sort(part.faces, axis=1))


def test_what_is_right_stays_the_very_same():
    for shape in SHAPES.values():
        assert turn_outward(shape).mesh is shape
