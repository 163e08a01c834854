"""Limits that cut build directions out, which of them cut what, and which one is in the way."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from viewer.geometry.direction_table import DirectionTable
from viewer.words import say, written


class HardLimit(NamedTuple):
    """One limit: its key, what the user reads, its unit, and how far each direction is beyond it.

    tolerance : what counts as nothing in that unit
    blocked : the sentence when it is in the way, with {by} for the least amount found
    """

    key: str
    name: str
    unit: str
    tolerance: float
    excess: Callable[[DirectionTable], np.ndarray]
    blocked: str


def _lean_deg(table: DirectionTable) -> np.ndarray:
    tip = table.column("tip_supported_deg")
    return np.where(np.isfinite(tip), np.maximum(-tip, 0.0), np.where(table.complete, 90.0, np.nan))


HARD_LIMITS = (
    HardLimit(
        "fits", "fits the platform", "mm", 0.001,
        lambda t: np.nan_to_num(t.column("over_mm"), nan=0.0),
        "The part does not fit: the nearest direction is still {by} too large.",
    ),
    HardLimit(
        "stands", "stands", "°", 0.0, _lean_deg,
        "The part does not stand: at best its weight lies {by} outside its foot.",
    ),
    HardLimit(
        "no-touch-on-a", "no support touches class A", "mm²", 0.01,
        lambda t: t.column("touch_a_mm2"),
        "Supports touch class A in every direction: the least found is {by}.",
    ),
    HardLimit(
        "no-unreachable", "no unreachable support", "mm³", 1.0,
        lambda t: t.column("unreachable_mm3"),
        "Some support can be reached from nowhere in every direction: the least found is {by}.",
    ),
)  # fmt: skip
LIMIT_KEYS = tuple(limit.key for limit in HARD_LIMITS)


class Cut(NamedTuple):
    """How many of the measured directions a limit removes, and how many it alone does."""

    limit: str
    directions: int
    alone: int


class InTheWay(NamedTuple):
    """A limit without which something would be left: the least amount beyond it, and a sentence."""

    limit: str
    by: float
    unit: str
    sentence: str


@dataclass(frozen=True, eq=False)
class CutDirections:
    """What a set of limits leaves.

    allowed : (d,) bool, measured and within every limit
    beyond : key of each limit in force → (d,) bool, which directions it removes
    cuts : the same in numbers
    in_the_way : empty unless nothing is left
    """

    allowed: np.ndarray
    beyond: dict[str, np.ndarray]
    cuts: tuple[Cut, ...]
    in_the_way: tuple[InTheWay, ...]


def cut_directions(table: DirectionTable, limits: tuple[str, ...]) -> CutDirections:
    """Apply the limits named by their keys to all directions that are measured."""
    chosen = [limit for limit in HARD_LIMITS if limit.key in limits]
    excess = {limit.key: limit.excess(table) for limit in chosen}
    measured = table.complete
    beyond = {
        limit.key: measured & (excess[limit.key] > limit.tolerance) for limit in chosen
    }  # fmt: skip
    broken = sum(beyond.values(), np.zeros(len(table), np.int64))
    allowed = measured & (broken == 0)
    cuts = tuple(
        Cut(key, int(cut.sum()), int((cut & (broken == 1)).sum())) for key, cut in beyond.items()
    )
    blocking: tuple[InTheWay, ...] = ()
    if measured.any() and not allowed.any():
        blocking = _in_the_way(chosen, excess, beyond, measured, broken)
    return CutDirections(allowed, beyond, cuts, blocking)


def limits_left(table: DirectionTable, limits: tuple[str, ...]) -> tuple[str, ...]:
    """Those of the limits that leave some direction, the least grave let go of first."""
    while limits:
        cut = cut_directions(table, limits)
        blocking = {each.limit for each in cut.in_the_way}
        if not blocking:
            return limits
        let_go = next(key for key in reversed(LIMIT_KEYS) if key in blocking)
        limits = tuple(key for key in limits if key != let_go)
    return limits


def _in_the_way(chosen, excess, beyond, measured, broken) -> tuple[InTheWay, ...]:
    """Limits that remove what all others leave; where no single one does, every limit."""
    found = []
    for limit in chosen:
        alone = beyond[limit.key] & (broken == 1)
        if alone.any():
            found.append(_blocked(limit, excess[limit.key][alone]))
    if not found:
        fewest = broken[measured].min()
        for limit in chosen:
            some = beyond[limit.key] & (broken == fewest)
            if some.any():
                found.append(_blocked(limit, excess[limit.key][some]))
    return tuple(found)


def _blocked(limit: HardLimit, amounts: np.ndarray) -> InTheWay:
    least = float(amounts.min())
    by = f"{written(least, '.3g')}{'' if limit.unit == '°' else ' '}{limit.unit}"
    return InTheWay(limit.key, least, limit.unit, say(limit.blocked, by=by))
