"""Sorting in pieces against numpy's stable sort."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from viewer.errors import Cancelled
from viewer.geometry.sort_keys import order_of_keys
from viewer.progress import Progress


@given(arrays(np.uint64, st.integers(0, 60), elements=st.integers(0, 2**63)))
def test_few_keys(keys):
    assert np.array_equal(order_of_keys(keys), np.argsort(keys, kind="stable"))


@pytest.mark.parametrize("bits", [0, 3, 11, 12, 40, 63])
def test_many_keys(bits):
    keys = np.random.default_rng(1).integers(0, 1 << bits, 150_000, dtype=np.uint64)
    assert np.array_equal(order_of_keys(keys), np.argsort(keys, kind="stable"))


def test_keys_crowded_in_one_digit():
    """One far key, and all others so close together that they share their two highest digits."""
    keys = np.random.default_rng(2).integers(0, 1 << 30, 120_000, dtype=np.uint64)
    keys[77] = 1 << 62
    assert np.array_equal(order_of_keys(keys), np.argsort(keys, kind="stable"))


def test_a_cancel_is_heard():
    progress = Progress()
    progress.cancel()
    with pytest.raises(Cancelled):
        order_of_keys(np.arange(9, dtype=np.uint64), progress)
