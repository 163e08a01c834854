"""What a step changes: the largest distance moved against a slower count, and results handed on."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.few import few
from tests.geometry.mend.judges import distances_mm
from tests.shapes import box, cube, joined, moved, sphere, turned_inside_out, without_faces
from viewer.geometry.mend import steps
from viewer.geometry.mend.faults_left import faults_left_of, find_faults_left
from viewer.geometry.mend.mend_effect import largest_moved_mm, preview
from viewer.geometry.mend.mended import after, unchanged
from viewer.geometry.mend.plan_mending import plan_mending, take_all
from viewer.geometry.mend.steps import step_named, take
from viewer.geometry.mesh import Mesh
from viewer.geometry.mesh_faults import find_mesh_faults


def moved_by_looking_at_all(before: Mesh, now: Mesh) -> float:
    """The same by sets of plain numbers and trimesh, face by face."""
    corners = {tuple(point) for point in (before.vertices_mm + 0.0).tolist()}
    known = {frozenset(map(tuple, face)) for face in (before.corners_mm + 0.0).tolist()}
    points = []
    for face in (now.corners_mm + 0.0).tolist():
        points += [point for point in face if tuple(point) not in corners]
        if frozenset(map(tuple, face)) not in known:
            points.append(np.mean(face, axis=0))
    return float(distances_mm(before, np.array(points)).max()) if points else 0.0


@settings(max_examples=few(10, 30), deadline=None)
@given(seed=st.integers(0, 2**32 - 1))
def test_the_largest_distance_is_that_over_all_that_is_new(seed):
    rng = np.random.default_rng(seed)
    ball = sphere(10.0, 1)
    points = ball.vertices_mm.copy()
    away = rng.choice(len(points), rng.integers(0, 5), replace=False)
    points[away] += rng.normal(size=(len(away), 3))
    kept = rng.random(ball.face_count) > 0.1
    faces = ball.faces[kept][rng.permutation(np.count_nonzero(kept))]
    order = rng.permutation(len(points))  # other numbers for the same places
    number = np.empty(len(points), np.int32)
    number[order] = np.arange(len(points))
    now = Mesh(points[order], np.roll(number[faces], 1, axis=1))
    for other in (now, turned_inside_out(now)):
        truth = moved_by_looking_at_all(ball, other)
        assert largest_moved_mm(ball, other) == pytest.approx(truth, rel=1e-9, abs=1e-12)


def test_closed_forms_of_the_largest_distance():
    part = cube(20.0)
    assert largest_moved_mm(part, turned_inside_out(part)) == 0.0
    assert largest_moved_mm(part, without_faces(part, [3])) == 0.0
    assert largest_moved_mm(part, moved(part, (0.5, 0.0, 0.0))) == pytest.approx(0.5)
    # The middle of a new face over an open square of 20: its foot on the next wall is a third of
    # 20 away (CALC).
    lid = np.flatnonzero(part.face_normals[:, 2] > 0.5)
    filled = largest_moved_mm(without_faces(part, lid), part)
    assert filled == pytest.approx(20.0 / 3.0)
    negative_zero = Mesh(np.where(part.vertices_mm == 0.0, -0.0, part.vertices_mm), part.faces)
    assert largest_moved_mm(part, negative_zero) == 0.0
    assert largest_moved_mm(part, Mesh(part.vertices_mm, np.empty((0, 3), np.int32))) == 0.0
    apart = joined(part, box([30, 30, 30], [40, 40, 40]))
    # From the far corner (40, 40, 40) to the nearest of the cube (10, 10, 10) (CALC).
    assert largest_moved_mm(part, apart) == pytest.approx(30.0 * math.sqrt(3.0))


FAULTY = {
    "sound": sphere(10.0, 3),
    "open": without_faces(sphere(10.0, 3), range(7)),
    "inside out": turned_inside_out(sphere(10.0, 3)),
    "overlapping": joined(sphere(10.0, 3), moved(sphere(10.0, 3), (8.0, 1.0, 2.0))),
    "touching": joined(cube(20), moved(cube(10), (0, 0, 15))),
    "twice": joined(cube(20), Mesh(cube(20).vertices_mm, cube(20).faces[:2])),
    "specks": joined(cube(20), moved(cube(1.0), (30, 0, 0))),
}


@pytest.mark.parametrize("name", FAULTY)
def test_what_is_left_is_what_the_whole_check_finds(name):
    mesh = FAULTY[name]
    whole = find_mesh_faults(mesh)
    left = find_faults_left(mesh)
    assert left.open_edges == len(whole.edges.open)
    assert left.crowded_edges == len(whole.edges.crowded)
    assert left.flipped_edges == len(whole.edges.flipped)
    assert left.duplicate_faces == len(whole.faces.duplicate)
    assert left.degenerate_faces == len(whole.faces.degenerate)
    assert left.inward_shells == whole.shells.inward_shells
    assert left.crossing_faces == len(whole.crossing_faces)
    assert left.touching_faces == len(whole.touching_faces)
    assert left.specks == whole.specks
    assert left.any == (name != "sound")
    other = faults_left_of(whole)
    np.testing.assert_array_equal(other.crossing, left.crossing)
    np.testing.assert_array_equal(other.in_one_shell, left.in_one_shell)
    assert vars(other).keys() == vars(left).keys()
    assert find_faults_left(mesh) is left  # looked for once


def test_a_step_that_was_planned_is_not_done_again(monkeypatch):
    ball = sphere(10.0, 4)
    part = turned_inside_out(without_faces(ball, range(40)))
    plan = plan_mending(part)
    assert len(plan) > 1
    calls = []

    def counted(name, function):
        def call(*arguments, **options):
            calls.append(name)
            return function(*arguments, **options)

        return call

    for name, function in steps._TAKE.items():
        monkeypatch.setitem(steps._TAKE, name, counted(name, function))
    mended = take_all(plan, part)
    mesh = part
    for step in plan:
        mesh = preview(step, mesh).mended.mesh
    assert mesh is mended.mesh
    assert calls == []
    # With another length, or from another mesh, it is done anew, with the same outcome.
    copy = Mesh(part.vertices_mm, part.faces)
    again = take(plan[0], copy)
    np.testing.assert_array_equal(again.faces, plan[0].made.after.faces)
    filled = next(step for step in plan if step.name == "fill-holes")
    take(filled.with_options(extent_up_to_mm=0.01), filled.made.before)
    assert filled.with_options(extent_up_to_mm=0.01).made is None
    assert calls == [plan[0].name, "fill-holes"]
    assert filled == step_named("fill-holes", part)  # what came of it is no part of what it is


def test_steps_that_change_nothing_keep_the_very_mesh():
    ball = sphere(10.0, 3)
    done = unchanged(ball)
    assert done.mesh is ball
    turned = take(step_named("turn-outward", ball), turned_inside_out(ball))
    assert after(done, turned).mesh is turned.mesh
