"""Every kind of fault planted into a made shape is mended, and two libraries accept the outcome."""

import numpy as np
import pytest

from tests.geometry.mend.judges import accepted
from tests.shapes import box, cube, joined, moved, sphere, turned_inside_out, without_faces
from viewer.errors import Cancelled, RequestProblem
from viewer.geometry.mend.mend_effect import preview
from viewer.geometry.mend.mended import carry_classes
from viewer.geometry.mend.plan_mending import mend_safely, plan_mending, take_all
from viewer.geometry.mend.steps import STEP_NAMES, step_named
from viewer.geometry.mesh import Mesh
from viewer.geometry.mesh_faults import find_mesh_faults
from viewer.geometry.trowel_grip import trowel_grip
from viewer.geometry.trowel_grip_faults import as_received_from_designer
from viewer.progress import Progress


def soup(mesh: Mesh) -> Mesh:
    """Every face with corners of its own."""
    return Mesh(mesh.corners_mm.reshape(-1, 3), np.arange(3 * mesh.face_count).reshape(-1, 3))


def some_turned(mesh: Mesh) -> Mesh:
    faces = mesh.faces.copy()
    faces[::7] = faces[::7, ::-1]
    return Mesh(mesh.vertices_mm, faces)


def patch_twice(mesh: Mesh) -> Mesh:
    patch = mesh.faces[10:30]
    return Mesh(mesh.vertices_mm, np.concatenate([mesh.faces, patch]))


def with_slivers(mesh: Mesh) -> Mesh:
    """An edge cut at its middle on one side only, the crack closed by a face without area."""
    a, b, c = mesh.faces[0]
    middle = len(mesh.vertices_mm)
    points = np.append(mesh.vertices_mm, [mesh.vertices_mm[[a, b]].mean(axis=0)], axis=0)
    more = [(a, middle, c), (middle, b, c), (a, b, middle), (a, a, b)]
    return Mesh(points, np.concatenate([mesh.faces[1:], more]))


def seam(gap_mm: float) -> Mesh:
    """A ball whose upper half stands on corners of its own, a gap above the lower half."""
    ball = sphere(10, 4)
    upper = ball.corners_mm.mean(axis=1)[:, 2] > 0
    low = Mesh(ball.vertices_mm, ball.faces[~upper])
    high = moved(Mesh(ball.vertices_mm, ball.faces[upper]), (0, 0, gap_mm))
    return joined(low, high)


def holes(mesh: Mesh, above_mm: float) -> Mesh:
    return without_faces(mesh, np.flatnonzero(mesh.corners_mm[:, :, 2].mean(axis=1) > above_mm))


BALL = sphere(10, 4)
VOLUME = BALL.signed_volume_mm3

SAFE_CASES = {
    "unmerged corners": (soup(BALL), VOLUME),
    "faces turned": (some_turned(BALL), VOLUME),
    "inside out": (turned_inside_out(BALL), VOLUME),
    "patch there twice": (patch_twice(BALL), VOLUME),
    "slivers": (with_slivers(BALL), VOLUME),
    "narrow seam": (seam(0.005), VOLUME),
    "a facet missing": (without_faces(BALL, [100]), VOLUME),
    "soup, turned, twice": (some_turned(patch_twice(soup(BALL))), VOLUME),
    "cavity turned outward": (joined(cube(30), BALL), 27000 - VOLUME),
    # Two boxes that share an edge only: 2 · 1000 (CALC).
    "shared edge": (
        joined(box([0, 0, 0], [10, 10, 10]), box([10, 10, 0], [20, 20, 10])), 2000,
    ),
    # Two boxes wall to wall: the doubled wall goes, 2 · 1000 (CALC).
    "wall to wall": (joined(box([0, 0, 0], [10, 10, 10]), box([10, 0, 0], [20, 10, 10])), 2000),
}  # fmt: skip

