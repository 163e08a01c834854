"""A new skin around whatever is faulty: closed, sound, in its place, with the classes it had."""

import math

import numpy as np
import pytest
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.few import few
from tests.geometry.mend.judges import accepted, distances_mm
from tests.geometry.mend.test_steps import ASKED_CASES, SAFE_CASES, holes, some_turned, soup
from tests.shapes import box, cube, joined, moved, sealed_cavity, sphere, turned_inside_out
from viewer.errors import Cancelled, RequestProblem
from viewer.geometry.deviation import find_deviation, one_way
from viewer.geometry.face_faults import find_face_faults
from viewer.geometry.known_of_mesh import neighbours_of
from viewer.geometry.mend.enclosed_lattice import find_enclosed, lattice_over
from viewer.geometry.mend.lattice_surface import lattice_surface
from viewer.geometry.mend.mended import carry_classes
from viewer.geometry.mend.re_skin import finest_resolution_mm, re_skin, usual_resolution_mm
from viewer.geometry.mend.steps import SAFE, step_named, take
from viewer.geometry.mesh import Mesh
from viewer.geometry.mesh_faults import find_mesh_faults
from viewer.geometry.ray_tree import build_ray_tree
from viewer.geometry.self_intersections import find_self_intersections
from viewer.progress import Progress

SHEETS = ("sheet", "doubled sheet")
CASES = SAFE_CASES | {name: case for name, case in ASKED_CASES.items() if name not in SHEETS}
FINE_MM = 0.5
DISTANCE = math.sqrt(8.0**2 + 1.0 + 2.0**2)
# Two balls of radius 10 this far apart share a lens of π (4r + d)(2r − d)² / 12 (Weisstein,
# "Sphere-Sphere Intersection", MathWorld, for equal radii; MEM).
LENS_MM3 = math.pi * (40.0 + DISTANCE) * (20.0 - DISTANCE) ** 2 / 12.0


def assert_sound(mesh: Mesh) -> None:
    assert accepted(mesh) == ""
    faces = find_face_faults(mesh)
    assert not len(faces.degenerate)
    assert len(faces.sliver) <= 0.01 * mesh.face_count
    assert not len(find_self_intersections(mesh, neighbours_of(mesh)).crossing)


@pytest.mark.parametrize("case", CASES)
def test_every_faulty_shape_gets_a_sound_skin_of_its_volume(case):
    mesh, volume_mm3 = CASES[case]
    skin = re_skin(mesh, FINE_MM).mesh
    assert_sound(skin)
    if case == "all together":  # what the ball lost above 9 mm is closed flat: a cap of height 1
        volume_mm3 -= math.pi * 1.0 * (3 * 10.0 - 1.0) / 3.0
    if case == "a cap is missing":  # likewise, of height 2
        volume_mm3 -= math.pi * 4.0 * (3 * 10.0 - 2.0) / 3.0
    assert skin.signed_volume_mm3 == pytest.approx(volume_mm3, rel=0.005)
    faults = find_mesh_faults(skin)
    assert not len(faults.touching_faces)
    assert faults.shells.inward_shells == 0


def test_overlapping_balls_become_their_union():
    ball = sphere(10.0, 5)
    skin = re_skin(joined(ball, moved(ball, (8.0, 1.0, 2.0))), 0.4).mesh
    assert_sound(skin)
    truth = 2.0 * 4.0 / 3.0 * math.pi * 1000.0 - LENS_MM3
    assert skin.signed_volume_mm3 == pytest.approx(truth, rel=0.002)
    assert trimesh.Trimesh(skin.vertices_mm, skin.faces, process=False).body_count == 1


def test_a_cavity_stays_hollow():
    part = sealed_cavity()
    skin = re_skin(part, FINE_MM).mesh
    assert_sound(skin)
    assert skin.signed_volume_mm3 == pytest.approx(part.signed_volume_mm3, rel=0.005)
    assert find_mesh_faults(skin).shells.cavities == 1


