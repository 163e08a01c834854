"""Merging of corners: against numpy's own unique, and by its defining property."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra import numpy as hnp

from viewer.errors import Cancelled
from viewer.geometry.merge_vertices import merge_vertices
from viewer.progress import Progress

# Few distinct values, so that equal positions and hash clusters are common.
_coordinates = st.sampled_from([0.0, -0.0, 0.5, 1.0, -1.0, 2.0**-40, 1e6, 1.0 + 2.0**-52])


@given(hnp.arrays(np.float64, st.tuples(st.integers(0, 60), st.just(3)), elements=_coordinates))
def test_every_corner_gets_its_position_and_no_position_comes_twice(positions):
    vertices, index = merge_vertices(positions)
    assert np.array_equal(vertices[index], positions)
    assert len(vertices) == len(np.unique(positions + 0.0, axis=0))
    assert not np.signbit(vertices[vertices == 0]).any()


@given(hnp.arrays(np.float64, st.tuples(st.integers(1, 60), st.just(3)), elements=_coordinates))
def test_vertices_come_in_order_of_first_appearance(positions):
    _, index = merge_vertices(positions)
    assert index[0] == 0
    assert np.all(index <= np.maximum.accumulate(np.r_[-1, index[:-1]]) + 1)


def test_float32_corners_are_kept_to_the_bit():
    positions = np.random.default_rng(1).normal(size=(3000, 3)).astype(np.float32)
    positions = np.concatenate([positions, positions[::-1]])
    vertices, index = merge_vertices(positions)
    assert len(vertices) == 3000
    assert vertices.dtype == np.float64
    assert np.array_equal(vertices[index], positions)


def test_a_regular_grid_does_not_clump():
    grid = np.stack(np.meshgrid(*[np.arange(40.0)] * 3), -1).reshape(-1, 3)
    vertices, _ = merge_vertices(np.concatenate([grid, grid]))
    assert np.array_equal(vertices, grid)


def test_a_cancelled_token_stops_it():
    progress = Progress()
    progress.cancel()
    with pytest.raises(Cancelled):
        merge_vertices(np.zeros((10, 3)), progress)


def test_noise_around_zero_is_rounded_away_and_other_float32_numbers_are_not():
    step = 2.0**-34
    clean = np.random.default_rng(2).uniform(2.0**-10, 100, (500, 3)).astype(np.float32)
    clean[::2, 0] = 0.0
    noisy = clean.copy()
    noisy[::2, 0] = np.random.default_rng(3).uniform(-1e-16, 1e-16, 250).astype(np.float32)
    vertices, index = merge_vertices(np.concatenate([clean, noisy]), step=step)
    assert np.array_equal(vertices, clean)
    assert np.array_equal(index, np.tile(np.arange(500), 2))