ASKED_CASES = {
    "a cap is missing": (holes(BALL, 8.0), VOLUME),
    "a lid is missing": (holes(cube(20), 9.9), 8000),
    "overlap": (joined(cube(20), moved(cube(20), (10, 10, 10))), 16000 - 1000),
    "touching": (joined(cube(20), moved(cube(10), (0, 0, 15))), 8000 + 1000),
    # A square sheet of 20 with a wall of 0.84 (CALC).
    "sheet": (Mesh([(0, 0, 0), (20, 0, 0), (20, 20, 0), (0, 20, 0)], [(0, 1, 2), (0, 2, 3)]), 336),
    "doubled sheet": (
        Mesh(
            [(0, 0, 0), (20, 0, 0), (20, 20, 0), (0, 20, 0)],
            [(0, 1, 2), (0, 2, 3), (2, 1, 0), (3, 2, 0)],
        ),
        336,
    ),
    "all together": (
        joined(
            some_turned(patch_twice(holes(BALL, 9.0))),
            moved(turned_inside_out(cube(8)), (30, 0, 0)),
        ),
        VOLUME + 512,
    ),
}  # fmt: skip


@pytest.mark.parametrize("case", SAFE_CASES)
def test_what_is_harmless_is_mended_safely(case):
    mesh, volume_mm3 = SAFE_CASES[case]
    steps, mended = mend_safely(mesh)
    assert all(step.safe for step in steps)
    assert accepted(mended.mesh) == ""
    assert mended.mesh.signed_volume_mm3 == pytest.approx(volume_mm3, rel=0.005)


@pytest.mark.parametrize("case", ASKED_CASES)
def test_the_plan_mends_the_rest(case):
    mesh, volume_mm3 = ASKED_CASES[case]
    plan = plan_mending(mesh)
    assert any(not step.safe for step in plan)
    mended = take_all(plan, mesh)
    assert accepted(mended.mesh) == ""
    assert mended.mesh.signed_volume_mm3 == pytest.approx(volume_mm3, rel=0.005)
    assert len(mended.origin_face) == mended.mesh.face_count
    assert mended.origin_face.max() < mesh.face_count


def test_the_demo_as_received_needs_two_words_at_most():
    received, classes, _ = as_received_from_designer(0.2)
    plan = plan_mending(received)
    assert sum(not step.safe for step in plan) <= 2
    mended = take_all(plan, received)
    assert accepted(mended.mesh) == ""
    truth = trowel_grip(0.2)
    truth = truth[0] if isinstance(truth, tuple) else truth
    assert mended.mesh.signed_volume_mm3 == pytest.approx(truth.signed_volume_mm3, rel=0.005)
    left = find_mesh_faults(mended.mesh)
    assert len(left.crossing_faces) == 0
    carried = carry_classes(classes, mended.origin_face)
    assert set(np.unique(carried)) == set(np.unique(classes))


@pytest.mark.parametrize("mesh", [BALL, cube(20), joined(cube(30), turned_inside_out(cube(10)))])
def test_nothing_is_done_to_a_sound_part(mesh):
    assert plan_mending(mesh) == ()
    steps, mended = mend_safely(mesh)
    assert steps == ()
    assert mended.faces is mesh.faces or (mended.faces == mesh.faces).all()


def test_a_preview_tells_what_changes():
    open_ball = holes(BALL, 8.0)
    effect = preview(step_named("fill-holes", open_ball), open_ball)
    assert effect.faces_before == open_ball.face_count
    assert effect.faces_after == effect.mended.mesh.face_count > effect.faces_before
    assert effect.left.open_edges == 0
    # The lid's top is about as far from the rim as the ball's: √(6² + 2²) (CALC).
    # No corner of the lid has to be at the very top, so it may be a little less.
    assert 0.9 * 40**0.5 <= effect.largest_moved_mm <= 1.01 * 40**0.5


def test_unknown_steps_and_cancelling():
    with pytest.raises(RequestProblem, match="polish"):
        step_named("polish", BALL)
    progress = Progress()
    progress.cancel()
    with pytest.raises(Cancelled):
        plan_mending(holes(BALL, 8.0), progress=progress)
    assert len(STEP_NAMES) == len(set(STEP_NAMES))
