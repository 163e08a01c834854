"""The lowest and the highest of many points are those that a look at all of them finds."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.few import few
from viewer.geometry.point_blocks import block_points, lowest_and_highest, lowest_and_highest_of_all


def extremes(points, up):
    return lowest_and_highest(points, block_points(points), up)


@settings(max_examples=few(66, 200), deadline=None)
@given(st.integers(1, 300), st.integers(0, 10_000), st.sampled_from([0.0, 1e-3, 1.0, 1e3]))
def test_the_extremes_of_points_anywhere(count, seed, spread):
    rng = np.random.default_rng(seed)
    points = rng.normal(size=(count, 3)) * [1.0, 1.0, spread] + rng.normal(0, 50, 3)
    up = rng.normal(size=3)
    up /= np.linalg.norm(up)
    heights = points @ up
    expected = pytest.approx((heights.min(), heights.max()), abs=1e-9)
    assert extremes(points, up) == expected
    assert lowest_and_highest_of_all(points, up) == expected


def test_all_points_on_one_plane():
    """Every block holds a lowest and a highest point."""
    points = np.random.default_rng(0).uniform(0, 10, (500, 3))
    points[:, 2] = 7.0
    assert extremes(points, np.array([0.0, 0.0, 1.0])) == (7.0, 7.0)
