"""What a part can be stood on: faces of known boxes, prisms and rounds, and what a ray meets."""

import numpy as np
import pytest
import trimesh
from hypothesis import given
from hypothesis import strategies as st

from tests.shapes import box, cylinder, joined, moved, post_and_cap, sphere, without_faces
from viewer.geometry.hull_faces import hull_face_under, hull_faces
from viewer.geometry.mesh import Mesh
from viewer.geometry.pose import Pose, rotation


def test_box_has_six_stable_faces_with_the_margins_of_row_38():
    """Box 10 × 40 × 100: on its smallest side the centre of mass is 5 mm inside the rim."""
    faces = hull_faces(box((500, 0, 0), (510, 40, 100)))
    assert [face.area_mm2 for face in faces] == pytest.approx([4000, 4000, 1000, 1000, 400, 400])
    assert [face.margin_mm for face in faces] == pytest.approx([20, 20, 5, 5, 5, 5])
    assert all(face.stable and len(face.polygon_mm) == 4 for face in faces)
    tip_deg = np.degrees(np.arctan(faces[-1].margin_mm / 50.0))
    assert tip_deg == pytest.approx(5.71, abs=0.005)  # CALC, check-values row 38


@given(
    st.tuples(*[st.floats(-1, 1)] * 3).filter(lambda v: np.linalg.norm(v) > 0.1),
    st.floats(0, 360),
    st.floats(-1e4, 1e4),
)
def test_faces_turn_and_move_with_the_part(up, spin_deg, far_mm):
    start, turn = box((0, 0, 0), (10, 20, 30)), rotation(Pose(up, spin_deg))
    shift = np.array([far_mm, 0, -far_mm])
    turned = Mesh(start.vertices_mm @ turn.T + shift, start.faces)
    before, after = hull_faces(start), hull_faces(turned)
    assert [f.area_mm2 for f in after] == pytest.approx([f.area_mm2 for f in before], rel=1e-6)
    normals = np.array([f.normal for f in after])
    for face in before:
        twin = after[int((normals @ (turn @ face.normal)).argmax())]
        np.testing.assert_allclose(twin.normal, turn @ face.normal, atol=1e-6)
        middle = turn @ face.polygon_mm.mean(axis=0) + shift
        np.testing.assert_allclose(twin.polygon_mm.mean(axis=0), middle, atol=1e-5)


def test_a_leaning_prism_has_no_margin_on_its_base():
    """Prism 20 × 20 × 60 sheared by 20 over its height: margin 0 (CALC, row 39)."""
    upright = box((0, 0, 0), (20, 20, 60))
    shear = np.eye(3)
    shear[0, 2] = 20 / 60
    leaning = Mesh(upright.vertices_mm @ shear.T, upright.faces)
    base = next(face for face in hull_faces(leaning) if face.normal[2] < -0.999)
    assert base.margin_mm == pytest.approx(0.0, abs=1e-9)


def test_centre_of_mass_is_the_part_s_not_the_hull_s():
    """A heavy cap off one end of a plate makes the plate tip, though the hull would stand."""
    plate, weight = box((0, 0, 0), (10, 10, 1)), box((8, 0, 1), (40, 10, 30))
    part = joined(plate, weight)
    base = next(face for face in hull_faces(part) if face.normal[2] < -0.99999)
    assert base.polygon_mm[:, 0].max() == pytest.approx(10.0)
    assert not base.stable
    whole = trimesh.Trimesh(part.vertices_mm, part.faces, process=False)
    assert base.margin_mm == pytest.approx(10.0 - whole.center_mass[0], abs=1e-6)


def test_an_open_part_is_taken_as_its_hull():
    faces = hull_faces(without_faces(box((0, 0, 0), (10, 10, 10)), range(3)))
    assert len(faces) == 6
    assert [face.margin_mm for face in faces] == pytest.approx([5.0] * 6)


def test_ends_of_a_cylinder_are_faces_and_its_round_is_none():
    faces = hull_faces(cylinder(10.0, 30.0))
    assert len([face for face in faces if abs(face.normal[2]) > 0.999]) == 2
    assert faces[0].area_mm2 == pytest.approx(np.pi * 100, rel=1e-4)
    assert hull_faces(sphere(10.0, 5)) == ()


def test_a_hollow_side_is_spanned():
    """A post under a cap: the hull's slanting sides count, the inner corners do not."""
    faces = hull_faces(post_and_cap())
    assert len(faces) == 10  # bottom, top, four rims of the cap, four slanting sides
    assert len([f for f in faces if -0.9 < f.normal[2] < -0.1]) == 4


@pytest.mark.parametrize(
    "mesh", [Mesh(np.zeros((0, 3)), np.zeros((0, 3))), box((0, 0, 0), (5, 5, 0))]
)
def test_flat_or_empty_has_no_faces(mesh):
    assert hull_faces(mesh) == ()


@given(st.tuples(st.floats(0.5, 9.5), st.floats(0.5, 19.5)))
def test_a_ray_meets_the_nearest_face_only(place):
    faces = hull_faces(moved(box((0, 0, 0), (10, 20, 30)), (100, 0, 0)))
    origin = np.array([100 + place[0], place[1], 500.0])
    face = hull_face_under(faces, origin, np.array([0.0, 0.0, -1.0]))
    np.testing.assert_allclose(face.normal, [0, 0, 1])
    assert hull_face_under(faces, origin, np.array([0.0, 0.0, 1.0])) is None
    assert hull_face_under(faces, origin - [20, 0, 0], np.array([0.0, 0.0, -1.0])) is None
