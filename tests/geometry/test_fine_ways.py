"""Ways to mark on coarse and fine meshes, against closed forms: the mark is exact on any mesh."""

import numpy as np
import pytest
import trimesh

from tests.shapes import box, cube, joined, sphere
from viewer.errors import Cancelled
from viewer.geometry.cut_surface import Marked
from viewer.geometry.face_classes import CLASS_A, CLASS_B
from viewer.geometry.fine_ways import grow, mark_band, mark_loop, mark_seen, shrink, smooth
from viewer.geometry.mesh import Mesh
from viewer.geometry.visible_faces import eye_on, ring_of_eyes
from viewer.geometry.whole_marks import see_faces
from viewer.progress import Progress

UPRIGHT = np.eye(4)


def outcome(mesh: Mesh, marked: Marked) -> tuple[Mesh, np.ndarray]:
    """The pieces as a mesh, checked to be the same closed surface with no thinner angle."""
    if marked.pieces is None:
        return mesh, marked.face_classes
    pieces = Mesh(marked.pieces.vertices_mm, marked.pieces.faces)
    seen = trimesh.Trimesh(pieces.vertices_mm, pieces.faces, process=False)
    before = trimesh.Trimesh(mesh.vertices_mm, mesh.faces, process=False)
    assert seen.is_watertight == before.is_watertight
    assert seen.is_winding_consistent
    assert seen.volume == pytest.approx(before.volume, rel=1e-9)
    # Rosenberg & Stenger 1975 (MEM): bisection never goes below half the smallest angle.
    assert seen.face_angles.min() >= 0.5 * before.face_angles.min() - 1e-9
    assert np.array_equal(pieces.vertices_mm[: len(mesh.vertices_mm)], mesh.vertices_mm)
    return pieces, marked.face_classes


def area(mesh: Mesh, marked: Marked, face_class: int, which=None) -> float:
    pieces, classes = outcome(mesh, marked)
    held = classes == face_class
    if which is not None:
        held &= which(pieces)
    return float(pieces.face_areas_mm2[held].sum())


def unmarked(mesh: Mesh) -> np.ndarray:
    return np.zeros(mesh.face_count, np.uint8)


def side_up(mesh: Mesh) -> np.ndarray:
    return mesh.face_normals[:, 2] > 0.5


# --- band


def test_a_band_on_12_facets_is_as_high_as_asked():
    block = cube(20.0)
    marked = mark_band(block, unmarked(block), CLASS_A, UPRIGHT, (5.0, -3.2))
    assert area(block, marked, CLASS_A) == pytest.approx(4 * 20 * 8.2, rel=2e-3)  # CALC
    assert len(marked.pieces.faces) < 20_000
    pieces, classes = outcome(block, marked)
    heights = pieces.corners_mm[classes == CLASS_A][:, :, 2]
    assert heights.max() < 5.0 + 0.1
    assert heights.min() > -3.2 - 0.1


def test_a_band_up_to_a_floor_and_a_top_cuts_neither():
    block = cube(20.0)
    marked = mark_band(block, unmarked(block), CLASS_A, UPRIGHT, (-10.0, 10.0))
    assert marked.pieces is None
    assert np.all(marked.face_classes == CLASS_A)
    half = mark_band(block, unmarked(block), CLASS_A, UPRIGHT, (-10.0, 0.0))
    assert area(block, half, CLASS_A) == pytest.approx(400 + 4 * 200, rel=1e-3)


def test_a_band_is_of_the_pose_and_again_changes_nothing():
    block = cube(20.0)
    turned = np.eye(4)
    turned[:3, :3] = [[0, 0, -1], [0, 1, 0], [1, 0, 0]]  # x points up
    turned[2, 3] = 10.0
    marked = mark_band(block, unmarked(block), CLASS_B, turned, (0.0, 7.0))
    pieces, classes = outcome(block, marked)
    assert pieces.corners_mm[classes == CLASS_B][..., 0].max() < -3.0 + 0.1
    again = mark_band(pieces, classes, CLASS_B, turned, (0.0, 7.0))
    assert np.array_equal(again.changed(classes), [])
    assert again.pieces is None


