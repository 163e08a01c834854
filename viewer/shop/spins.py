"""Which spins make hulls fit into boxes, and the one that sticks out least; exact.

Hulls that spin and shift together each have a box. Along x they fit at a spin if the furthest
corner of any hull j and the opposite one of any hull i are no further apart than the upper side of
box j and the lower side of box i; along y alike. Between two breakpoints (see `turning_hull`) each
of these distances is A·cos θ + B·sin θ: a set of spins that fit ends where one of them is zero,
and what sticks out is least there, at a breakpoint, where two are equal or where one is lowest.
"""

from typing import NamedTuple

import numpy as np

from viewer.shop.turning_hull import TURN, TurningHull, reach_mm

ROUNDING_MM = 1e-7
_WHOLE_RAD = np.radians(np.arange(360.0))


class Boxed(NamedTuple):
    """A hull and the box that it must stay in: (x, y) of its lower and upper corner."""

    hull: TurningHull
    low_mm: tuple[float, float]
    high_mm: tuple[float, float]


def over_mm(boxed: tuple[Boxed, ...], spin_rad: np.ndarray) -> np.ndarray:
    """(s,) float64: by how much they stick out at the best shift; at or below 0 where they fit."""
    need, room = _need_and_room(boxed, spin_rad)
    return (need - room).max(axis=1)


def spins_that_fit_rad(boxed: tuple[Boxed, ...]) -> np.ndarray:
    """(s,) float64, rising: whole degrees that fit, then the ends of each range of spins that do.

    Empty where no spin fits. Whole degrees come first, as they leave some room.
    """
    over = over_mm(boxed, _WHOLE_RAD)
    near = over - _slack_mm(boxed) <= ROUNDING_MM
    if not near.any():
        return np.zeros(0)
    whole = _WHOLE_RAD[over <= 0.0]
    starts, ends = _intervals_near(boxed, near)
    waves = _waves(boxed, starts, ends)
    found = np.concatenate([starts, _zeros(waves, starts, ends)])
    return np.concatenate([whole, np.sort(found[over_mm(boxed, found) <= ROUNDING_MM])])


def least_over(boxed: tuple[Boxed, ...]) -> tuple[float, float]:
    """The spin in radians at which they stick out least, and by how many mm."""
    over = over_mm(boxed, _WHOLE_RAD)
    starts, ends = _intervals_near(boxed, over - _slack_mm(boxed) <= over.min())
    at_start, at_end = over_mm(boxed, starts), over_mm(boxed, ends)
    best = int(np.argmin(at_start))
    spin, least = float(starts[best]), float(at_start[best])
    waves = _waves(boxed, starts, ends)
    # A distance that is positive is lowest at an end of its interval (it is a cosine next to its
    # top), so that most intervals need no closer look.
    lowest = np.minimum(_at(waves, starts), _at(waves, ends))
    lowest = np.where(lowest + waves.less > 0, lowest, -np.inf)
    promising = np.flatnonzero((lowest.max(axis=1) < least) | (at_end < least))
    if len(promising):
        some = _Waves(waves.cos[promising], waves.sin[promising], waves.less[promising])
        found = _meetings(some, starts[promising], ends[promising])
        found = np.concatenate([found, ends[promising]])
        values = over_mm(boxed, found)
        if values.min() < least:
            spin, least = float(found[np.argmin(values)]), float(values.min())
    return spin, least


class _Waves(NamedTuple):
    """cos·cos θ + sin·sin θ − less in each interval, (intervals, waves) float64."""

    cos: np.ndarray
    sin: np.ndarray
    less: np.ndarray


def _need_and_room(boxed, spin_rad):
    """(s, waves) distances needed and had."""
    reach = [reach_mm(one.hull, spin_rad) for one in boxed]
    need, room = [], []
    for axis in (0, 1):
        for a, low in zip(boxed, reach, strict=True):
            for b, high in zip(boxed, reach, strict=True):
                need.append(high[:, 1, axis] - low[:, 0, axis])
                room.append(b.high_mm[axis] - a.low_mm[axis])
    return np.stack(need, axis=1), np.array(room)


def _intervals(boxed):
    """Spins between which no extreme corner changes."""
    normals = np.concatenate([one.hull.from_rad for one in boxed])
    quarter = np.arange(4)[:, None] * np.pi / 2
    starts = np.unique(np.mod(quarter - normals, TURN))
    return starts, np.append(starts[1:], starts[0] + TURN)


def _slack_mm(boxed) -> float:
    """How much less they can stick out within half a degree.

    A distance between two corners grows by at most itself for each radian of spin (CALC).
    """
    corners = np.concatenate([one.hull.corners_mm for one in boxed])
    away = corners - 0.5 * (corners.min(axis=0) + corners.max(axis=0))
    return float(np.radians(0.5) * 2.0 * np.linalg.norm(away, axis=1).max()) + ROUNDING_MM


def _intervals_near(boxed, near: np.ndarray):
    """The intervals that reach to within half a degree of a whole degree; near : (360,) bool."""
    starts, ends = _intervals(boxed)
    first, last = (np.round(np.degrees(each)).astype(np.int64) for each in (starts, ends))
    before = np.concatenate([[0], np.cumsum(np.tile(near, 3))])
    some = before[last + 1] > before[first]
    return starts[some], ends[some]


def _waves(boxed, starts, ends) -> _Waves:
    """From the distances at two spins within each interval."""
    middle, near = 0.5 * (starts + ends), 0.75 * starts + 0.25 * ends
    first, room = _need_and_room(boxed, near)
    second, _ = _need_and_room(boxed, middle)
    step = (middle - near)[:, None]
    # a·cos(θ − near) + b·sin(θ − near) with a = first; b from the value at `middle`.
    b = (second - first * np.cos(step)) / np.maximum(np.sin(step), 1e-300)
    c, s = np.cos(near)[:, None], np.sin(near)[:, None]
    return _Waves(first * c - b * s, first * s + b * c, np.broadcast_to(room, first.shape))


def _at(waves: _Waves, spins):
    return waves.cos * np.cos(spins)[:, None] + waves.sin * np.sin(spins)[:, None] - waves.less


def _inside(found, starts, ends):
    """Those of (intervals, n) spins that lie within their interval."""
    starts, ends = starts[:, None], ends[:, None]
    lifted = starts + np.mod(found - starts, TURN)
    return lifted[np.isfinite(lifted) & (lifted < ends)]


def _zeros(waves: _Waves, starts, ends):
    """Where a wave is zero."""
    size, phase = np.hypot(waves.cos, waves.sin), np.arctan2(waves.sin, waves.cos)
    with np.errstate(invalid="ignore", divide="ignore"):
        half = np.arccos(waves.less / size)
    found = np.concatenate([phase - half, phase + half], axis=1)
    return _inside(found, starts, ends)


def _meetings(waves: _Waves, starts, ends):
    """Where two waves are equal, and where one is lowest."""
    i, j = np.triu_indices(waves.cos.shape[1], 1)
    apart = _Waves(*(values[:, i] - values[:, j] for values in waves))
    lowest = np.arctan2(waves.sin, waves.cos) + np.pi
    return np.concatenate([_zeros(apart, starts, ends), _inside(lowest, starts, ends)])
