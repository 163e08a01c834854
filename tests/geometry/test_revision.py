"""Marks on a newer version of the client's file: other triangles, shifted, with a place changed."""

import numpy as np
import pytest

from tests.geometry.test_fine_ways import outcome
from tests.shapes import box, joined, moved
from viewer.document.demo_job import demo_job
from viewer.geometry.face_classes import CLASS_A, CLASS_B, sum_by_class
from viewer.geometry.mesh import Mesh
from viewer.geometry.revision import carry_to_revision
from viewer.geometry.rigid_motion import STILL, likely_motion

SHIFT = (12.0, -30.0, 7.5)


@pytest.fixture(scope="module")
def grips():
    """The demo grip at two densities, with the marks that each is made with."""
    return [(state.part.mesh, state.face_classes) for state in (demo_job(0.12), demo_job(0.18))]


def agreeing(mesh: Mesh, classes: np.ndarray, wanted: np.ndarray) -> float:
    areas = mesh.face_areas_mm2
    return areas[classes == wanted].sum() / areas.sum()


@pytest.mark.parametrize("shift", [(0.0, 0.0, 0.0), SHIFT])
def test_the_demo_at_another_density_gets_the_marks_that_it_is_made_with(grips, shift):
    (old, classes), (finer, wanted) = grips
    new = moved(finer, shift)
    before = new.vertices_mm.copy()
    revision = carry_to_revision(old, classes, new)
    pieces, after = outcome(new, revision.marked)
    assert np.array_equal(new.vertices_mm, before)  # the newer file is left where it is
    assert revision.motion.shift_mm == pytest.approx(shift, abs=0.2)
    assert revision.shift_mm == pytest.approx(np.linalg.norm(shift), abs=0.2)
    assert any(shift) or revision.motion is STILL
    parents = np.arange(new.face_count)
    if revision.marked.pieces is not None:
        parents = revision.marked.pieces.parents
    assert agreeing(pieces, after, wanted[parents]) > 0.97
    mine = sum_by_class(pieces.face_areas_mm2, after)
    made = sum_by_class(new.face_areas_mm2, wanted)
    assert pytest.approx((made.A, made.B), rel=0.02) == (mine.A, mine.B)
    total = new.face_areas_mm2.sum()
    assert revision.lost_mm2 < 0.01 * total
    assert 0.01 * total > revision.gone_mm2.A + revision.gone_mm2.B


def test_a_changed_place_is_told_where_it_is_and_how_large():
    plate = box((0, 0, 0), (60, 40, 10))
    stud = box((10, 10, 9.5), (18, 18, 16))
    knob = box((40, 10, 9.5), (50, 22, 18))
    old, new = joined(plate, stud), joined(plate, knob)
    classes = np.full(old.face_count, CLASS_A, np.uint8)
    classes[12:] = CLASS_B
    revision = carry_to_revision(old, classes, new)
    pieces, after = outcome(new, revision.marked)
    assert revision.motion is STILL
    assert revision.shift_mm == 0.0
    # CALC: the knob's top, sides and bottom, and of the old stud the same
    assert revision.lost_mm2 == pytest.approx(2 * 120 + 44 * 8.5, rel=0.05)
    assert np.all(pieces.corners_mm[revision.lost][..., 0].min() > 39.0)
    assert not after[revision.lost].any()
    assert pytest.approx(2 * 64 + 32 * 6.5, rel=0.05) == revision.gone_mm2.B
    assert revision.gone_mm2.A < 1.0
    held = sum_by_class(pieces.face_areas_mm2, after)
    assert pytest.approx(plate.face_areas_mm2.sum(), rel=0.01) == held.A
    assert held.B == 0.0


def test_a_part_that_grew_on_one_side_is_not_taken_for_shifted():
    old, new = box((0, 0, 0), (60, 40, 10)), box((0, 0, 0), (66, 40, 10))
    assert likely_motion(old, new, 0.1) is STILL
    away = likely_motion(old, moved(old, SHIFT), 0.1)
    assert away.turn_deg == 0.0
    assert away.shift_mm == pytest.approx(SHIFT)


def test_marks_go_over_to_a_file_that_lies_turned(grips):
    (old, classes), (finer, wanted) = grips
    turn = np.array([[1.0, 0, 0], [0, 0, -1], [0, 1, 0]])
    new = Mesh(finer.vertices_mm @ turn.T + SHIFT, finer.faces)
    revision = carry_to_revision(old, classes, new)
    pieces, after = outcome(new, revision.marked)
    assert revision.motion.turn == pytest.approx(turn, abs=2e-3)
    parents = np.arange(new.face_count)
    if revision.marked.pieces is not None:
        parents = revision.marked.pieces.parents
    assert agreeing(pieces, after, wanted[parents]) > 0.97
    assert revision.lost_mm2 < 0.01 * new.face_areas_mm2.sum()