# --- lasso


def from_above(scale=10.0):
    """Pixels of an eye infinitely far above: x and y of the part, ten times as large."""
    frame = np.zeros((4, 4))
    frame[0, 0] = frame[1, 1] = scale
    frame[3, 3] = 1.0
    return frame


def round_loop(radius_px, count=96):
    turns = 2 * np.pi * np.arange(count) / count
    return radius_px * np.column_stack([np.cos(turns), np.sin(turns)])


@pytest.mark.parametrize("through", [True, False])
def test_a_round_loop_on_12_facets_marks_a_disc(through):
    block = cube(20.0)
    eyes = [eye_on((0.0, 0.0, 1000.0), block.box_mm)]
    see = None if through else lambda mesh: see_faces(mesh, eyes)
    marked = mark_loop(block, unmarked(block), CLASS_A, from_above(), round_loop(60.0), 0.2, see)
    disc = 0.5 * 96 * np.sin(2 * np.pi / 96) * 36.0  # CALC: a polygon of 96 corners, 6 mm
    assert area(block, marked, CLASS_A, side_up) == pytest.approx(disc, rel=0.01)
    assert area(block, marked, CLASS_A) == pytest.approx((1 + through) * disc, rel=0.01)


def test_what_hides_behind_a_wall_is_left_out_of_a_loop_by_its_outline():
    plate, cover = box((-20, -20, 0), (20, 20, 2)), box((-20, -20, 50), (0, 20, 52))
    both = joined(plate, cover)
    eyes = [eye_on((0.0, 0.0, 1e5), both.box_mm)]
    marked = mark_loop(
        both, unmarked(both), CLASS_A, from_above(), round_loop(100.0), 0.2,
        lambda mesh: see_faces(mesh, eyes),
    )  # fmt: skip
    disc = 0.5 * 96 * np.sin(2 * np.pi / 96) * 100.0
    lower = area(both, marked, CLASS_A, lambda m: m.corners_mm[:, :, 2].max(axis=1) < 10)
    # CALC: half of the disc lies under the cover; the border is as fine as faces an eye tells.
    assert lower == pytest.approx(0.5 * disc, abs=20 * 0.5)
    assert area(both, marked, CLASS_A) == pytest.approx(disc, abs=20 * 0.5)


def test_a_loop_that_crosses_itself_is_even_odd():
    ball = sphere(10.0, 4)
    square = np.array([(-200, -200), (200, -200), (200, 200), (-200, 200)], float)
    all_of_it = mark_loop(ball, unmarked(ball), CLASS_A, from_above(1.0), square, 0.2)
    assert all_of_it.face_classes.all()
    twice = np.concatenate([square, square])
    nothing = mark_loop(ball, unmarked(ball), CLASS_A, from_above(1.0), twice, 0.2)
    assert not nothing.face_classes.any()


def test_what_lies_behind_the_eye_is_in_no_loop():
    ball = sphere(10.0, 4)
    frame = from_above(1.0)
    frame[3] = (0.0, 0.0, -1.0, 0.0)  # looking down from z = 0: w > 0 below
    wide = np.array([(-1e6, -1e6), (1e6, -1e6), (1e6, 1e6), (-1e6, 1e6)])
    marked = mark_loop(ball, unmarked(ball), CLASS_A, frame, wide, 0.2)
    assert np.array_equal(marked.face_classes == CLASS_A, ball.corners_mm[..., 2].max(axis=1) < 0)