@pytest.mark.parametrize("resolution_mm", [0.4, 1.0])
@pytest.mark.parametrize("shape", ["ball", "cube", "turned cube"])
def test_no_place_moves_farther_than_the_resolution(shape, resolution_mm):
    turned = trimesh.transformations.rotation_matrix(0.7, [1.0, 2.0, 3.0])[:3, :3]
    mesh = {
        "ball": sphere(10.0, 5),
        "cube": cube(20.0),
        "turned cube": Mesh(cube(20.0).vertices_mm @ turned.T, cube(20.0).faces),
    }[shape]
    skin = re_skin(mesh, resolution_mm).mesh
    assert_sound(skin)
    found = find_deviation(mesh, skin)
    assert found.max_mm <= resolution_mm
    # Vertices lie on the old surface, up to the 0.002 mm they keep from a node.
    if shape == "ball":
        return
    at_vertices = distances_mm(mesh, skin.vertices_mm)
    assert at_vertices.max() <= 0.002 + 1e-9


def test_flat_faces_stay_flat_and_get_few_faces():
    mesh = box([0.0, 0.0, 0.0], [30.0, 20.0, 10.0])
    skin = re_skin(mesh, 0.3)
    assert_sound(skin.mesh)
    areas, normals = skin.mesh.face_areas_mm2, skin.mesh.face_normals
    flat = np.abs(normals).max(axis=1) > 1.0 - 1e-9
    assert areas[flat].sum() > 0.98 * areas.sum()
    assert skin.mesh.face_count < 0.1 * 12.0 * areas.sum() / 0.3**2
    # On flat ground each new face follows an old one that it lies on.
    assert (normals[flat] * mesh.face_normals[skin.origin_face[flat]]).sum(axis=1).min() > 0.999


def test_classes_stay_where_they_were():
    ball = sphere(10.0, 5)
    middles = ball.corners_mm.mean(axis=1)
    classes = np.where(middles[:, 2] > 4.0, 1, np.where(middles[:, 0] > 3.0, 2, 0)).astype(np.uint8)
    skin = re_skin(holes(ball, 9.5), 0.25)
    kept = np.flatnonzero(ball.corners_mm[:, :, 2].mean(axis=1) <= 9.5)
    carried = carry_classes(classes[kept], skin.origin_face)
    places = skin.mesh.corners_mm.mean(axis=1)
    wanted = np.where(places[:, 2] > 4.0, 1, np.where(places[:, 0] > 3.0, 2, 0))
    clear = (abs(places[:, 2] - 4.0) > 0.4) & (abs(places[:, 0] - 3.0) > 0.4)
    assert clear.mean() > 0.8
    assert (carried == wanted)[clear].all()


def test_both_sides_of_a_thin_wall_keep_their_own_class():
    plate = box([0.0, 0.0, 0.0], [20.0, 20.0, 1.0])
    top = (plate.face_normals[:, 2] > 0.5).astype(np.uint8)
    skin = re_skin(plate, 0.4)
    carried = carry_classes(top, skin.origin_face)
    upward = skin.mesh.face_normals[:, 2]
    assert (carried[upward > 0.9] == 1).all()
    assert (carried[upward < 0.1] == 0).all()


def test_a_curved_hole_is_closed_by_a_surface_that_bulges_with_it():
    """The rim of the hole runs round a corner: the lid bends with it, and does not stick out."""
    ball = sphere(10.0, 4)
    middles = ball.corners_mm.mean(axis=1)
    gone = (middles[:, 2] > 6.0) | ((middles[:, 2] > 2.0) & (middles[:, 0] > 7.0))
    open_ball = Mesh(ball.vertices_mm, ball.faces[~gone])
    skin = re_skin(open_ball, 0.5).mesh
    assert_sound(skin)
    assert np.linalg.norm(skin.vertices_mm, axis=1).max() <= 10.0 + 0.1
    assert one_way(open_ball, skin).max_mm <= 0.5  # all that is there is kept


@pytest.mark.parametrize("case", SHEETS)
def test_a_sheet_is_sent_to_get_a_wall(case):
    with pytest.raises(RequestProblem, match="thicken-sheet"):
        re_skin(ASKED_CASES[case][0], 0.5)


