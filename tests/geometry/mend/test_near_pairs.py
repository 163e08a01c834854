"""Near pairs equal those of scipy's tree and of all distances, however the points lie."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.spatial import cKDTree

from viewer.errors import Cancelled
from viewer.geometry.mend.near_pairs import near_pairs
from viewer.progress import Progress


@given(
    seed=st.integers(0, 10**6),
    count=st.integers(0, 300),
    within=st.sampled_from([1e-6, 0.01, 0.1, 0.5, 3.0]),
    flat=st.booleans(),
    offset=st.sampled_from([0.0, 1e4, -1e4]),
)
@settings(deadline=None)
def test_the_pairs_are_those_of_all_distances(seed, count, within, flat, offset):
    rng = np.random.default_rng(seed)
    points = rng.uniform(0, 2, (count, 3)) + offset
    if flat:
        points[:, rng.integers(3)] = offset
    points[::3] = points[::3][rng.permutation(len(points[::3]))] + 0.3 * within
    pairs, apart = near_pairs(points, within)
    distances = np.linalg.norm(points[:, None] - points[None], axis=2)
    low, high = np.nonzero(np.triu(distances <= within, 1))
    # A distance of exactly `within` may be told either way by its last digit.
    sure = np.abs(distances[low, high] - within) > 1e-9 * within + 1e-11
    wanted = set(zip(low[sure].tolist(), high[sure].tolist(), strict=True))
    got = list(map(tuple, pairs.tolist()))
    assert len(set(got)) == len(got)
    assert wanted <= set(got)
    assert got == sorted(got)
    assert (pairs[:, 0] < pairs[:, 1]).all()
    np.testing.assert_allclose(apart, distances[pairs[:, 0], pairs[:, 1]], atol=1e-11)
    assert (apart <= within * (1 + 1e-12)).all()


def test_many_points_on_a_surface_and_many_in_one_place():
    rng = np.random.default_rng(5)
    points = rng.normal(size=(20_000, 3))
    points *= 50.0 / np.linalg.norm(points, axis=1)[:, None]
    points[:500] = 1e-3 * rng.normal(size=(500, 3))  # far more pairs than points
    pairs, _ = near_pairs(points, 0.5)
    assert {*map(tuple, pairs.tolist())} == cKDTree(points).query_pairs(0.5)


def test_looking_can_be_cancelled():
    progress = Progress()
    progress.cancel()
    with pytest.raises(Cancelled):
        near_pairs(np.zeros((10, 3)), 1.0, progress)
