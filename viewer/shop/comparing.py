"""The same job on another machine or with another pair: what it takes more or less."""

from dataclasses import dataclass

from viewer.shop.print_job import Estimate
from viewer.words import say, written


@dataclass(frozen=True)
class Difference:
    """What one estimate takes more than another; all of it by the likely values.

    time_s, cost, tool_changes, purge_g, support_g : more where positive, less where negative
    sure : the ranges of time do not overlap, so that it is clear which is quicker
    sentence : such as "Shared nozzle, four materials: +19 h, +1.2 kg purge"
    """

    time_s: float
    cost: float
    tool_changes: int
    purge_g: float
    support_g: float
    sure: bool
    sentence: str


def difference(base: Estimate, other: Estimate) -> Difference:
    """What `other` takes more than `base`."""
    time_s = other.time_s.likely - base.time_s.likely
    purge_g = other.purge_g.likely - base.purge_g.likely
    support_g = other.support_g.likely - base.support_g.likely
    changes = round(other.tool_changes.likely - base.tool_changes.likely)
    same_money = other.currency == base.currency
    cost = other.cost.likely - base.cost.likely if same_money else float("nan")
    found = [
        duration_change(time_s),
        grams_change(purge_g, say("purge")),
        grams_change(support_g, say("support")),
        say("{changes:+,} tool changes", changes=changes).replace("-", "−") if changes else "",
        f"{written(cost, '+,.2f')} {base.currency}".replace("-", "−")
        if same_money and abs(cost) > 5e-3
        else "",
    ]
    told = ", ".join(each for each in found if each) or say("no difference")
    name = say(other.machine if other.machine != base.machine else other.pair)
    apart = other.time_s.low > base.time_s.high or other.time_s.high < base.time_s.low
    return Difference(
        time_s, cost, changes, purge_g, support_g, apart and bool(time_s), f"{name}: {told}"
    )


def duration_change(seconds: float) -> str:
    """+19 h, −40 min or "" where it is less than half a minute."""
    sign = "−" if seconds < 0 else "+"
    minutes = abs(seconds) / 60.0
    if minutes < 0.5:
        return ""
    return f"{sign}{minutes:.0f} min" if minutes < 99.5 else f"{sign}{minutes / 60.0:.0f} h"


def grams_change(grams: float, of: str) -> str:
    """+1.2 kg purge, −30 g support or "" where it is less than half a gram."""
    sign = "−" if grams < 0 else "+"
    if abs(grams) < 0.5:
        return ""
    amount = (
        f"{abs(grams):.0f} g" if abs(grams) < 999.5 else f"{written(abs(grams) / 1000.0, '.1f')} kg"
    )
    return f"{sign}{amount} {of}"
