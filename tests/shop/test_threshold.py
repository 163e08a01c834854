"""Thresholds out of graded prints, beside a published bioassay and independent integration."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import integrate, optimize, stats

from viewer.shop.threshold import Graded, Prior, threshold

FAN = np.array([30.0, 35.0, 40.0, 45.0])
SUPPORT = Prior(45.0, 8.0, 3.0, 1.0)


def prints(*outcomes: str, at=FAN):
    """One print for each string; "1" where a step came out."""
    return [Graded(at, np.array([letter == "1" for letter in each])) for each in outcomes]


def test_beetles_of_bliss_as_by_probit_analysis():
    """Bliss 1935, The calculation of the dosage-mortality curve: log doses, beetles, killed (READ
    in public data); probit b1 −34.94, b2 19.73 in Dobson, Introduction to Generalized Linear Models
    (MEM), so that half are killed at 34.94 / 19.73 = 1.771. The maximum of the likelihood is found
    anew by scipy."""
    dose = np.array([1.6907, 1.7242, 1.7552, 1.7842, 1.8113, 1.8369, 1.8610, 1.8839])
    beetles, killed = [59, 60, 62, 56, 63, 59, 62, 60], [6, 13, 18, 28, 52, 53, 61, 60]

    def unlikely(values):
        chance = stats.norm.cdf((dose - values[0]) / np.exp(values[1]))
        return -stats.binom.logpmf(killed, beetles, chance).sum()

    best = optimize.minimize(unlikely, [1.77, -3.0], method="BFGS")
    middle, spread = best.x[0], np.exp(best.x[1])
    assert (-middle / spread, 1 / spread) == pytest.approx((-34.935, 19.728), abs=0.01)
    each = [
        Graded(np.array([x]), np.array([died]))
        for x, all_, dead in zip(dose, beetles, killed, strict=True)
        for died, count in ((True, dead), (False, all_ - dead))
        for _ in range(count)
    ]
    found = threshold(each, Prior(1.77, 1.0, 1.0, 1e-5, lapse=0.0))
    assert found.likely == pytest.approx(middle, abs=5e-4)
    error = np.sqrt(best.hess_inv[0, 0])
    assert found.high - found.low == pytest.approx(2 * 1.645 * error, rel=0.03)
    assert found.safe == pytest.approx(middle + stats.norm.ppf(0.9) * spread, abs=2e-3)


@pytest.mark.parametrize("outcomes", [("0011",), ("0011", "0001", "0111"), ("0101", "0011")])
def test_median_and_range_as_by_other_quadrature(outcomes):
    """The same posterior: Gauss-Hermite over each print's threshold, Simpson over an even τ."""
    points, weights = np.polynomial.hermite_e.hermegauss(80)
    tau = np.linspace(1e-3, 14.0, 61)
    mu = np.linspace(20.0, 70.0, 151)
    own = mu[:, None, None] + tau[None, :, None] * points
    chance = np.ones((len(mu), len(tau)))
    for each in prints(*outcomes):
        came = np.ones(own.shape)
        for at, good in zip(each.at, each.good, strict=True):
            step = 1.0 / (1.0 + np.exp((own - at if good else at - own) / SUPPORT.reading))
            came *= 0.5 * SUPPORT.lapse + (1.0 - SUPPORT.lapse) * step
        chance *= came @ weights / np.sqrt(2.0 * np.pi)
    over_tau = integrate.simpson(chance * stats.halfnorm.pdf(tau, scale=SUPPORT.between), x=tau)
    density = stats.norm.pdf(mu, 45.0, 8.0) * over_tau
    until = integrate.cumulative_simpson(density, x=mu, initial=0.0)
    wanted = np.interp([0.05, 0.5, 0.95], until / until[-1], mu)
    found = threshold(prints(*outcomes), SUPPORT)
    assert [found.low, found.likely, found.high] == pytest.approx(wanted, abs=0.15)


def test_without_a_print_there_is_only_what_was_believed():
    found = threshold([], SUPPORT)
    assert found.likely == pytest.approx(45, abs=0.05)
    assert found.low == pytest.approx(45 - 1.645 * 8, abs=0.1)
    assert found.high == pytest.approx(45 + 1.645 * 8, abs=0.1)


def test_prints_narrow_the_range_and_outweigh_the_start():
    ranges = [threshold(prints(*["0011"] * n), SUPPORT) for n in (0, 1, 3, 20)]
    widths = [each.high - each.low for each in ranges]
    assert widths == sorted(widths, reverse=True)
    assert abs(ranges[-1].likely - 37.5) < 0.2  # between the steps that failed and came out
    assert ranges[-1].high - ranges[-1].low < 3
    far = threshold(prints(*["0011"] * 20), SUPPORT._replace(start=60.0))
    assert far.likely == pytest.approx(ranges[-1].likely, abs=0.2)


def test_many_steps_of_one_print_count_as_one_print():
    """A fan twice as fine is the same print; three prints of it are more."""
    fine = np.arange(30.0, 46.0)
    one = threshold(prints("0" * 8 + "1" * 8, at=fine), SUPPORT)
    three = threshold(prints(*["0" * 8 + "1" * 8] * 3, at=fine), SUPPORT)
    assert one.high - one.low > 1.5 * (three.high - three.low)
    assert one.high - one.low > 6  # as much as two prints of a shop differ


def test_prints_that_disagree_leave_a_wider_range():
    alike = threshold(prints(*["0011"] * 3), SUPPORT)
    apart = threshold(prints("0001", "0011", "0111"), SUPPORT)
    assert apart.high - apart.low > 1.2 * (alike.high - alike.low)
    assert apart.safe > alike.safe


def test_where_every_step_came_out_the_limit_lies_beyond_the_easiest_one():
    assert threshold(prints("1111", "1111"), SUPPORT).likely < 30
    assert threshold(prints("0000", "0000"), SUPPORT).likely > 45
    assert threshold(prints("1111", "1111"), SUPPORT).low < 25  # how far, nobody has seen


def test_one_slip_does_not_turn_the_answer_over():
    """Three prints say 37.5°; a fourth in which two steps were mixed up moves it little."""
    clear = threshold(prints(*["0011"] * 3), SUPPORT)
    slip = threshold(prints(*["0011"] * 3, "1011"), SUPPORT)
    assert slip.likely == pytest.approx(clear.likely, abs=1.5)


@settings(max_examples=8)
@given(
    st.lists(st.text("01", min_size=4, max_size=4), max_size=5),
    st.floats(20, 70), st.floats(-30, 30), st.floats(0.2, 5.0),
)  # fmt: skip
def test_scale_shift_and_sense_change_nothing_but_scale_shift_and_sense(given, start, by, times):
    prior = SUPPORT._replace(start=start)
    found = threshold(prints(*given), prior)
    assert found.low <= found.likely <= found.high
    moved = Prior(times * start + by, times * 8.0, times * 3.0, times * 1.0)
    again = threshold(prints(*given, at=times * FAN + by), moved)
    assert again == pytest.approx([times * x + by for x in found], abs=1e-6 * times * 100)
    turned = threshold(prints(*given, at=-FAN), prior._replace(start=-start), rising=False)
    assert turned == pytest.approx((-found.high, -found.likely, -found.low, -found.safe), abs=1e-9)
