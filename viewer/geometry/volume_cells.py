"""Which share of a volume has some property, asked at few points of it, most where it changes.

The volume under the sample lines is divided among cubes. One point is asked about in each; where
the cubes around one do not agree, more of its points are asked about. Whether a cube counts as
agreed upon is read from its neighbours alone, never from its own point, so that the estimate stays
unbiased (what a cube's own point says is independent of how the cube was sorted).

Standard error, of the points: s² v² of each cube that has more than one (s² the variance of its
mean, v its volume), and v² of each other cube whose own point contradicts its neighbours, which on
the mean is not less than its variance (Cochran 1977, Sampling Techniques, ch. 5; MEM). It is never
less than what one more such cube would bring.
"""

from collections.abc import Callable
from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import LOOK_BITS, compiled
from viewer.geometry.support_samples import SupportSamples
from viewer.progress import Progress

# If the volume filled whole cubes; at its rim there are more, filled in part. Within these limits a
# cube, which may hide something, is not larger than the error aimed at.
_FEWEST_CELLS, _MOST_CELLS = 2_000, 6_000
_MOST_IN_BOX = 200_000  # full and empty ones
# Further points in a full cube on which the neighbours do not agree: as many as it takes, if its
# share has so much variance on the mean, for which at most so many points are asked about.
_FEWEST, _MOST, _SPREAD, _MOST_IN_ALL = 2, 30, 0.09, 5_000
_OFF_END = 1e-3  # share of a support's height within which no point lies at its ends


class VolumeShare(NamedTuple):
    """volume_mm3, error_mm3 : of what has the property, one standard error of the points asked
    of_row_mm3 : (rows,) float64, the same volume by rows of sample lines, by the cubes' shares
    points_mm, weights_mm3 : (k, 3) and (k,), the points that have it and the volume of each
    """

    volume_mm3: float
    error_mm3: float
    of_row_mm3: np.ndarray
    points_mm: np.ndarray
    weights_mm3: np.ndarray


class _Cells(NamedTuple):
    """Cubes side by side, x fastest; heights are above the platform."""

    low_mm: np.ndarray
    size_mm: float
    nx: int
    ny: int
    nz: int


def volume_share(
    samples: SupportSamples,
    counted: np.ndarray,
    has_it: Callable[[np.ndarray], np.ndarray],
    enough_mm3: float,
    seed: int,
    progress: Progress | None = None,
    effort: float = 1.0,
) -> VolumeShare:
    """The share of the counted samples' volume that has a property.

    counted : (s,) bool, some of the volume at least
    has_it : from (k, 3) float64 points, heights above the platform, to (k,) bool; points that
        follow one another are near each other
    enough_mm3 : standard error aimed at; no points are spent to get far below it
    effort : how many times as many points may be asked about to get there
    Raises Cancelled through `progress`.
    """
    progress = progress or Progress()
    plan = np.where(counted, samples.plan_mm2, 0.0)
    cells = _cells_over(samples, plan, 0.8 * enough_mm3, effort)
    place = cells, samples.places_mm, samples.bottom_mm, samples.top_mm, plan
    progress.check()
    volume = _volumes(*place, progress.stop_flag)
    progress.check()
    filled = np.flatnonzero(volume > 0)
    rng = np.random.default_rng(seed)
    asked = np.zeros(len(volume), np.int64)
    asked[filled] = 1
    first = _points(*place, volume, asked, rng.random(len(filled)), progress.stop_flag)
    progress.check()
    answer = np.zeros(len(volume), np.int8)
    answer[filled] = np.where(has_it(first), 1, -1)
    around = _what_is_around(cells, answer)
    more = _how_many_more(np.where(around == 0, volume, 0.0), cells.size_mm**3, enough_mm3, effort)
    second, has = np.empty((0, 3)), answer[filled] > 0
    if more.any():
        second = _points(*place, volume, more, rng.random(more.sum()), progress.stop_flag)
        progress.check()
        has = np.concatenate([has, has_it(second)])
    progress.check()
    cell = np.concatenate([filled, np.repeat(np.arange(len(volume)), more)])
    number = asked + more
    share = np.bincount(cell, has, len(volume)) / np.maximum(number, 1)
    error = _error(volume, share, number, around)
    weights = (volume / np.maximum(number, 1))[cell[has]]
    of_row = np.zeros(samples.rows)
    if share.any():
        progress.check()
        of_row = _shares_by_row(*place, share, samples.row, samples.rows, progress.stop_flag)
        progress.check()
    points = np.concatenate([first, second])[has]
    return VolumeShare(float(volume @ share), error, of_row, points, weights)


