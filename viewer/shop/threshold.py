"""Where a graded test piece stops coming out, over several prints: one threshold, and how sure.

Every print has a threshold of its own, as no two prints are alike; its steps come out on one side
of it but for what is misjudged near it:

    threshold of a print ~ Normal(μ, τ)
    P(step at x comes out | threshold θ) = λ/2 + (1 − λ) · logistic((x − θ) / reading)

So a print counts once, however many steps it has. μ starts from what was believed before (Normal)
and τ from a half-normal; both are worked out on a grid, as in the bioassay of Gelman et al.,
Bayesian Data Analysis, section 3.7 (MEM). With one step to a print and an exact reading it is the
classical probit analysis of doses (Bliss 1935; Finney, MEM), against which it is tested.
"""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

GRID, SPREADS = 121, 20  # points of the grid for μ and for τ
NEGLIGIBLE = 1e-7  # of the probability; what lies beyond is left out of the finer grid
NINE_IN_TEN = (0.05, 0.95)
SAFE = 0.9  # share of prints that come out at the safe value


class Prior(NamedTuple):
    """What is believed before any print, on the scale that steps are counted on.

    start, spread : mean and standard deviation of μ; between : of the half-normal for τ
    reading : how finely an outcome is judged; lapse : share of outcomes noted by mistake
    """

    start: float
    spread: float
    between: float
    reading: float
    lapse: float = 0.02


class Graded(NamedTuple):
    """One print: where its steps lie, (k,) float64, and which came out, (k,) bool."""

    at: np.ndarray
    good: np.ndarray


class Threshold(NamedTuple):
    """Median of μ and nine tenths of it, and the value beyond which nine of ten prints come out."""

    low: float
    likely: float
    high: float
    safe: float


def threshold(prints: Sequence[Graded], prior: Prior, rising: bool = True) -> Threshold:
    """The threshold that prints tell together.

    rising : steps come out above the threshold; False: below it
    """
    if not rising:
        turned = [Graded(-np.asarray(each.at, float), each.good) for each in prints]
        found = threshold(turned, prior._replace(start=-prior.start))
        return Threshold(-found.high, -found.likely, -found.low, -found.safe)
    reach = 5.0 * prior.spread
    mu, tau = (prior.start - reach, prior.start + reach), (prior.between / 50, 5 * prior.between)
    for _ in range(3):  # each time on the part of the grid that matters
        grid = np.linspace(*mu, GRID)
        spreads = np.geomspace(*tau, SPREADS)
        weight, coming = _posterior(prints, prior, grid, spreads)
        mu, tau = _range_of(weight.sum(axis=0), grid), _range_of(weight.sum(axis=1), spreads)
    low, high = (_quantile(weight.sum(axis=0), grid, share) for share in NINE_IN_TEN)
    likely = _quantile(weight.sum(axis=0), grid, 0.5)
    return Threshold(low, likely, high, _quantile(coming[1], coming[0], SAFE))


def _posterior(
    prints: Sequence[Graded], prior: Prior, grid: np.ndarray, spreads: np.ndarray
) -> tuple[np.ndarray, tuple[np.ndarray, np.ndarray]]:
    """(τ, μ) probabilities on the grid, and those of the next print's threshold on a grid."""
    reach = 3.0 * spreads[-1]
    own = np.linspace(grid[0] - reach, grid[-1] + reach, 2 * GRID)
    of_print = np.array([_likelihood(each, prior, own) for each in prints]).reshape(-1, len(own))
    away = own[None, :] - grid[:, None]
    shares = np.exp(-0.5 * (away / spreads[:, None, None]) ** 2)  # (τ, μ, threshold of a print)
    shares /= np.maximum(shares.sum(axis=2, keepdims=True), 1e-300)
    of_all = shares.reshape(-1, len(own)) @ of_print.T
    weight = np.log(np.maximum(of_all, 1e-300)).sum(axis=1).reshape(shares.shape[:2])
    weight += -0.5 * ((grid - prior.start) / prior.spread) ** 2
    weight += (-0.5 * (spreads / prior.between) ** 2 + np.log(spreads))[:, None]
    weight = np.exp(weight - weight.max())
    weight /= weight.sum()
    return weight, (own, np.einsum("tm,tmk->k", weight, shares))


def _likelihood(graded: Graded, prior: Prior, own: np.ndarray) -> np.ndarray:
    """Of what came out, for each threshold (n,) that the print may have had."""
    side = np.where(graded.good, 1.0, -1.0)[:, None]
    into = side * (np.asarray(graded.at, float)[:, None] - own[None, :]) / prior.reading
    came = 1.0 / (1.0 + np.exp(-np.clip(into, -60.0, 60.0)))
    return np.prod(0.5 * prior.lapse + (1.0 - prior.lapse) * came, axis=0)


def _range_of(weight: np.ndarray, grid: np.ndarray) -> tuple[float, float]:
    """The part of a grid outside which next to nothing lies, a step more at either end."""
    there = np.flatnonzero(weight > NEGLIGIBLE * weight.max())
    first, last = max(there[0] - 1, 0), min(there[-1] + 1, len(grid) - 1)
    return float(grid[first]), float(grid[last])


def _quantile(weight: np.ndarray, grid: np.ndarray, share: float) -> float:
    """Of probabilities that are spread evenly about their points of an even grid."""
    edges = np.concatenate([[grid[0]], 0.5 * (grid[1:] + grid[:-1]), [grid[-1]]])
    until = np.concatenate([[0.0], np.cumsum(weight)])
    return float(np.interp(share * until[-1], until, edges))
