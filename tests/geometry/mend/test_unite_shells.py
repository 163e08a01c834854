"""Bodies that overlap or touch become one; volumes by closed forms, classes kept."""

import math

import numpy as np
import pytest
import trimesh

from tests.geometry.mend.judges import accepted
from tests.shapes import box, cube, joined, moved, sealed_cavity, sphere, turned_inside_out
from viewer.errors import Cancelled
from viewer.geometry.mend.unite_shells import unite_shells
from viewer.geometry.mesh import Mesh
from viewer.progress import Progress


@pytest.mark.parametrize("apart_mm", [2.0, 8.0, 15.0])
@pytest.mark.parametrize("subdivisions", [3, 5])
def test_two_balls_lose_their_lens(apart_mm, subdivisions):
    """π (4r + d)(2r − d)² / 12 (Weisstein, "Sphere-Sphere Intersection", MathWorld, for equal
    radii; MEM), as a share of the ball. The finer ones go to a process of their own."""
    ball = sphere(10.0, subdivisions)
    done = unite_shells(joined(ball, moved(ball, (apart_mm, 0, 0)))).mesh
    assert accepted(done) == ""
    lens = math.pi * (40.0 + apart_mm) * (20.0 - apart_mm) ** 2 / 12.0
    whole = 4.0 / 3.0 * math.pi * 1000.0
    share = 2.0 - lens / whole
    rel = 0.02 if subdivisions == 3 else 0.002
    assert done.signed_volume_mm3 / ball.signed_volume_mm3 == pytest.approx(share, rel=rel)
    assert trimesh.Trimesh(done.vertices_mm, done.faces, process=False).body_count == 1


def test_bodies_that_touch_become_one_once_they_are_grown():
    part = joined(box([0, 0, 0], [10, 10, 10]), box([10, 2, 2], [20, 8, 8]))
    grown = unite_shells(part, 0.001).mesh
    assert accepted(grown) == ""
    assert trimesh.Trimesh(grown.vertices_mm, grown.faces, process=False).body_count == 1
    # 1000 + 360, and the growth: 0.001 over the area of the union, 600 + 240 (CALC).
    assert grown.signed_volume_mm3 == pytest.approx(1360.0 + 0.84, abs=0.01)


def test_faces_follow_those_they_were_cut_from_and_a_cavity_stays():
    part = joined(sealed_cavity(), moved(cube(20.0), (25, 10, 10)))
    done = unite_shells(part)
    assert accepted(done.mesh) == ""
    # 20³ less 10³, and of the second cube the part beyond x = 20: 15 · 20 · 20 (CALC).
    assert done.mesh.signed_volume_mm3 == pytest.approx(7000.0 + 6000.0)
    cosine = (done.mesh.face_normals * part.face_normals[done.origin_face]).sum(axis=1)
    assert cosine.min() > 1.0 - 1e-9


def test_what_is_no_pair_of_solids_is_left_alone():
    for part in (
        cube(20.0),
        sealed_cavity(),
        joined(cube(20.0), Mesh(cube(5.0).vertices_mm + 30.0, cube(5.0).faces[1:])),
    ):
        np.testing.assert_array_equal(unite_shells(part).faces, part.faces)


def test_bodies_inside_out_are_turned_first_and_a_cancel_is_heard():
    pair = joined(turned_inside_out(cube(20.0)), moved(cube(20.0), (10, 10, 10)))
    assert unite_shells(pair).mesh.signed_volume_mm3 == pytest.approx(15000.0)
    stopped = Progress()
    stopped.cancel()
    with pytest.raises(Cancelled):
        unite_shells(pair, progress=stopped)
