"""What an eye sees: closed forms on a ball, and rays of an independent library elsewhere."""

import numpy as np
import pytest
import trimesh

from tests.shapes import box, coil, joined, moved, sphere, torus, without_faces
from viewer.errors import Cancelled
from viewer.geometry.mesh import Mesh
from viewer.geometry.visible_faces import (
    HIDDEN,
    PARTLY,
    WHOLE,
    eye_on,
    most_seen,
    ring_of_eyes,
)
from viewer.progress import Progress


@pytest.mark.parametrize("distance", [15.0, 30.0, 200.0])
def test_of_a_ball_the_cap_up_to_the_tangents_is_seen(distance):
    ball = sphere(10.0, 6)
    seen = (
        most_seen(ball.vertices_mm, ball.faces, [eye_on((distance, 0, 0), ball.box_mm)]).faces > 0
    )
    cap = 2.0 * np.pi * 10.0**2 * (1.0 - 10.0 / distance)
    assert ball.face_areas_mm2[seen].sum() == pytest.approx(cap, rel=0.01)


@pytest.mark.parametrize(
    "mesh",
    [torus(20.0, 5.0, 96, 144), coil(), joined(sphere(6.0, 4), moved(sphere(3.0, 4), (9, 1, 0)))],
)
def test_rays_agree_about_the_middle_of_faces(mesh):
    eyes = ring_of_eyes((0, 0, 1), 25.0, 120.0, 5, mesh.box_mm)
    solid = trimesh.Trimesh(mesh.vertices_mm, mesh.faces, process=False)
    middle = mesh.corners_mm.mean(axis=1)
    for eye in eyes:
        seen = most_seen(mesh.vertices_mm, mesh.faces, [eye]).faces > 0
        away = eye.place_mm - middle
        away /= np.linalg.norm(away, axis=1)[:, None]
        facing = np.einsum("ij,ij->i", away, mesh.face_normals) > 0.0
        free = facing & ~solid.ray.intersects_any(middle + 1e-4 * away, away)
        areas = mesh.face_areas_mm2
        # A face of which only a rim is seen counts, though a ray from its middle is stopped.
        assert areas[free & ~seen].sum() < 0.002 * areas.sum()
        assert areas[seen & ~free].sum() < 0.02 * areas.sum()


def test_eyes_all_round_see_all_of_a_ball_and_one_eye_half():
    ball = sphere(10.0, 5)
    eyes = ring_of_eyes((1, 2, 3), 0.0, 1e5, 12, ball.box_mm)
    seen = sum(
        (most_seen(ball.vertices_mm, ball.faces, [eye]).faces > 0).astype(int) for eye in eyes
    )
    # From far away each of 12 eyes sees a half: every face is seen by 6, give or take its own size.
    assert set(np.unique(seen)) <= {0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12}
    assert np.average(seen, weights=ball.face_areas_mm2) == pytest.approx(6.0, abs=0.05)


def test_a_wall_hides_what_is_behind_it():
    wall, hidden = box((-10, -1, -10), (10, 1, 10)), box((-2, 5, -2), (2, 9, 2))
    both = joined(wall, hidden)
    seen = (
        most_seen(both.vertices_mm, both.faces, [eye_on((0.0, -60.0, 0.0), both.box_mm)]).faces > 0
    )
    assert seen[:12].sum() == 2  # the front of the wall
    assert not seen[12:].any()


def test_the_inside_of_an_open_shell_is_seen_where_both_sides_count():
    ball = sphere(10.0, 4)
    cup = without_faces(ball, np.flatnonzero(ball.corners_mm[:, :, 0].min(axis=1) > 5.0))
    eye = [eye_on((80.0, 0.0, 0.0), cup.box_mm)]
    outside = most_seen(cup.vertices_mm, cup.faces, eye).faces > 0
    both = most_seen(cup.vertices_mm, cup.faces, eye, both_sides=True).faces > 0
    facing_away = cup.face_normals[:, 0] < -0.5
    assert not outside[facing_away].any()
    assert both[
        facing_away & (np.linalg.norm(cup.corners_mm.mean(axis=1)[:, 1:], axis=1) < 6)
    ].all()