def test_a_round_loop_over_a_ball_takes_both_caps():
    ball = sphere(10.0, 4)
    marked = mark_loop(ball, unmarked(ball), CLASS_A, from_above(), round_loop(60.0), 0.2)
    cap = 2.0 * np.pi * 100.0 * (1.0 - np.sqrt(1.0 - 0.36))  # CALC: 2 π R (R − √(R² − a²))
    assert area(ball, marked, CLASS_A) == pytest.approx(2.0 * cap, rel=0.01)


def test_an_empty_loop_marks_nothing():
    block = cube()
    for loop in (np.zeros((0, 2)), np.array([(3.0, 4.0), (5.0, 6.0)])):
        marked = mark_loop(block, unmarked(block), CLASS_A, from_above(), loop, 0.2)
        assert marked.pieces is None
        assert not marked.face_classes.any()


# --- what is seen


def test_the_shadow_of_a_wall_ends_within_a_face_of_where_it_should():
    plate, cover = box((-20, -20, 0), (20, 20, 2)), box((-20, -20, 50), (0, 20, 52))
    both = joined(plate, cover)
    marked = mark_seen(both, unmarked(both), CLASS_A, [eye_on((0, 0, 1e5), both.box_mm)])
    pieces, classes = outcome(both, marked)
    low = side_up(pieces) & (pieces.corners_mm[:, :, 2].max(axis=1) < 10)
    lower = pieces.face_areas_mm2[low & (classes == CLASS_A)].sum()
    assert lower == pytest.approx(800.0, abs=40 * 0.5)  # CALC: the half beside the cover
    reach = pieces.corners_mm[low & (classes == CLASS_A)][..., 0].min()
    assert reach > -0.5
    assert len(pieces.faces) < 20_000


def test_pieces_are_seen_as_if_all_eyes_looked_at_all_of_them_again():
    plate, cover = box((-20, -20, 0), (20, 20, 2)), box((-8, -20, 30), (9, 20, 32))
    both = joined(plate, cover)
    eyes = ring_of_eyes((0, 0, 1), 50.0, 300.0, 6, both.box_mm)
    pieces, classes = outcome(both, mark_seen(both, unmarked(both), CLASS_A, eyes))
    seen = see_faces(Mesh(pieces.vertices_mm, pieces.faces), eyes) > 0
    total = pieces.face_areas_mm2.sum()
    assert pieces.face_areas_mm2[seen != (classes == CLASS_A)].sum() < 5e-4 * total


def test_a_convex_box_is_not_cut_by_being_seen():
    block = box((0, 0, 0), (20, 30, 40))
    eyes = ring_of_eyes((0, 0, 1), 30.0, 400.0, 12, block.box_mm)
    marked = mark_seen(block, unmarked(block), CLASS_B, eyes)
    assert marked.pieces is None
    assert np.array_equal(marked.face_classes == CLASS_B, block.face_normals[:, 2] > -0.5)


# --- borders


def topped(block: Mesh) -> np.ndarray:
    return np.where(side_up(block), CLASS_A, 0).astype(np.uint8)


def test_growing_over_the_edges_of_12_facets_is_as_wide_as_asked():
    block = cube(20.0)
    marked = grow(block, topped(block), CLASS_A, 3.0)
    # CALC: the top, and round it 3 mm of each side
    assert area(block, marked, CLASS_A) == pytest.approx(400 + 4 * 20 * 3.0, rel=3e-3)
    assert area(block, marked, CLASS_A, side_up) == pytest.approx(400.0)
    assert len(marked.pieces.faces) < 20_000


def test_shrinking_on_12_facets_leaves_the_middle_of_the_top():
    block = cube(20.0)
    marked = shrink(block, topped(block), CLASS_A, 3.0)
    assert area(block, marked, CLASS_A) == pytest.approx(14.0**2, rel=0.01)  # CALC
    far = grow(block, topped(block), CLASS_A, 30.0)  # all but the bottom, which is another wall
    assert area(block, far, CLASS_A) == pytest.approx(2000.0)


