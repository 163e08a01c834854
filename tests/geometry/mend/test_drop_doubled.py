"""What is there twice goes, however it is cut and wound; what two bodies need stays."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.few import few
from tests.geometry.mend.judges import accepted
from tests.shapes import box, cube, joined, moved, sphere, turned_inside_out
from viewer.geometry.mend.drop_doubled import drop_doubled
from viewer.geometry.mend.plan_mending import mend_safely, plan_mending, take_all
from viewer.geometry.mend.recut_patches import drop_loose_copies
from viewer.geometry.mesh import Mesh
from viewer.geometry.mesh_faults import find_mesh_faults


def with_more(mesh: Mesh, faces) -> Mesh:
    return Mesh(mesh.vertices_mm, np.concatenate([mesh.faces, np.asarray(faces, np.int32)]))


def same_faces(one: Mesh, other: Mesh) -> bool:
    """Whether two meshes have the same triangles, in any order and numbering."""

    def rows(mesh):
        return sorted(tuple(sorted(map(tuple, face))) for face in mesh.corners_mm.tolist())

    return rows(one) == rows(other)


def ring(around: int = 144, along: int = 72) -> tuple[Mesh, np.ndarray]:
    """A ring (torus of 10 and 4 mm) of twisted squares, and (k, 4) the squares, anticlockwise."""
    i, j = np.meshgrid(np.arange(around), np.arange(along), indexing="ij")
    v = 2 * np.pi * j.ravel() / along
    u = 2 * np.pi * i.ravel() / around + 0.2 * np.sin(
        v
    )  # so the four corners of a square lie in no plane
    out = 10.0 + 4.0 * np.cos(v)
    points = np.stack([out * np.cos(u), out * np.sin(u), 4.0 * np.sin(v)], axis=1)
    i, j = i.ravel(), j.ravel()
    p, q = (i + 1) % around, (j + 1) % along
    squares = np.stack([i * along + j, p * along + j, p * along + q, i * along + q], axis=1)
    return Mesh(points, one_way(squares)), squares


def one_way(squares: np.ndarray) -> np.ndarray:
    """Triangles of squares by one diagonal, square by square."""
    return squares[:, [0, 1, 2, 0, 2, 3]].reshape(-1, 3)


def other_way(squares: np.ndarray) -> np.ndarray:
    """Triangles of squares by their other diagonal."""
    return squares[:, [0, 1, 3, 1, 2, 3]].reshape(-1, 3)


BALL = sphere(10.0, 3)


def test_one_side_of_a_cube_doubled():
    part = cube(20.0)
    side = part.faces[part.face_normals[:, 2] > 0.5]
    for copy in (side, side[:, ::-1], side[:, [1, 2, 0]]):
        done = drop_doubled(with_more(part, copy))
        np.testing.assert_array_equal(done.faces, part.faces)  # the first ones stay
        np.testing.assert_array_equal(done.origin_face, np.arange(12))
        assert done.mesh.signed_volume_mm3 == pytest.approx(8000.0)


@settings(max_examples=few(20, 60), deadline=None)
@given(seed=st.integers(0, 2**32 - 1), share=st.floats(0.01, 0.9), copies=st.integers(1, 3))
def test_any_choice_of_copies_goes(seed, share, copies):
    rng = np.random.default_rng(seed)
    chosen = rng.random(BALL.face_count) < share
    faces = BALL.faces[chosen]
    turned = rng.random(len(faces)) < 0.5
    more = np.where(turned[:, None], faces[:, ::-1], faces)
    part = with_more(BALL, more if copies == 1 else np.repeat(faces, copies - 1, axis=0))
    done = drop_doubled(part)
    assert same_faces(done.mesh, BALL)


def test_a_wall_between_two_bodies_goes_and_their_volumes_stay():
    part = joined(box([0, 0, 0], [10, 10, 10]), box([10, 0, 0], [20, 10, 10]))
    _, mended = mend_safely(part)
    assert mended.mesh.face_count == 20
    assert mended.mesh.signed_volume_mm3 == pytest.approx(2000.0)
    assert accepted(mended.mesh) == ""


def test_a_sheet_doubled_back_stays_or_becomes_single():
    points = [(0, 0, 0), (20, 0, 0), (20, 20, 0), (0, 20, 0)]
    sheet = Mesh(points, [(0, 1, 2), (0, 2, 3), (2, 1, 0), (3, 2, 0)])
    assert drop_doubled(sheet).mesh is sheet
    single = drop_doubled(sheet, single_sheets=True).mesh
    np.testing.assert_array_equal(single.faces, sheet.faces[:2])


# --- the same surface, cut into other triangles


@pytest.mark.parametrize("turned", [False, True])
@pytest.mark.parametrize("own_corners", [False, True])
def test_one_side_of_a_cube_doubled_by_its_other_diagonal(turned, own_corners):
    part = cube(20.0)
    one, two = part.faces[part.face_normals[:, 2] > 0.5]
    # Corners of the side in order: the diagonal is what both triangles have.
    alone = next(v for v in one if v not in two)
    k = list(one).index(alone)
    far = next(v for v in two if v not in one)
    square = np.array([[alone, one[(k + 1) % 3], far, one[(k + 2) % 3]]])
    copy = one_way(square)
    copy = copy[:, ::-1] if turned else copy
    faulty = joined(part, Mesh(part.vertices_mm, copy)) if own_corners else with_more(part, copy)
    found = find_mesh_faults(faulty)
    assert len(found.edges.open) + len(found.edges.crowded) == 4
    if not turned:
        np.testing.assert_array_equal(found.contacts.doubled_faces[-2:], [12, 13])
    done = drop_doubled(faulty)
    assert same_faces(done.mesh, part)
    steps, mended = mend_safely(faulty)
    assert "drop-doubled" in [step.name for step in steps]
    assert accepted(mended.mesh) == ""
    assert mended.mesh.signed_volume_mm3 == pytest.approx(8000.0)


@pytest.mark.parametrize("turned", [False, True])
@pytest.mark.parametrize("mixed", [False, True])
def test_a_patch_of_a_curved_surface_doubled_by_other_diagonals(turned, mixed):
    """Some squares of the copy may have the diagonals of the surface: plain copies."""
    part, squares = ring()
    patch = squares[(squares[:, 0] % 72 < 19) & (squares[:, 0] < 72 * 22)]
    copy = other_way(patch)
    if mixed:
        others = np.delete(patch, slice(None, None, 3), axis=0)
        copy = np.concatenate([other_way(others), one_way(patch[::3])])
    copy = copy[:, ::-1] if turned else copy
    done = drop_doubled(with_more(part, copy))
    assert same_faces(done.mesh, part)


def test_a_patch_doubled_twice_over():
    part, squares = ring()
    patch = squares[:60]
    copies = np.concatenate([other_way(patch), other_way(patch)[:, [1, 2, 0]]])
    assert same_faces(drop_doubled(with_more(part, copies)).mesh, part)


def test_a_loose_patch_of_other_points_on_a_ball():
    """A cap of a finer ball lies on the coarser one by no more than a crack: it goes."""
    ball, finer = sphere(10.0, 5), sphere(10.0, 6)
    cap = finer.faces[finer.corners_mm[:, :, 2].mean(axis=1) > 8.0]
    part = joined(ball, Mesh(finer.vertices_mm, cap))
    assert same_faces(drop_doubled(part).mesh, ball)
    # A hand's breadth above the surface it is a sheet of its own, which nobody may drop.
    apart = joined(ball, moved(Mesh(finer.vertices_mm, cap), (0, 0, 1.0)))
    assert drop_doubled(apart).mesh.face_count == part.face_count


def test_of_two_loose_patches_on_each_other_one_stays():
    patch, squares = ring()
    some = squares[: len(squares) // 6]
    some = some[some[:, 0] % 72 < 20]
    sheet = Mesh(patch.vertices_mm, one_way(some))
    for again in (other_way(some), other_way(some)[:, ::-1]):
        part = joined(sheet, Mesh(patch.vertices_mm, again))
        assert same_faces(drop_loose_copies(part).mesh, sheet)


def test_a_sheet_of_many_faces_doubled_back_is_left_whole():
    _, squares = ring()
    some = squares[squares[:, 0] % 72 < 30][: 30 * 20]
    sheet = Mesh(ring()[0].vertices_mm, np.concatenate([one_way(some), one_way(some)[:, ::-1]]))
    assert drop_doubled(sheet).mesh is sheet
    single = drop_doubled(sheet, single_sheets=True).mesh
    np.testing.assert_array_equal(single.corners_mm, sheet.corners_mm[: 2 * len(some)])


def test_a_wall_between_two_bodies_that_cut_it_in_two_ways():
    one = box([0, 0, 0], [10, 10, 10])
    other = Mesh(one.vertices_mm * [-1, 1, 1] + [20, 0, 0], one.faces[:, ::-1])  # its mirror image
    turned = Mesh(
        other.vertices_mm[:, [0, 2, 1]], other.faces[:, ::-1]
    )  # mirrored again, so that the diagonals of its walls run the other way
    for beside in (other, turned):
        part = joined(one, beside)
        plan = plan_mending(part)
        mended = take_all(plan, part)
        assert accepted(mended.mesh) == ""
        assert mended.mesh.signed_volume_mm3 == pytest.approx(2000.0)
        assert all(step.safe for step in plan)


def test_a_wall_that_parts_a_ball_is_not_doubled():
    """Two halves and a wall have one rim and enclose much between them: none is a copy."""
    upper = BALL.corners_mm[:, :, 2].mean(axis=1) > 0
    half = Mesh(BALL.vertices_mm, BALL.faces[upper])
    rim = find_mesh_faults(half).edges.open
    middle = len(BALL.vertices_mm)
    wall = [(b, a, middle) for a, b in rim.tolist()]
    points = np.append(BALL.vertices_mm, [[0.0, 0.0, 0.0]], axis=0)
    part = Mesh(points, np.concatenate([BALL.faces, np.array(wall, np.int32)]))
    assert drop_doubled(part).mesh is part


def test_sound_parts_stay_the_very_same():
    for part in (BALL, joined(cube(30.0), turned_inside_out(cube(10.0))), ring()[0]):
        assert drop_doubled(part).mesh is part
