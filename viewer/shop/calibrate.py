"""Finished prints correct the estimate and make its range narrower.

Real over estimated is regressed on the size of the job, in logarithms, as errors are factors:

    ln(real / estimated) = offset + slope · ln(estimated / middle) + noise

Before any print is finished, offset and slope are taken as 0 give or take PRIOR_OFFSET and
PRIOR_SLOPE, and the noise as PRIOR_NOISE worth PRIOR_PRINTS prints; each finished print moves that
(Bayesian linear regression with conjugate priors, solved as least squares with the prior as
further rows; Gelman et al., Bayesian Data Analysis, MEM). The range is that of nine in ten prints.
"""

import math
from dataclasses import dataclass, replace

import msgspec
import numpy as np

from viewer.shop.print_job import Estimate
from viewer.shop.ranges import Range
from viewer.shop.sound_values import refuse
from viewer.words import say

# Common practice, no source: estimates are off by a quarter, less in their slope, and prints of
# one job differ by some per cent.
PRIOR_OFFSET, PRIOR_SLOPE, PRIOR_NOISE, PRIOR_PRINTS = 0.25, 0.1, 0.08, 3.0
NINE_IN_TEN = 1.645  # standard deviations of a normal distribution


class FinishedPrint(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """What a print was estimated at, without correction, and what it really took.

    time_s, mass_g : real, 0 where not noted; estimated_s, estimated_g : likely values
    machine, pair, job, day : what it was, for people; day as 2026-11-26
    """

    estimated_s: float
    time_s: float = 0.0
    estimated_g: float = 0.0
    mass_g: float = 0.0
    machine: str = ""
    pair: str = ""
    job: str = ""
    day: str = ""

    def __post_init__(self) -> None:
        values = (self.estimated_s, self.time_s, self.estimated_g, self.mass_g)
        refuse(
            say("Finished print"),
            (
                (
                    all(0 <= each <= 1e9 for each in values),
                    say("time and mass must not be negative."),
                ),
                (
                    (self.estimated_s > 0 and self.time_s > 0)
                    or (self.estimated_g > 0 and self.mass_g > 0),
                    say("note the real time or the real mass beside the estimate."),
                ),
            ),
        )


def finished_print(
    of: Estimate, time_s: float = 0.0, mass_g: float = 0.0, job: str = "", day: str = ""
) -> FinishedPrint:
    """What to note of a print that was estimated so; raises RequestProblem without a real value."""
    return FinishedPrint(
        estimated_s=of.estimated_s,
        time_s=time_s,
        estimated_g=of.estimated_g,
        mass_g=mass_g,
        machine=of.machine,
        pair=of.pair,
        job=job,
        day=day,
    )


@dataclass(frozen=True, eq=False)
class Calibration:
    """Factor and spread by the size of the estimate.

    offset, slope : of ln(real / estimated); middle : size at which the offset holds, as estimated
    covariance : (2, 2) float64 of both; noise : standard deviation of one print
    prints : how many finished prints it knows
    """

    offset: float = 0.0
    slope: float = 0.0
    middle: float = 1.0
    covariance: np.ndarray | None = None
    noise: float = PRIOR_NOISE
    prints: int = 0

    def factor(self, estimated: float) -> Range:
        """Real over estimated for an estimate of that size."""
        if not self.prints or estimated <= 0:
            return Range(1.0, 1.0, 1.0)
        row = np.array([1.0, math.log(estimated / self.middle)])
        mean = self.offset + self.slope * float(row[1])
        spread = NINE_IN_TEN * math.sqrt(float(row @ self.covariance @ row) + self.noise**2)
        return Range(*(math.exp(mean + sign * spread) for sign in (-1.0, 0.0, 1.0)))


def calibrate(estimated: np.ndarray, real: np.ndarray) -> Calibration:
    """The calibration that finished prints tell.

    estimated, real : (n,) float64, both above 0
    """
    estimated, real = np.asarray(estimated, np.float64), np.asarray(real, np.float64)
    if not len(estimated):
        return Calibration()
    middle = float(np.exp(np.log(estimated).mean()))
    x, y = np.log(estimated / middle), np.log(real / estimated)
    rows = np.column_stack([np.ones(len(x)), x])
    weights = PRIOR_NOISE / np.array([PRIOR_OFFSET, PRIOR_SLOPE])
    stacked = np.vstack([rows, np.diag(weights)])
    wanted = np.concatenate([y, np.zeros(2)])
    found, *_ = np.linalg.lstsq(stacked, wanted, rcond=None)
    rest = float(np.sum((wanted - stacked @ found) ** 2))
    noise2 = (PRIOR_PRINTS * PRIOR_NOISE**2 + rest) / (PRIOR_PRINTS + len(x))
    covariance = noise2 * np.linalg.inv(stacked.T @ stacked)
    return Calibration(
        float(found[0]), float(found[1]), middle, covariance, math.sqrt(noise2), len(x)
    )


@dataclass(frozen=True, eq=False)
class Calibrations:
    """Those of time and mass."""

    time: Calibration = Calibration()
    mass: Calibration = Calibration()


def calibrate_prints(
    prints: tuple[FinishedPrint, ...], machine: str = "", pair: str = ""
) -> Calibrations:
    """Calibrations from the prints of one machine and pair; "" takes those of all."""
    own = [
        each
        for each in prints
        if (not machine or each.machine == machine) and (not pair or each.pair == pair)
    ]
    timed = [p for p in own if p.estimated_s > 0 and p.time_s > 0]
    weighed = [p for p in own if p.estimated_g > 0 and p.mass_g > 0]
    return Calibrations(
        calibrate([p.estimated_s for p in timed], [p.time_s for p in timed]),
        calibrate([p.estimated_g for p in weighed], [p.mass_g for p in weighed]),
    )


def corrected(estimate: Estimate, calibrations: Calibrations, hourly_rate: float) -> Estimate:
    """The estimate with times and masses as finished prints tell, and money in step.

    hourly_rate : of the machine, which the money for the time is reckoned with
    """
    time = _corrected(estimate.time_s, calibrations.time)
    total = sum(each.likely for each in estimate.material_g.values())
    factor = calibrations.mass.factor(total)

    def grams(of: Range) -> Range:
        if not calibrations.mass.prints:
            return of
        return Range(*(of.likely * f for f in factor))

    hours = [hourly_rate * seconds / 3600.0 for seconds in estimate.time_s]
    material = [money - hour for money, hour in zip(estimate.cost, hours, strict=True)]
    if calibrations.mass.prints:
        material = [material[1] * f for f in factor]
    cost = [m + hourly_rate * s / 3600.0 for m, s in zip(material, time, strict=True)]
    steps = time.likely / max(estimate.time_s.likely, 1e-9)
    return replace(
        estimate,
        time_s=time,
        time_parts_s={name: each * steps for name, each in estimate.time_parts_s.items()},
        material_g={name: grams(each) for name, each in estimate.material_g.items()},
        model_g=grams(estimate.model_g),
        support_g=grams(estimate.support_g),
        purge_g=grams(estimate.purge_g),
        cost=Range.of(*cost),
        layer_s=estimate.layer_s * steps,
    )


def _corrected(of: Range, calibration: Calibration) -> Range:
    if not calibration.prints:
        return of
    return Range(*(of.likely * factor for factor in calibration.factor(of.likely)))


def fit_curve(
    calibration: Calibration, estimated: np.ndarray
) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Low, likely and high real values for estimates (n,), to draw beside the finished prints."""
    curves = np.array([[e * f for f in calibration.factor(float(e))] for e in estimated])
    low, likely, high = curves.reshape(-1, 3).T
    return low, likely, high
