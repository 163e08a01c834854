"""Marks carried over to another mesh of the same surface, and to a mirror image."""

import numpy as np
import pytest

from tests.geometry.test_fine_ways import UPRIGHT, area, outcome, side_up, unmarked
from tests.shapes import box, cube, joined, moved, sphere, torus
from viewer.errors import Cancelled
from viewer.geometry.carried_marks import border_points_mm, carry_marks, mirror_marks
from viewer.geometry.face_classes import CLASS_A, CLASS_B
from viewer.geometry.fine_ways import grow, mark_band
from viewer.geometry.mesh import Mesh
from viewer.geometry.whole_marks import with_class
from viewer.progress import Progress


def split_otherwise(block: Mesh) -> Mesh:
    """A box with the other diagonal on each side."""
    quads = {}
    for a, b, c in block.faces:
        normal = tuple(np.round(np.cross(*(block.vertices_mm[[b, c]] - block.vertices_mm[a]))))
        quads.setdefault(normal, []).append((a, b, c))
    faces = []
    for one, other in quads.values():
        shared = set(one) & set(other)
        turn = next(k for k in range(3) if one[k] not in shared)  # the lone corner first
        lone, first, second = one[turn], one[(turn + 1) % 3], one[(turn + 2) % 3]
        far = next(v for v in other if v not in shared)
        faces += [(lone, first, far), (lone, far, second)]
    return Mesh(block.vertices_mm, np.array(faces, np.int32))


def test_a_fine_mark_keeps_its_outline_on_other_triangles():
    block = cube(20.0)
    top = np.where(side_up(block), CLASS_A, 0).astype(np.uint8)
    old, classes = outcome(block, grow(block, top, CLASS_A, 3.0))
    new = split_otherwise(block)
    assert not np.array_equal(np.sort(new.faces, axis=0), np.sort(block.faces, axis=0))
    carried = carry_marks(old, classes, new, 0.1)
    assert carried.found.all()
    assert area(new, carried.marked, CLASS_A) == pytest.approx(400 + 240, rel=5e-3)
    assert area(new, carried.marked, CLASS_A, side_up) == pytest.approx(400.0)
    assert len(carried.marked.pieces.faces) < 20_000


def test_onto_the_very_same_mesh_nothing_is_cut_and_nothing_changes():
    ball = sphere(10.0, 4)
    classes = (np.arange(ball.face_count) % 3).astype(np.uint8)
    fine = Mesh(ball.vertices_mm, ball.faces)
    carried = carry_marks(ball, classes, fine, 0.01)
    pieces, after = outcome(fine, carried.marked)
    parents = np.arange(fine.face_count)
    if carried.marked.pieces is not None:
        parents = carried.marked.pieces.parents
    assert np.average(after == classes[parents], weights=pieces.face_areas_mm2) > 0.999


def test_to_a_ball_of_another_density():
    coarse, fine = sphere(10.0, 4), sphere(10.0, 5)
    marked = mark_band(coarse, unmarked(coarse), CLASS_B, UPRIGHT, (5.0, 11.0))
    old, classes = outcome(coarse, marked)
    carried = carry_marks(old, classes, fine, 0.2)
    assert carried.found.all()
    held = area(fine, carried.marked, CLASS_B)
    assert held == pytest.approx(2 * np.pi * 10 * 5, rel=0.01)  # CALC: a cap 2 π R h


def test_a_boss_that_is_new_is_not_found_and_cut_out_as_it_stands():
    block = box((0, 0, 0), (40, 40, 10))
    classes = np.full(12, CLASS_A, np.uint8)
    new = joined(block, box((10, 10, 9.9), (18, 18, 14)))
    carried = carry_marks(block, classes, new, 0.05)
    pieces, after = outcome(new, carried.marked)
    lost = ~carried.found
    # CALC: of the boss its top and sides, less what lies within 0.05 mm of the block
    assert pieces.face_areas_mm2[lost].sum() == pytest.approx(64 + 4 * 8 * 4.1 + 64, rel=0.05)
    assert not after[lost].any()
    assert pieces.face_areas_mm2[after == CLASS_A].sum() == pytest.approx(
        block.face_areas_mm2.sum(), rel=0.01
    )