def test_a_shallow_bowl_is_not_filled_up():
    ball = sphere(10.0, 4)
    bowl = Mesh(ball.vertices_mm, ball.faces[ball.corners_mm[:, :, 2].mean(axis=1) < -7.0])
    with pytest.raises(RequestProblem, match="thicken-sheet"):
        re_skin(bowl, 0.3)


def test_resolutions_out_of_reach_are_refused_with_what_to_choose():
    mesh = cube(20.0)
    for resolution_mm in (0.0, -1.0, 0.001, 25.0, math.nan):
        with pytest.raises(RequestProblem, match="choose a resolution"):
            re_skin(mesh, resolution_mm)
    assert finest_resolution_mm(mesh) < usual_resolution_mm(mesh) < 1.0
    large = cube(300.0)
    assert finest_resolution_mm(large) > 1.0  # 20 million cells
    finest = finest_resolution_mm(large)
    assert lattice_over(large.box_mm, finest).cells <= 20_000_000
    assert usual_resolution_mm(cube(2.0)) == pytest.approx(0.14)  # a third of a road


def test_it_is_a_step_that_needs_a_word():
    step = step_named("re-skin", cube(40.0))
    assert "re-skin" not in SAFE
    assert not step.safe
    assert step.length_option == "resolution_mm"
    assert dict(step.options) == {"resolution_mm": usual_resolution_mm(cube(40.0))}
    skin = take(step.with_options(resolution_mm=2.0), cube(40.0))
    assert accepted(skin.mesh) == ""


def test_a_cancel_is_heard_and_progress_only_grows():
    told: list[float] = []
    progress = Progress(lambda fraction, doing: told.append(fraction))
    re_skin(holes(sphere(10.0, 4), 8.0), 0.4, progress)
    assert told == sorted(told)
    assert len(told) > 20
    stopped = Progress()
    stopped.cancel()
    with pytest.raises(Cancelled):
        re_skin(cube(20.0), 0.5, stopped)


@settings(max_examples=few(10, 30), deadline=None)
@given(seed=st.integers(0, 2**32 - 1), share=st.floats(0.02, 0.6))
def test_any_choice_of_nodes_gives_a_closed_surface_that_never_crosses_itself(seed, share):
    """Whatever lies inside: the surface has two faces at every edge, and holds what it should."""
    rng = np.random.default_rng(seed)
    lattice = lattice_over(np.array([[0.0, 0, 0], [3.0, 4.0, 5.0]]), 1.0)
    points = rng.normal(size=(3, 3)) * 1e-3 - 50.0  # a surface far away: no ray meets it
    faces = np.array([[0, 1, 2]], np.int32)
    enclosed = find_enclosed(points, faces, lattice)
    inside = np.zeros((2, lattice.nx, lattice.ny, lattice.nz), bool)
    inside[:, 2:-2, 2:-2, 2:-2] = rng.random(inside[:, 2:-2, 2:-2, 2:-2].shape) < share
    inside = np.ascontiguousarray(inside.transpose(0, 2, 1, 3)).reshape(2, -1)
    winding = inside.astype(np.int16)
    enclosed = enclosed._replace(inside=inside, winding=winding, lids=None)
    found = lattice_surface(lattice, enclosed, build_ray_tree(points, faces))
    if not inside.any():
        assert not len(found.faces)
        return
    mesh = Mesh(found.points_mm, found.faces)
    assert accepted(mesh) == ""
    assert not len(find_self_intersections(mesh, neighbours_of(mesh)).crossing)
    # Each vertex lies midway: every node inside has a volume between those of its neighbours' cells
    # cut in half and whole, so the whole is bounded by the number of nodes (CALC).
    assert 0.0 < mesh.signed_volume_mm3 <= inside.sum() * 1.0
    assert found.made_up.all()


def test_turned_faces_of_a_soup_and_a_body_inside_out_are_one_to_it():
    ball = sphere(10.0, 4)
    plain = re_skin(ball, 0.5).mesh
    for other in (turned_inside_out(ball), some_turned(soup(ball))):
        skin = re_skin(other, 0.5).mesh
        np.testing.assert_array_equal(skin.vertices_mm, plain.vertices_mm)
        np.testing.assert_array_equal(np.sort(skin.faces, 0), np.sort(plain.faces, 0))