def test_seeing_follows_the_part_when_it_is_turned_and_moved():
    mesh = coil()
    turn = trimesh.transformations.rotation_matrix(1.1, (1.0, 2.0, 3.0))[:3, :3]
    shift = np.array([5000.0, -200.0, 30.0])
    moved_mesh = Mesh(mesh.vertices_mm @ turn.T + shift, mesh.faces)
    place = np.array([70.0, 20.0, 35.0])
    one = most_seen(mesh.vertices_mm, mesh.faces, [eye_on(place, mesh.box_mm)]).faces > 0
    other_eye = eye_on(turn @ place + shift, moved_mesh.box_mm)
    other = most_seen(moved_mesh.vertices_mm, moved_mesh.faces, [other_eye]).faces > 0
    differing = mesh.face_areas_mm2[one != other].sum()
    assert differing < 0.01 * mesh.face_areas_mm2.sum()


def test_a_cancel_ends_the_looking():
    ball = sphere(10.0, 5)
    progress = Progress()
    progress.cancel()
    with pytest.raises(Cancelled):
        most_seen(ball.vertices_mm, ball.faces, [eye_on((50, 0, 0), ball.box_mm)], False, progress)


def test_faces_of_a_convex_solid_are_seen_whole_and_behind_a_wall_in_part():
    block = box((0, 0, 0), (20, 30, 40))
    eyes = ring_of_eyes((0, 0, 1), 30.0, 300.0, 7, block.box_mm)
    assert set(most_seen(block.vertices_mm, block.faces, eyes).faces) == {HIDDEN, WHOLE}
    wall, behind = box((-5, -1, -5), (5, 1, 5)), box((-20, 5, -20), (20, 9, 20))
    both = joined(wall, behind)
    seen = most_seen(both.vertices_mm, both.faces, [eye_on((0.0, -300.0, 0.0), both.box_mm)]).faces
    front = both.face_normals[:, 1] < -0.5
    assert np.array_equal(seen[:12] == WHOLE, front[:12])
    assert np.array_equal(seen[12:] == PARTLY, front[12:])


def test_of_some_faces_the_same_is_said_as_of_all_and_which_eyes_see_them_in_part():
    wall, behind = box((-5, -1, -5), (5, 1, 5)), box((-20, 5, -20), (20, 9, 20))
    mesh = joined(joined(wall, behind), moved(torus(8.0, 2.0, 24, 36), (0, -12, 0)))
    eyes = ring_of_eyes((0, 0, 1), 20.0, 90.0, 5, mesh.box_mm)
    every = most_seen(mesh.vertices_mm, mesh.faces, eyes)
    alone = [most_seen(mesh.vertices_mm, mesh.faces, [eye]).faces for eye in eyes]
    assert np.array_equal(every.faces, np.max(alone, axis=0))
    partly = every.faces == PARTLY
    assert np.any(partly)
    assert every.eyes_in_part.tolist() == [bool((one[partly] == PARTLY).any()) for one in alone]
    asked = np.random.default_rng(5).random(mesh.face_count) < 0.02
    some = most_seen(mesh.vertices_mm, mesh.faces, eyes, asked=asked)
    assert np.array_equal(some.faces[asked], every.faces[asked])
    assert not some.faces[~asked].any()
    one = most_seen(mesh.vertices_mm, mesh.faces, eyes, asked=np.arange(mesh.face_count) == 14)
    assert one.faces[14] == every.faces[14]
    none = most_seen(mesh.vertices_mm, mesh.faces, eyes, asked=np.zeros(mesh.face_count, bool))
    assert not none.faces.any()