def test_a_place_whose_surface_has_gone_down_is_told_even_on_two_large_triangles():
    pocketed = joined(box((0, 0, 0), (60, 60, 10)), moved(cube(1.0), (90, 0, 0)))
    classes = np.full(24, CLASS_A, np.uint8)
    old = Mesh(pocketed.vertices_mm, pocketed.faces)
    keep = ~side_up(old) | (np.arange(24) >= 12)
    frame = []
    for low, high in (((0, 0), (60, 20)), ((0, 40), (60, 60)), ((0, 20), (20, 40)),
                      ((40, 20), (60, 40))):  # fmt: skip
        plate = box((*low, 8), (*high, 10))
        frame.append(Mesh(plate.vertices_mm, plate.faces[side_up(plate)]))
    open_top = joined(Mesh(old.vertices_mm, old.faces[keep]), *frame)
    marks = np.full(open_top.face_count, CLASS_A, np.uint8)
    carried = carry_marks(open_top, marks, old, 0.05)
    pieces, after = outcome(old, carried.marked)
    assert pieces.face_areas_mm2[~carried.found].sum() == pytest.approx(400.0, rel=0.03)
    assert not after[~carried.found].any()
    assert np.all(classes == CLASS_A)


def test_points_along_a_border_lie_on_it_and_close_together():
    block = cube(20.0)
    top = np.where(side_up(block), CLASS_A, 0).astype(np.uint8)
    points = border_points_mm(block, top, 0.5)
    assert np.allclose(points[:, 2], 10.0)
    assert np.allclose(np.abs(points[:, :2]).max(axis=1), 10.0)
    corner = np.array([[10.0, y, 10.0] for y in np.arange(-10, 10.01, 0.5)])
    gap = np.linalg.norm(corner[:, None] - points[None], axis=2).min(axis=1)
    assert gap.max() < 1e-9


# --- the mirror image


@pytest.mark.parametrize("axis", [0, 1, 2])
@pytest.mark.parametrize("from_greater", [True, False])
def test_a_mirrored_mark_on_12_facets_is_the_mirror_image(axis, from_greater):
    block = cube(20.0)
    spot = np.zeros(12, np.uint8)
    across = (axis + 1) % 3
    matrix = np.eye(4)
    matrix[[2, axis]] = matrix[[axis, 2]]  # heights along the axis
    side = 1.0 if from_greater else -1.0
    band = mark_band(block, spot, CLASS_A, matrix, (side * 3.0, side * 7.5))
    old, classes = outcome(block, band)
    mirrored = mirror_marks(old, classes, axis, from_greater)
    pieces, after = outcome(old, mirrored)
    middles = pieces.corners_mm.mean(axis=1)
    for one in (-1.0, 1.0):
        held = (after == CLASS_A) & (one * middles[:, axis] > 0)
        assert pieces.face_areas_mm2[held].sum() == pytest.approx(80 * 4.5, rel=5e-3)
        reach = np.abs(pieces.corners_mm[held][..., axis])
        assert reach.max() < 7.5 + 0.15
        assert reach.min() > 3.0 - 0.15
    assert across != axis
    again = mirror_marks(pieces, after, axis, from_greater)
    assert pieces.face_areas_mm2[again.changed(after)].sum() < 1.0 if again.pieces is None else True


def test_a_mirrored_mark_on_a_ring_has_the_area_of_its_model():
    ring = torus(20.0, 5.0, 48, 96)
    middles = ring.corners_mm.mean(axis=1)
    near = np.linalg.norm(middles - (18.0, 8.0, 4.0), axis=1) < 8.0
    classes = np.where(near, CLASS_A, 0).astype(np.uint8)
    pieces, after = outcome(ring, mirror_marks(ring, classes, 0, True))
    model = pieces.corners_mm.mean(axis=1)[:, 0] > 0.0
    areas, marked = pieces.face_areas_mm2, after == CLASS_A
    assert areas[marked & model].sum() == pytest.approx(ring.face_areas_mm2[near].sum())
    assert areas[marked & ~model].sum() == pytest.approx(areas[marked & model].sum(), rel=0.02)


def test_where_there_is_no_mirror_image_marks_stay():
    lopsided = joined(box((0, 0, 0), (10, 10, 10)), box((30, 0, 0), (40, 10, 30)))
    classes = np.zeros(24, np.uint8)
    classes[:12] = CLASS_B
    far = lopsided.corners_mm.mean(axis=1)[:, 2] > 16.0
    before = with_class(classes, far, CLASS_A)
    pieces, after = outcome(lopsided, mirror_marks(lopsided, before, 0, False))
    high = pieces.corners_mm.mean(axis=1)[:, 2] > 20.0
    assert np.all(after[high] == CLASS_A)


def test_a_cancel_is_heard():
    ball, progress = sphere(10.0, 4), Progress()
    classes = np.where(side_up(ball), CLASS_A, 0).astype(np.uint8)
    progress.cancel()
    for work in (
        lambda: carry_marks(ball, classes, sphere(10.0, 3), 0.5, progress),
        lambda: mirror_marks(ball, classes, 0, True, progress),
    ):
        with pytest.raises(Cancelled):
            work()
