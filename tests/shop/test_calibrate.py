"""Calibration finds the truth that made-up prints were made with, and narrows the range."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.shop.made_jobs import WHOLE, estimated, layers, machine
from viewer.errors import RequestProblem
from viewer.shop.calibrate import (
    PRIOR_NOISE,
    PRIOR_OFFSET,
    PRIOR_SLOPE,
    Calibrations,
    FinishedPrint,
    calibrate,
    calibrate_prints,
    corrected,
    finished_print,
    fit_curve,
)

MADE = estimated(layers(400, 80, 100, touch_at=[30]), WHOLE)


def truth(count, offset, slope, noise, seed=1):
    """Jobs between half an hour and two days, and what they really took."""
    random = np.random.default_rng(seed)
    sizes = np.exp(random.uniform(np.log(1800), np.log(170_000), count))
    middle = np.exp(np.log(sizes).mean())
    real = sizes * np.exp(offset + random.normal(0, noise, count)) * (sizes / middle) ** slope
    return sizes, real


@pytest.mark.parametrize(
    ("offset", "slope", "noise"), [(0.2, 0.0, 0.05), (-0.3, 0.05, 0.1), (0.0, -0.08, 0.02)]
)
def test_many_prints_tell_the_truth(offset, slope, noise):
    """Synthetic truth: 200 prints; found within four standard errors of it."""
    sizes, real = truth(200, offset, slope, noise)
    found = calibrate(sizes, real)
    errors = np.sqrt(np.diag(found.covariance))
    assert found.offset == pytest.approx(offset, abs=4 * errors[0] + 1e-3)
    assert found.slope == pytest.approx(slope, abs=4 * errors[1] + 1e-3)
    assert found.noise == pytest.approx(noise, rel=0.2)
    assert found.prints == 200


def test_nine_of_ten_prints_lie_within_the_range():
    sizes, real = truth(4000, 0.15, 0.02, 0.07)
    found = calibrate(sizes[:30], real[:30])
    low, likely, high = fit_curve(found, sizes[30:])
    share = np.mean((real[30:] >= low) & (real[30:] <= high))
    assert 0.8 < share < 0.97
    assert np.median(real[30:] / likely) == pytest.approx(1, abs=0.05)


def test_the_regression_is_that_of_the_normal_equations():
    """Independent: posterior of a normal prior by the textbook formula (MEM), noise as found."""
    sizes, real = truth(7, 0.2, 0.03, 0.05)
    found = calibrate(sizes, real)
    x = np.column_stack([np.ones(7), np.log(sizes / found.middle)])
    y = np.log(real / sizes)
    prior = np.diag(PRIOR_NOISE**2 / np.array([PRIOR_OFFSET, PRIOR_SLOPE]) ** 2)
    expected = np.linalg.solve(x.T @ x + prior, x.T @ y)
    np.testing.assert_allclose([found.offset, found.slope], expected, rtol=1e-9)


@given(st.floats(-0.4, 0.4), st.integers(1, 12))
def test_prints_that_agree_make_the_range_narrower(offset, count):
    """Each further print of the same kind narrows it, and draws the likely value to it."""
    sizes = np.full(count + 1, 40_000.0)
    real = sizes * np.exp(offset)
    fewer, more = calibrate(sizes[:count], real[:count]), calibrate(sizes, real)
    before, after = fewer.factor(40_000), more.factor(40_000)
    assert after.high / after.low < before.high / before.low
    assert abs(np.log(after.likely) - offset) <= abs(np.log(before.likely) - offset) + 1e-12
    assert before.low < before.likely < before.high


def test_one_print_does_not_settle_it():
    """CALC: a single print moves the offset by its share of both variances."""
    found = calibrate([40_000], [60_000])
    share = PRIOR_OFFSET**2 / (PRIOR_OFFSET**2 + PRIOR_NOISE**2)
    assert found.offset == pytest.approx(share * np.log(1.5))


def test_an_estimate_is_corrected_and_its_range_narrower():
    prints = tuple(
        FinishedPrint(
            estimated_s=MADE.time_s.likely * f, time_s=MADE.time_s.likely * f * 1.2,
            estimated_g=10.0 * f, mass_g=11.0 * f, machine="Made",
        )
        for f in (0.5, 0.7, 1.0, 1.3, 2.0, 3.0, 0.9, 1.1)
    )  # fmt: skip
    better = corrected(MADE, calibrate_prints(prints, "Made"), machine().hourly_rate)
    assert better.time_s.likely == pytest.approx(MADE.time_s.likely * 1.2, rel=0.03)
    assert better.model_g.likely == pytest.approx(MADE.model_g.likely * 1.1, rel=0.03)
    before, after = MADE.time_s, better.time_s
    assert after.high / after.low < before.high / before.low
    assert sum(better.time_parts_s.values()) == pytest.approx(after.likely)
    grams = {name: each.likely for name, each in better.material_g.items()}
    money = grams["Wax"] * 20 / 1000 + grams["Salt"] * 100 / 1000 + after.likely / 3600 * 3.0
    assert better.cost.likely == pytest.approx(money)
    assert better.cost.low <= better.cost.likely <= better.cost.high
    elsewhere = corrected(MADE, calibrate_prints(prints, "Another"), 3.0)
    assert elsewhere.time_s == MADE.time_s
    assert elsewhere.cost == pytest.approx(MADE.cost)


def test_what_is_noted_is_the_estimate_before_it_was_corrected():
    """Otherwise each print would correct the correction; the second round finds the same factor."""
    first = finished_print(MADE, time_s=1.5 * MADE.time_s.likely, job="hook", day="2026-11-26")
    assert (first.estimated_s, first.machine) == (MADE.time_s.likely, "Made")
    known = calibrate_prints((first,) * 20)
    better = corrected(MADE, known, 3.0)
    assert better.time_s.likely > 1.4 * MADE.time_s.likely
    assert finished_print(better, time_s=1.0).estimated_s == MADE.time_s.likely
    assert finished_print(better, mass_g=1.0).estimated_g == pytest.approx(
        MADE.model_g.likely + MADE.waste_g.likely
    )


def test_without_prints_nothing_changes():
    same = corrected(MADE, Calibrations(), machine().hourly_rate)
    assert same.time_s == MADE.time_s
    assert same.cost == pytest.approx(MADE.cost)
    assert calibrate([], []).factor(100) == (1, 1, 1)


def test_a_finished_print_needs_something_real():
    with pytest.raises(RequestProblem, match="real time or the real mass"):
        FinishedPrint(estimated_s=100.0)
    with pytest.raises(RequestProblem, match="must not be negative"):
        FinishedPrint(estimated_s=100.0, time_s=-1.0)
