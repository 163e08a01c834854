"""What decides the spin, as it is kept with the job."""

import numpy as np
import pytest

from viewer.errors import RequestProblem
from viewer.geometry.pose import Pose, pose_of_rotation, rotation
from viewer.geometry.rotations import turn_of_vector
from viewer.geometry.seam_and_axes import spin_of_side
from viewer.geometry.spin_wish import SpinRule, SpinWish


def test_only_the_rule_that_goes_by_a_side_keeps_one_and_it_has_unit_length():
    assert SpinWish(SpinRule.SEAM_SIDE, (0.0, -2.0, 0.0)).side == (0.0, -1.0, 0.0)
    assert SpinWish(SpinRule.WALLS, (0.0, -2.0, 0.0)) == SpinWish(SpinRule.WALLS)
    for side in (None, (0.0, 0.0, 0.0), (float("nan"), 0.0, 1.0)):
        with pytest.raises(RequestProblem, match="seam is not known"):
            SpinWish(SpinRule.SEAM_SIDE, side)


def test_the_side_stays_where_it_was_when_the_part_is_turned_in_its_file():
    """INVARIANT: the part stands and spins as before, whatever its own axes are called."""
    wish, turn = SpinWish(SpinRule.SEAM_SIDE, (0.6, 0.0, 0.8)), turn_of_vector(np.array([1, 2, 3]))
    up = np.array([0.0, 1.0, 0.0])
    pose = Pose((0.0, 1.0, 0.0), spin_of_side(up, np.array(wish.side)))
    carried = pose_of_rotation(rotation(pose) @ turn.T)
    after = wish.turned(turn)
    assert spin_of_side(np.array(carried.up), np.array(after.side)) == pytest.approx(
        carried.spin_deg
    )
