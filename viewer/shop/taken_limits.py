"""Limits that trials proposed and the user took, with what stood there before."""

from dataclasses import dataclass, replace
from typing import Literal

import msgspec

from viewer.errors import RequestProblem
from viewer.geometry.print_settings import PrintSettings
from viewer.shop.pairs import Pair
from viewer.words import say

Limit = Literal["support_limit_deg", "bridge_mm", "visible_terrace_mm", "touch_weight"]
OF_PROCESS: tuple[Limit, ...] = ("support_limit_deg", "bridge_mm", "visible_terrace_mm")
LIMITS: tuple[Limit, ...] = (*OF_PROCESS, "touch_weight")


@dataclass(frozen=True)
class TakenLimit:
    """One limit that was taken.

    limit : which; value : what was taken, before : what stood there, in the limit's own unit
    machine, of : names of the machine and of the material, or of the pair for the touch weight
    prints : how many prints it was based on; first_day, last_day : of these, as 2026-11-26
    """

    limit: Limit
    value: float
    before: float
    machine: str = ""
    of: str = ""
    prints: int = 0
    first_day: str = ""
    last_day: str = ""

    def __post_init__(self) -> None:
        if self.limit not in LIMITS or not 0 <= min(self.value, self.before) <= 1000:
            raise RequestProblem(say("A limit that trials taught is damaged."))


def with_taken(taken: tuple[TakenLimit, ...], new: TakenLimit) -> tuple[TakenLimit, ...]:
    """The limits with another one; taken anew, it remembers what stood there at first."""
    old = taken_limit(taken, new.limit, new.of)
    if old is not None:
        new = replace(new, before=old.before)
    return (*(each for each in taken if each is not old), new)


def taken_limit(taken: tuple[TakenLimit, ...], limit: Limit, of: str = "") -> TakenLimit | None:
    """The one taken for that limit; touch weights are told apart by their pair."""
    for each in taken:
        if each.limit == limit and (limit in OF_PROCESS or each.of == of):
            return each
    return None


def settings_with(settings: PrintSettings, limit: Limit, value: float) -> PrintSettings:
    """The process with that limit; a touch weight is none of it. Raises RequestProblem."""
    return replace(settings, **{limit: value}) if limit in OF_PROCESS else settings


def pair_with(pair: Pair, taken: tuple[TakenLimit, ...]) -> Pair:
    """The pair with the touch weight that trials taught for it, if one was taken."""
    found = taken_limit(taken, "touch_weight", pair.name)
    if found is None:
        return pair
    told = say("taken from trials: {count}", count=found.prints)
    sources = {**pair.sources, "touch_weight": told}
    return msgspec.structs.replace(pair, touch_weight=found.value, sources=sources)
