"""Pieces add up to the whole, are closed by two independent libraries, and keep their classes."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests import shapes
from tests.few import few
from tests.shared_meshes import names, open_mesh
from tests.solids import assert_closed_by_two_libraries
from viewer.errors import RequestProblem
from viewer.files.mesh_files import read_part
from viewer.geometry.closed_part import closed_part
from viewer.geometry.cut_pieces import (
    CutPlane,
    bodies,
    box_planes,
    cut_out,
    cut_pieces,
    largest_body,
    pose_on_cut_face,
)
from viewer.geometry.prepared_part import prepare_part

SOLIDS = {
    "cube": shapes.cube(),
    "post and cap": shapes.post_and_cap(),
    "C-bracket": shapes.c_bracket(),
    "tunnel": shapes.tunnel(),
    "sealed cavity": shapes.sealed_cavity(),
    "torus": shapes.torus(around=48, facets=36),
    "sphere": shapes.sphere(subdivisions=3),
    "cone": shapes.cone(10.0, 40.0),
    "spiky table": shapes.of_solid(shapes.spiky_table(4)),
    "coil": shapes.coil(),
}
CLOSED = {name: closed_part(prepare_part(mesh)) for name, mesh in SOLIDS.items()}


def assert_adds_up(part, pieces):
    for piece in pieces:
        assert_closed_by_two_libraries(piece.mesh)
        assert piece.volume_mm3 > 0
    whole = part.mesh.signed_volume_mm3
    assert sum(piece.volume_mm3 for piece in pieces) == pytest.approx(whole, rel=1e-9)
    # What is new are the cut faces alone, and each of them belongs to two pieces.
    surface = sum(float(piece.mesh.face_areas_mm2.sum()) for piece in pieces)
    cut = sum(piece.cut_area_mm2 for piece in pieces)
    assert surface - cut == pytest.approx(float(part.mesh.face_areas_mm2.sum()), rel=1e-9)


def direction():
    number = st.floats(-1, 1, allow_subnormal=False)
    return st.tuples(number, number, number).filter(lambda v: np.linalg.norm(v) > 0.1)


@settings(max_examples=few(20, 60), deadline=None)
@given(st.sampled_from(sorted(SOLIDS)), direction(), st.floats(0.05, 0.95), direction())
def test_any_two_planes_leave_closed_pieces_that_add_up(name, normal, share, second):
    part = CLOSED[name]
    low, high = part.mesh.box_mm
    point = tuple(low + share * (high - low))
    try:
        made = cut_pieces(part, [CutPlane(point, normal), CutPlane(point, second)])
    except RequestProblem:
        return
    assert 2 <= len(made.pieces) <= 4
    assert_adds_up(part, made.pieces)
    for k, plane in enumerate((CutPlane(point, normal), CutPlane(point, second))):
        for piece in made.pieces:
            height = (piece.mesh.vertices_mm - plane.point_mm) @ np.array(plane.normal)
            if piece.sides[k]:
                assert (piece.sides[k] * height).min() > -1e-4
            caps = piece.origin_face == -1 - k
            np.testing.assert_allclose(height[piece.mesh.faces[caps]], 0, atol=1e-4)
            facing = piece.mesh.face_normals[caps][piece.mesh.face_areas_mm2[caps] > 1e-6]
            wanted = np.broadcast_to(-piece.sides[k] * np.array(plane.normal), facing.shape)
            np.testing.assert_allclose(facing, wanted, atol=1e-3)


@pytest.mark.parametrize(
    ("name", "planes", "volumes"),
    [
        ("cube", [((0, 0, 0), (0, 0, 1))], [4000, 4000]),
        ("cube", [((0, 0, 0), (1, 0, 0)), ((0, 0, 0), (0, 1, 0))], [2000] * 4),
        ("cube", [((0, 0, -5), (0, 0, 1)), ((0, 0, 5), (0, 0, 1))], [2000, 4000, 2000]),
        ("cube", [((0, 0, 0), (1, 1, 0))], [4000, 4000]),  # through four corners
        ("cube", [((10, 0, 0), (1, 1, 1))], [20**3 - 4000 / 3, 4000 / 3]),  # through three corners
        ("post and cap", [((0, 0, 20), (0, 0, 1))], [2000, 4500]),  # in the plane of a face
        ("post and cap", [((0, 0, 20), (0, 0, -1))], [4500, 2000]),
        ("C-bracket", [((0, 0, 15), (0, 0, 1))], [5000, 5000]),
        ("sealed cavity", [((0, 0, 10), (0, 0, 1))], [3500, 3500]),
    ],
)
def test_closed_forms(name, planes, volumes):
    """CALC: boxes; a corner tetrahedron of legs 20 holds 20³/6."""
    part = CLOSED[name]
    made = cut_pieces(part, [CutPlane(*plane) for plane in planes])
    found = [piece.volume_mm3 for piece in made.pieces]
    assert found == pytest.approx(volumes, rel=1e-9)
    assert made.notes == ()
    assert_adds_up(part, made.pieces)


def test_the_cut_face_in_the_plane_of_a_face_is_the_post_alone():
    made = cut_pieces(CLOSED["post and cap"], [CutPlane((0, 0, 20), (0, 0, 1))])
    assert [piece.cut_area_mm2 for piece in made.pieces] == pytest.approx([100, 100])


def test_classes_and_faces_are_carried_over():
    mesh = SOLIDS["torus"]
    classes = (np.arange(mesh.face_count) % 3).astype(np.uint8)
    part = CLOSED["torus"]
    made = cut_pieces(part, [CutPlane((3, 2, 1), (1, 2, 3)), CutPlane((0, 0, 0), (0, 1, 0))])
    for face_class in (1, 2):
        whole = mesh.face_areas_mm2[classes == face_class].sum()
        parts = sum(
            piece.mesh.face_areas_mm2[piece.classes(classes) == face_class].sum()
            for piece in made.pieces
        )
        assert parts == pytest.approx(whole, rel=1e-9)
    for piece in made.pieces:
        kept = (piece.origin_face >= 0) & (piece.mesh.face_areas_mm2 > 1e-6)
        own = piece.mesh.face_normals[kept]
        np.testing.assert_allclose(own, mesh.face_normals[piece.origin_face[kept]], atol=1e-6)
        assert (piece.classes(classes)[piece.origin_face < 0] == 0).all()


def test_touching_and_overlapping_bodies_are_cut_as_one():
    """Row 23 (CALC): both are the post and cap of 6500 mm³; united bodies keep a skin of 1 µm."""
    for mesh in (shapes.post_touching_cap(), shapes.post_inside_cap()):
        part = closed_part(prepare_part(mesh))
        made = cut_pieces(part, [CutPlane((15, 15, 0), (1, 0, 0))])
        assert_adds_up(part, made.pieces)
        assert sum(piece.volume_mm3 for piece in made.pieces) == pytest.approx(6500, rel=1e-3)
        assert made.notes == ("Its bodies overlap or touch; they were united.",)


@pytest.mark.parametrize("fault", ["hole", "turned", "doubled", "inside out", "crack"])
def test_small_faults_are_mended_first_and_said(fault):
    sound = shapes.sphere(subdivisions=3)
    faulty = {
        "hole": lambda: shapes.without_faces(sound, [7]),
        "turned": lambda: type(sound)(
            sound.vertices_mm, np.vstack([sound.faces[:1, ::-1], sound.faces[1:]])
        ),
        "doubled": lambda: type(sound)(sound.vertices_mm, np.vstack([sound.faces, sound.faces[5]])),
        "inside out": lambda: shapes.turned_inside_out(sound),
        "crack": lambda: type(sound)(
            np.vstack([sound.vertices_mm, sound.vertices_mm[sound.faces[3]] + 1e-6]),
            np.vstack([np.delete(sound.faces, 3, axis=0), len(sound.vertices_mm) + np.arange(3)]),
        ),
    }[fault]()
    part = closed_part(prepare_part(faulty))
    assert part.closed
    assert part.sentence.startswith("It was mended first.")
    made = cut_pieces(part, [CutPlane((1, 2, 3), (1, -1, 2))])
    assert made.notes[0] == part.sentence
    assert_adds_up(part, made.pieces)
    total = sum(piece.volume_mm3 for piece in made.pieces)
    assert total == pytest.approx(sound.signed_volume_mm3, rel=2e-3)


def test_a_plane_beside_the_part_is_refused_by_its_number():
    with pytest.raises(RequestProblem, match="Plane 2 does not meet the part"):
        cut_pieces(
            CLOSED["cube"], [CutPlane((0, 0, 0), (0, 0, 1)), CutPlane((0, 0, 9e9), (0, 0, 1))]
        )
    with pytest.raises(RequestProblem, match="direction that is not zero"):
        CutPlane((0, 0, 0), (0, 0, 0))


def test_a_box_is_cut_out():
    part = CLOSED["post and cap"]
    planes = box_planes(np.array([5, 5, 18]), np.array([15, 35, 22]), np.eye(3))
    (piece,) = cut_out(part, planes).pieces
    # CALC: post 5 × 10 × 2, cap 10 × 25 × 2.
    assert piece.volume_mm3 == pytest.approx(100 + 500)
    assert_closed_by_two_libraries(piece.mesh)
    with pytest.raises(RequestProblem, match="Nothing of the part lies there"):
        cut_out(part, box_planes(np.array([0, 0, 0]), np.array([5, 5, 5]), np.eye(3)))


def test_bodies_are_told_apart_and_the_largest_is_kept():
    part = CLOSED["C-bracket"]
    far = cut_pieces(part, [CutPlane((20, 0, 0), (1, 0, 0))]).pieces[1]
    assert bodies(far) == 2
    assert largest_body(far).volume_mm3 == pytest.approx(20 * 5 * 20)
    hollow = cut_pieces(CLOSED["sealed cavity"], [CutPlane((0, 0, 18), (0, 0, 1))]).pieces[0]
    assert bodies(hollow) == 1
    assert pose_on_cut_face(hollow).up == pytest.approx((0, 0, -1))


@pytest.mark.parametrize("name", names(".stl")[::6])
def test_real_meshes_are_cut_whatever_is_wrong_with_them(name):
    mesh = read_part(open_mesh(name)).part.mesh
    if mesh.face_count > 60_000:
        pytest.skip("large; the slow check cuts it")
    part = closed_part(prepare_part(mesh))
    middle = tuple(part.mesh.box_mm.mean(axis=0))
    made = cut_pieces(part, [CutPlane(middle, (0.3, 0.5, 0.8))])
    total = sum(piece.volume_mm3 for piece in made.pieces)
    assert total == pytest.approx(part.mesh.signed_volume_mm3, rel=1e-6)
    if part.closed and not any("touch along" in note for note in made.notes):
        for piece in made.pieces:
            assert_closed_by_two_libraries(piece.mesh)