def _how_many_more(unsure: np.ndarray, full: float, enough: float, effort: float) -> np.ndarray:
    """(c,) int64: further points in each cube, by its volume if unsure; `full` is a full one's."""
    total = float(unsure.sum())
    if total == 0.0:
        return np.zeros(len(unsure), np.int64)
    wanted = _SPREAD * full * total / enough**2
    most = min(_MOST, _MOST_IN_ALL * effort * full / total)
    return np.ceil(max(min(wanted, most), _FEWEST) * unsure / full).astype(np.int64)


def _error(volume, share, number, around) -> float:
    several = number > 1
    spread = volume**2 * share * (1 - share) / np.maximum(number - 1, 1)
    contradicted = (number == 1) & ((share > 0) != (around > 0))
    alone = np.where(number == 1, volume, 0.0)
    unseen = float(alone.max(initial=0.0)) or float((volume / np.maximum(number, 1)).max())
    return float(np.sqrt(spread[several].sum() + np.sum(volume[contradicted] ** 2) + unseen**2))


def _cells_over(
    samples: SupportSamples, plan: np.ndarray, wanted_mm3: float, effort: float
) -> _Cells:
    low, high, volume = _box(samples.places_mm, samples.bottom_mm, samples.top_mm, plan)
    size = np.maximum(high - low, 1e-6)
    cell = min(max(wanted_mm3, volume / (_MOST_CELLS * effort)), volume / _FEWEST_CELLS)
    side = max(cell, float(np.prod(size)) / _MOST_IN_BOX) ** (1 / 3)
    while np.prod(np.floor(size / side) + 1) > 2 * _MOST_IN_BOX:
        side *= 1.3  # a long thin box has more cubes along its rim than inside
    nx, ny, nz = (int(n) + 1 for n in np.floor(size / side))
    return _Cells(low, float(side), nx, ny, nz)


@compiled
def _box(places, bottom, top, plan):
    """The box around the supports that have some plan area, and their volume."""
    low, high, volume = np.full(3, np.inf), np.full(3, -np.inf), 0.0
    for i in range(len(plan)):
        if plan[i] > 0.0:
            for axis in range(2):
                low[axis] = min(low[axis], places[i, axis])
                high[axis] = max(high[axis], places[i, axis])
            low[2], high[2] = min(low[2], bottom[i]), max(high[2], top[i])
            volume += plan[i] * (top[i] - bottom[i])
    return low, high, volume


@compiled
def _lowest_cell(cells, x, y):
    i = min(max(int((x - cells.low_mm[0]) / cells.size_mm), 0), cells.nx - 1)
    j = min(max(int((y - cells.low_mm[1]) / cells.size_mm), 0), cells.ny - 1)
    return j * cells.nx + i


@compiled
def _level(cells, z):
    return min(max(int((z - cells.low_mm[2]) / cells.size_mm), 0), cells.nz - 1)


@compiled
def _end(cells, k, last, top):
    """Where a support that ends in layer `last` of the cubes leaves the k-th layer."""
    return top if k == last else cells.low_mm[2] + (k + 1) * cells.size_mm


