"""What matters about a pose: a short list of sliders in plain words, and settings for usual aims.

Each slider turns columns of a DirectionTable into a cost: 0 for the best direction found, 1 for an
average one. A score is 100 / (1 + weighted mean of the costs): 100 where a direction is the best in
all that matters, 50 where it is like any other. Nothing else weighs in.
"""

from collections.abc import Callable, Mapping
from typing import NamedTuple

import numpy as np

from viewer.geometry.direction_table import DirectionTable


class Aim(NamedTuple):
    """One slider: its key, what the user reads, and the quantity that is to be small."""

    key: str
    name: str
    amount: Callable[[DirectionTable], np.ndarray]


def _marks(letter: str) -> Callable[[DirectionTable], np.ndarray]:
    kinds = ("touch", "landing", "graze")
    return lambda t: sum(t.column(f"{kind}_{letter}_mm2") for kind in kinds)


def _of(key: str) -> Callable[[DirectionTable], np.ndarray]:
    return lambda t: t.column(key)


def _wobble_deg(table: DirectionTable) -> np.ndarray:
    tip = table.column("tip_supported_deg")
    # Beyond 45° nothing topples in a machine; what does not stand at all is the worst.
    return np.where(table.complete, 45.0 - np.clip(np.nan_to_num(tip, nan=-90.0), -90, 45), np.nan)


AIMS = (
    Aim("clean_a", "No support marks on class A", _marks("a")),
    Aim("clean_b", "Few support marks on class B", _marks("b")),
    Aim("steps_a", "Fine steps on class A", _of("terrace_a_mm2")),
    Aim("steps_b", "Fine steps on class B", _of("terrace_b_mm2")),
    Aim("off_platform", "Class A off the platform", _of("platform_a_mm2")),
    Aim(
        "few_marks", "Few support marks anywhere",
        lambda t: t.column("touch_mm2") + t.column("landing_part_mm2") + t.column("graze_mm2"),
    ),
    Aim("little_support", "Little support", _of("support_volume_mm3")),
    Aim("low", "Few layers", _of("height_mm")),
    Aim("quick", "Quick to print", _of("time_min")),
    Aim("firm", "Stands firmly", _wobble_deg),
)  # fmt: skip
AIM_KEYS = tuple(aim.key for aim in AIMS)
TOUCH_KEYS = ("clean_a", "clean_b", "few_marks")
LEAST_TOUCH_WEIGHT = 0.01  # of two poses alike in all else, the one with less touch comes first


class Preset(NamedTuple):
    """Positions of all sliders (0 to 100) for a usual aim."""

    key: str
    name: str
    weights: Mapping[str, float]


def _preset(key: str, name: str, **weights: float) -> Preset:
    return Preset(key, name, {aim: float(weights.get(aim, 0)) for aim in AIM_KEYS})


SHOW_SIDE = _preset(
    "show-side", "Show side above all", clean_a=100, steps_a=50, off_platform=30, clean_b=40,
    steps_b=20, few_marks=10, little_support=10, low=5, firm=10,
)  # fmt: skip
LEAST_SUPPORT = _preset(
    "least-support", "Least support", little_support=100, few_marks=50, clean_a=20, clean_b=10,
    low=5, firm=10,
)  # fmt: skip
QUICKEST = _preset(
    "quickest", "Quickest", quick=100, low=20, little_support=20, few_marks=10, clean_a=10, firm=10,
)  # fmt: skip
PRESETS = (SHOW_SIDE, LEAST_SUPPORT, QUICKEST)


def weigh_touch(weights: Mapping[str, float], touch_weight: float) -> dict[str, float]:
    """The sliders as they count with a pair of materials: those about marks of supports times it.

    touch_weight : 0 where a touched face comes out as clean as any, 1 where it is as bad as after
        breaking a support of the same material off
    """
    times = max(touch_weight, LEAST_TOUCH_WEIGHT)
    return {key: w * times if key in TOUCH_KEYS else w for key, w in weights.items()}


def costs(table: DirectionTable) -> np.ndarray:
    """(d, n) float64: cost of each direction for each of AIMS; NaN where not measured yet."""
    spread = slice(0, table.spread)
    found = np.empty((len(table), len(AIMS)))
    for i, aim in enumerate(AIMS):
        amount = aim.amount(table)
        known = amount[spread][np.isfinite(amount[spread])]
        every = amount[np.isfinite(amount)]
        if not len(known):
            found[:, i] = np.nan
            continue
        best, average = every.min(), known.mean()
        # Where all directions are alike, to the digit, there is nothing to choose.
        room = average - best if average - best > 1e-6 * max(abs(average), 1e-9) else np.inf
        found[:, i] = np.where(np.isfinite(amount), (amount - best) / room, np.nan)
    return found


def scores(costs_of_aims: np.ndarray, weights: Mapping[str, float]) -> np.ndarray:
    """(d,) float64, 0 to 100, from `costs` and a weight (0 or more) for each key of AIM_KEYS."""
    given = np.array([max(weights.get(key, 0.0), 0.0) for key in AIM_KEYS])
    if not given.any():
        given = np.ones(len(AIM_KEYS))
    # A slider at 0 must not let what is unknown about it spread, and one that tells no direction
    # from another (nothing is marked as class A, say) must not water down the others.
    tells_apart = np.nanmax(costs_of_aims, axis=0, initial=0.0) > 0
    used = (given > 0) & tells_apart
    if not used.any():
        return np.where(np.isfinite(costs_of_aims).all(axis=1), 100.0, np.nan)
    mean = costs_of_aims[:, used] @ given[used] / given[used].sum()
    return 100.0 / (1.0 + mean)
