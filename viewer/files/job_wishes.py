"""What the user wants of the search, as it stands in a job file."""

import msgspec

from viewer.geometry.spin_wish import SpinRule, SpinWish
from viewer.geometry.what_matters import WhatMatters


class MattersData(msgspec.Struct):
    """Positions of the sliders and the limits in force, by their keys."""

    weights: dict[str, float] = {}
    limits: list[str] = []


def matters_data(matters: WhatMatters) -> MattersData:
    """What to write."""
    return MattersData(matters.weights, list(matters.limits))


def matters_of(data: MattersData | None) -> WhatMatters:
    """What was written; a job saved before there were sliders has the usual ones.

    Raises RequestProblem for a position that no slider has.
    """
    return WhatMatters() if data is None else WhatMatters.of(data.weights, data.limits)


class SpinData(msgspec.Struct):
    """What decides the spin, by its key, and the side that it goes by, if it does."""

    rule: str = SpinRule.RECTANGLE.value
    side: tuple[float, float, float] | None = None


def spin_data(wish: SpinWish) -> SpinData:
    """What to write."""
    return SpinData(wish.rule.value, wish.side)


def spin_of(data: SpinData | None) -> SpinWish:
    """What was written; the least rectangle decides where nothing was, or what is not known here.

    Raises RequestProblem for a side without a direction.
    """
    known = {rule.value: rule for rule in SpinRule}
    if data is None or data.rule not in known:
        return SpinWish()
    return SpinWish(known[data.rule], data.side)
