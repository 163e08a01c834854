"""Copies on a platform: none overlap, all lie on it, and how many find room."""

import numpy as np
import pytest

from tests.shop.made_jobs import machine
from viewer.shop.copies import Outline, plan_copies

SQUARE = Outline("part", np.array([[-10.0, -5.0], [10.0, -5.0], [10.0, 5.0], [-10.0, 5.0]]))


def test_one_copy_has_no_outlines_and_still_says_how_many_find_room():
    plan = plan_copies(SQUARE, machine(), 1, 5.0, (0.0, 0.0))
    assert plan.outlines_mm == ()
    assert plan.most >= 2
    assert not plan.problem


@pytest.mark.parametrize("wanted", [2, 7, 12])
def test_copies_lie_on_the_platform_a_gap_apart(wanted):
    on = machine()
    plan = plan_copies(SQUARE, on, wanted, 5.0, (0.0, 0.0))
    assert len(plan.outlines_mm) == wanted
    middles = [0.5 * (o.min(axis=0) + o.max(axis=0)) for o in plan.outlines_mm]
    if plan.one_mm is not None:
        assert np.linalg.norm(np.array(middles) - plan.one_mm, axis=1).min() < 1e-9
    boxes = [(outline.min(axis=0), outline.max(axis=0)) for outline in plan.outlines_mm]
    for k, (low, high) in enumerate(boxes):
        assert (low >= np.array(on.low_mm[:2]) - 1e-6).all()
        assert (high <= np.array(on.high_mm[:2]) + 1e-6).all()
        assert sorted(high - low) == pytest.approx([10, 20])
        for other_low, other_high in boxes[k + 1 :]:
            gap = np.maximum(other_low - high, low - other_high)
            assert gap.max() >= 5.0 - 0.11  # the packing counts in tenths of a millimetre


def test_too_many_are_told_in_a_sentence_with_how_many_do():
    on = machine()
    most = plan_copies(SQUARE, on, 1, 5.0, (0.0, 0.0)).most
    assert len(plan_copies(SQUARE, on, most, 5.0, (0.0, 0.0)).outlines_mm) == most
    plan = plan_copies(SQUARE, on, most + 1, 5.0, (0.0, 0.0))
    assert plan.outlines_mm == ()
    assert "do not find room" in plan.problem
    assert plan_copies(SQUARE, on, 5000, 5.0, (0.0, 0.0)).problem


def test_test_pieces_stand_beside_the_copies_and_take_their_room():
    """CALC: 40 copies of 20 × 10 in 25 × 15 each; a piece of 100 × 100 takes the place of some."""
    on = machine()
    bar = np.array([[-50.0, -50.0], [50.0, -50.0], [50.0, 50.0], [-50.0, 50.0]])
    pieces = (Outline("fan", bar, 30.0, (0,)), Outline("ladder", 0.4 * bar, 12.0, (0,)))
    alone = plan_copies(SQUARE, on, 1, 5.0, (0.0, 0.0))
    plan = plan_copies(SQUARE, on, 3, 5.0, (0.0, 0.0), pieces)
    assert [name for name, _ in plan.pieces] == ["fan", "ladder"]
    assert len(plan.outlines_mm) == 3
    assert 3 <= plan.most < alone.most
    boxes = [
        (o.min(axis=0), o.max(axis=0)) for o in (*plan.outlines_mm, *dict(plan.pieces).values())
    ]
    for k, (low, high) in enumerate(boxes):
        assert (low >= np.array(on.low_mm[:2]) - 1e-6).all()
        assert (high <= np.array(on.high_mm[:2]) + 1e-6).all()
        for other_low, other_high in boxes[k + 1 :]:
            assert np.maximum(other_low - high, low - other_high).max() >= 5.0 - 1e-6
    assert plan.one_mm is not None
    one = plan_copies(SQUARE, on, 1, 5.0, (0.0, 0.0), pieces)
    assert len(one.outlines_mm) == 1
    assert one.one_mm is not None
    crowded = plan_copies(SQUARE, on, 1, 5.0, (0.0, 0.0), (*pieces, *[pieces[0]] * 4))
    assert "do not find room" in crowded.problem