def test_growing_what_was_grown_is_growing_by_both_widths():
    block = cube(20.0)
    pieces, classes = outcome(block, grow(block, topped(block), CLASS_A, 2.0))
    again = grow(pieces, classes, CLASS_A, 2.0)
    assert area(pieces, again, CLASS_A) == pytest.approx(400 + 4 * 20 * 4.0, rel=6e-3)


@pytest.mark.parametrize("by_mm", [0.5, 1.0, 3.0])
def test_a_cap_on_a_ball_grows_and_shrinks_by_the_width(by_mm):
    ball = sphere(10.0, 5)
    base = mark_band(ball, unmarked(ball), CLASS_A, UPRIGHT, (10.0 * np.cos(np.radians(40)), 11.0))
    ball, classes = outcome(ball, base)
    # CALC: a chord of by_mm spans 2 asin(by_mm / 2 r); a cap of angle t has 2 pi r² (1 - cos t)
    step_deg = 2.0 * np.degrees(np.arcsin(by_mm / 20.0))
    for work, sign in ((grow, 1), (shrink, -1)):
        cap = 2.0 * np.pi * 100 * (1.0 - np.cos(np.radians(40 + sign * step_deg)))
        marked = work(ball, classes, CLASS_A, by_mm)
        pieces, after = outcome(ball, marked)
        rim = 2.0 * np.pi * 10.0 * np.sin(np.radians(40 + sign * step_deg))
        assert pieces.face_areas_mm2[after == CLASS_A].sum() == pytest.approx(cap, abs=0.06 * rim)


def test_growing_never_goes_through_a_wall():
    thin = box((0, 0, 0), (40, 40, 0.5))
    classes = unmarked(thin)
    classes[np.flatnonzero(side_up(thin))[0]] = CLASS_A  # one half of the top
    marked = grow(thin, classes, CLASS_A, 0.4)
    pieces, after = outcome(thin, marked)
    assert not np.any(after[pieces.face_normals[:, 2] < -0.5])
    # CALC: along the diagonal of the top, and down its two sides
    gained = 0.4 * np.hypot(40, 40)
    assert area(thin, marked, CLASS_A, side_up) == pytest.approx(800 + gained, rel=0.01)


def test_another_class_is_taken_over_by_growing_and_kept_by_shrinking():
    block = cube(20.0)
    classes = topped(block)
    classes[block.face_normals[:, 0] > 0.5] = CLASS_B
    grown = grow(block, classes, CLASS_A, 2.0)
    assert area(block, grown, CLASS_B) == pytest.approx(400 - 40, rel=5e-3)
    shrunk = shrink(block, classes, CLASS_A, 2.0)
    assert area(block, shrunk, CLASS_B) == pytest.approx(400.0)


def test_smoothing_rounds_the_corners_of_a_coarse_mark():
    block = cube(20.0)
    classes = unmarked(block)
    classes[np.flatnonzero(side_up(block))[0]] = CLASS_A  # a right triangle with legs of 20 mm
    marked = smooth(block, classes, 3.0)
    pieces, after = outcome(block, marked)
    held = pieces.face_areas_mm2[after == CLASS_A].sum()
    assert 170.0 < held < 200.0  # the three corners go
    far = np.linalg.norm(pieces.corners_mm[after == CLASS_A].mean(axis=1)[:, :2], axis=1)
    assert far.max() < np.hypot(10, 10) - 0.5
    assert not np.any(after[~side_up(pieces)])


def test_a_cancel_is_heard():
    block, progress = cube(20.0), Progress()
    progress.cancel()
    for work in (
        lambda: grow(block, topped(block), CLASS_A, 2.0, progress),
        lambda: smooth(block, topped(block), 2.0, progress),
        lambda: mark_seen(block, topped(block), CLASS_B, [eye_on((0, 0, 99), block.box_mm)],
                          progress),
    ):  # fmt: skip
        with pytest.raises(Cancelled):
            work()