@compiled
def _volumes(cells, places, bottom, top, plan, stop):
    """(c,) volume in each cube."""
    layer = cells.nx * cells.ny
    volume = np.zeros(layer * cells.nz)
    for i in range(len(plan)):
        if i & LOOK_BITS == 0 and stop[0]:
            break
        if plan[i] <= 0.0 or top[i] <= bottom[i]:
            continue
        lowest = _lowest_cell(cells, places[i, 0], places[i, 1])
        low, last = bottom[i], _level(cells, top[i])
        for k in range(_level(cells, low), last + 1):
            high = _end(cells, k, last, top[i])
            volume[lowest + k * layer] += plan[i] * (high - low)
            low = high
    return volume


@compiled
def _shares_by_row(cells, places, bottom, top, plan, share, row, rows, stop):
    """(rows,) the volume that has the property, of each row of sample lines."""
    layer = cells.nx * cells.ny
    of_row = np.zeros(rows)
    for i in range(len(plan)):
        if i & LOOK_BITS == 0 and stop[0]:
            break
        if plan[i] <= 0.0 or top[i] <= bottom[i]:
            continue
        lowest = _lowest_cell(cells, places[i, 0], places[i, 1])
        low, last = bottom[i], _level(cells, top[i])
        for k in range(_level(cells, low), last + 1):
            high = _end(cells, k, last, top[i])
            of_row[row[i]] += share[lowest + k * layer] * plan[i] * (high - low)
            low = high
    return of_row


@compiled
def _points(cells, places, bottom, top, plan, volume, asked, random, stop):
    """(asked.sum(), 3) points, cube by cube: in each, one in each of equal shares of its volume."""
    layer = cells.nx * cells.ny
    passed, taken = np.zeros(len(volume)), np.zeros(len(volume), np.int64)
    start = np.cumsum(asked) - asked
    points = np.empty((len(random), 3))
    for i in range(len(plan)):
        if i & LOOK_BITS == 0 and stop[0]:
            break
        if plan[i] <= 0.0 or top[i] <= bottom[i]:
            continue
        lowest = _lowest_cell(cells, places[i, 0], places[i, 1])
        off = _OFF_END * (top[i] - bottom[i])
        end, last = bottom[i], _level(cells, top[i])
        for k in range(_level(cells, end), last + 1):
            c = lowest + k * layer
            low, end = end, _end(cells, k, last, top[i])
            if taken[c] == asked[c]:
                continue
            before = passed[c]
            passed[c] += plan[i] * (end - low)
            # Summed up in the same order as `volume`, the pieces end at exactly the same number.
            while taken[c] < asked[c]:
                n = start[c] + taken[c]
                target = (taken[c] + random[n]) / asked[c] * volume[c]
                if target >= passed[c] and passed[c] < volume[c]:
                    break
                z = low + (target - before) / plan[i]
                points[n, 0], points[n, 1] = places[i, 0], places[i, 1]
                points[n, 2] = min(max(z, bottom[i] + off), top[i] - off)
                taken[c] += 1
    return points


@compiled
def _what_is_around(cells, answer):
    """(c,) int8: what all neighbours of a cube say, 1 or −1; 0 if they differ or there is none."""
    around = np.zeros_like(answer)
    layer = cells.nx * cells.ny
    for c in range(len(answer)):
        if answer[c] == 0:
            continue
        i, j, k = c % cells.nx, c // cells.nx % cells.ny, c // layer
        yes = no = False
        for n, there in (
            (c - 1, i > 0),
            (c + 1, i < cells.nx - 1),
            (c - cells.nx, j > 0),
            (c + cells.nx, j < cells.ny - 1),
            (c - layer, k > 0),
            (c + layer, k < cells.nz - 1),
        ):
            if there:
                yes, no = yes or answer[n] > 0, no or answer[n] < 0
        around[c] = 1 if yes and not no else (-1 if no and not yes else 0)
    return around
