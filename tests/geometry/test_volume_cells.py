"""The share of a volume that has some property, against volumes in closed form (CALC)."""

import numpy as np
import pytest

from viewer.geometry.support_samples import SupportSamples
from viewer.geometry.volume_cells import volume_share

SIDE_MM, HEIGHT_MM, LINES = 20.0, 30.0, 100


def block(rng) -> SupportSamples:
    """A support of 20 × 20 × 30 under jittered lines, standing on the platform."""
    row, column = np.divmod(np.arange(LINES**2), LINES)
    shift = rng.random((2, LINES))
    places = np.column_stack([column + shift[0][row], row + shift[1][row]]) * SIDE_MM / LINES
    count = len(places)
    return SupportSamples(
        places, np.zeros(count), np.full(count, HEIGHT_MM), np.full(count, -1, np.int32),
        np.zeros(count, np.int32), np.full(count, SIDE_MM**2 / count), row.astype(np.int32), LINES,
    )  # fmt: skip


PROPERTIES = {
    "ball": (
        lambda p: np.linalg.norm(p - [10, 10, 15], axis=1) < 6,
        4 / 3 * np.pi * 6**3,
    ),
    "above a slant": (
        lambda p: p[:, 2] > 5 + 0.7 * p[:, 0] + 0.3 * p[:, 1],
        SIDE_MM**2 * (HEIGHT_MM - 15),
    ),
    "a slit of 1 mm": (lambda p: abs(p[:, 0] - 7.3) < 0.5, SIDE_MM * HEIGHT_MM),
    "a box": (
        lambda p: ((p > [3, 4, 5]) & (p < [11.5, 9, 22])).all(axis=1),
        8.5 * 5 * 17,
    ),
}


@pytest.mark.parametrize("name", PROPERTIES)
def test_it_is_unbiased_and_knows_its_error(name):
    has_it, truth = PROPERTIES[name]
    rng = np.random.default_rng(len(name))
    asked, found, errors = 0, [], []

    def counted(points):
        nonlocal asked
        asked += len(points)
        return has_it(points)

    for seed in range(60):
        samples = block(rng)
        share = volume_share(samples, np.ones(LINES**2, bool), counted, 20.0, seed)
        assert has_it(share.points_mm).all()
        assert share.weights_mm3.sum() == pytest.approx(share.volume_mm3)
        assert share.of_row_mm3.sum() == pytest.approx(share.volume_mm3)
        found.append(share.volume_mm3)
        errors.append(share.error_mm3)
    apart = np.array(found) - truth
    assert np.mean(abs(apart) <= 3 * np.array(errors)) >= 0.95
    assert abs(apart.mean()) <= 4 * apart.std() / np.sqrt(len(found))
    # It says neither too little nor, at these made boundaries, much too much.
    assert 0.8 * apart.std() <= np.mean(errors) <= 3 * apart.std()
    whole = SIDE_MM**2 * HEIGHT_MM
    plain = np.sqrt(truth * (whole - truth) / (asked / 60))
    # A slit narrower than the cubes is hard to tell from its neighbours.
    assert apart.std() < (1.0 if "slit" in name else 0.5) * plain


def test_what_is_not_counted_is_not_asked_about():
    samples = block(np.random.default_rng(1))
    left = samples.places_mm[:, 0] < 10

    def is_left(points):
        assert (points[:, 0] < 10).all()
        return np.ones(len(points), bool)

    share = volume_share(samples, left, is_left, 1.0, 0)
    assert share.volume_mm3 == pytest.approx(np.sum(left) / LINES**2 * SIDE_MM**2 * HEIGHT_MM)
    assert 0 < share.error_mm3 < 1e-3 * share.volume_mm3


def test_a_few_thin_supports_far_apart():
    """Two threads of 0.01 mm² at either end of a metre: few cubes, each in the right place."""
    places = np.array([[0.0, 0.0], [1000.0, 1000.0]])
    samples = SupportSamples(
        places, np.array([0.0, 500.0]), np.array([100.0, 1000.0]), np.full(2, -1, np.int32),
        np.zeros(2, np.int32), np.full(2, 0.01), np.array([0, 1], np.int32), 2,
    )  # fmt: skip
    share = volume_share(samples, np.ones(2, bool), lambda p: p[:, 2] > 500, 1.0, 3)
    assert share.volume_mm3 == pytest.approx(5.0)
    assert share.of_row_mm3 == pytest.approx([0.0, 5.0])
