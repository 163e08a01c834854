"""Proposed planes cross no face of class A, leave real halves, and fit where they say so."""

import numpy as np
import pytest

from tests import shapes
from viewer.document.demo_job import demo_job
from viewer.geometry.closed_part import closed_part
from viewer.geometry.cut_pieces import cut_pieces
from viewer.geometry.face_classes import CLASS_A
from viewer.geometry.pose import Pose
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.split_planes import propose_splits


def assert_keeps_class_a_whole(part, classes, splits):
    marked = part.mesh.corners_mm[classes == CLASS_A]
    for split in splits:
        heights = (marked - split.plane.point_mm) @ np.array(split.plane.normal)
        sides = np.sign(heights)
        assert (np.abs(sides.sum(axis=1)) == 3).all()
        pieces = cut_pieces(closed_part(part), [split.plane]).pieces
        assert len(pieces) == 2
        assert [piece.cut_area_mm2 for piece in pieces] == pytest.approx(
            [split.cut_area_mm2] * 2, rel=1e-6
        )
        assert (
            all((piece.classes(classes) == CLASS_A).any() for piece in pieces) or len(marked) == 0
        )


def test_a_long_bar_is_split_across_its_middle():
    part = prepare_part(shapes.box([0, 0, 0], [100, 10, 20]))
    classes = np.zeros(12, np.uint8)
    best = propose_splits(part, classes, Pose(), build_mm=(60, 60, 60))[0]
    np.testing.assert_allclose(np.abs(best.plane.normal), [1, 0, 0], atol=1e-9)
    assert best.plane.point_mm[0] == pytest.approx(50)
    assert best.cut_area_mm2 == pytest.approx(200)
    assert best.fits is True
    assert propose_splits(part, classes, Pose(), build_mm=(40, 40, 40))[0].fits is False
    assert propose_splits(part, classes, Pose())[0].fits is None


def test_class_a_is_never_crossed():
    """A bar with a ring of class A about its middle is split beside the ring."""
    bar = shapes.joined(*(shapes.box([20 * k, 0, 0], [20 * (k + 1), 10, 20]) for k in range(5)))
    part = prepare_part(bar)
    middle = bar.corners_mm[:, :, 0]
    classes = np.where((middle.min(axis=1) >= 40) & (middle.max(axis=1) <= 60), CLASS_A, 0).astype(
        np.uint8
    )
    splits = propose_splits(part, classes, Pose())
    assert splits
    for split in splits:
        marked = bar.corners_mm[classes == CLASS_A]
        heights = (marked - split.plane.point_mm) @ np.array(split.plane.normal)
        assert (np.abs(np.sign(heights).sum(axis=1)) == 3).all()
    across = [s for s in splits if abs(s.plane.normal[0]) > 0.99]
    assert across[0].plane.point_mm[0] == pytest.approx(39.8) or across[0].plane.point_mm[
        0
    ] == pytest.approx(60.2)


def test_two_marked_ends_leave_the_middle():
    bar = shapes.box([0, 0, 0], [100, 10, 20])
    classes = np.where(np.abs(bar.face_normals[:, 0]) > 0.9, CLASS_A, 0).astype(np.uint8)
    part = prepare_part(bar)
    assert_keeps_class_a_whole(part, classes, propose_splits(part, classes, Pose())[:1])


def test_where_all_of_it_shows_there_is_no_place():
    part = prepare_part(shapes.sphere(subdivisions=3))
    assert propose_splits(part, np.full(len(part.faces), CLASS_A, np.uint8), Pose()) == ()


def test_the_demo_part_is_never_cut_through_its_texture():
    state = demo_job(0.15)
    part = prepare_part(state.part.mesh)
    marked = state.part.mesh.corners_mm[state.face_classes == CLASS_A]
    for split in propose_splits(part, state.face_classes, state.pose):
        heights = (marked - split.plane.point_mm) @ np.array(split.plane.normal)
        assert (np.abs(np.sign(heights).sum(axis=1)) == 3).all()
