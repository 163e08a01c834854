"""The chosen pose beside its alternatives: the few numbers that matter to a client."""

from collections.abc import Callable
from dataclasses import dataclass
from math import hypot

from viewer.document.client_sheet import SheetTable
from viewer.document.sheet_facts import PoseFacts, SheetFacts
from viewer.document.sheet_words import (
    area_words,
    mass_words,
    money_words,
    time_words,
    volume_words,
)
from viewer.words import later, say

RECKONED_SHARE = 0.05  # time, mass and money nearer than this are alike; our own choice
ERRORS = 2.0  # a difference of twice its standard error is one; common practice
BETTER, WORSE, ALIKE = later("✓ better"), later("✗ worse"), later("≈ alike")


@dataclass(frozen=True)
class _Row:
    """Less is better in all of them; not `judged`: neither better nor worse is meant.

    share : differences up to this share of the value are none
    """

    name: str
    value: Callable[[PoseFacts], float | None]
    words: Callable[[PoseFacts, float], str]
    error: Callable[[PoseFacts], float | None] = lambda _: 0.0
    judged: bool = True
    share: float = 0.0


def comparison(facts: SheetFacts, currency: str) -> SheetTable | None:
    """One column for each pose, the chosen one first; None where there is nothing to compare."""
    if not facts.others:
        return None
    poses = (facts.chosen, *facts.others)
    head = ("", *(one.name for one in poses))
    rows = []
    for row in _rows(facts, currency):
        values = [row.value(one) for one in poses]
        if any(value is None for value in values):
            continue
        cells = [row.words(one, value) for one, value in zip(poses, values, strict=True)]
        for place in range(1, len(poses)):
            cells[place] = f"{cells[place]}  {_verdict(row, poses[0], poses[place])}".rstrip()
        rows.append((row.name, *cells))
    return SheetTable(head, tuple(rows))


def _verdict(row: _Row, chosen: PoseFacts, other: PoseFacts) -> str:
    """How the other one is beside the chosen one."""
    if not row.judged:
        return ""
    before, now = row.value(chosen), row.value(other)
    spread = ERRORS * hypot(row.error(chosen) or 0.0, row.error(other) or 0.0)
    same_words = row.words(chosen, before) == row.words(other, now)
    spread = max(spread, row.share * abs(before))
    if same_words or abs(now - before) <= spread:
        return say(ALIKE)
    return say(BETTER) if now < before else say(WORSE)


def _rows(facts: SheetFacts, currency: str) -> list[_Row]:
    rows = []
    _, a_mm2, b_mm2 = facts.class_mm2
    for key, area, touched in (
        ("A", a_mm2, later("Always in view, touched by supports")),
        ("B", b_mm2, later("Seen in use, touched by supports")),
    ):
        if area > 0:
            rows.append(_by_area("touch_area_mm2", key, touched))
        if area > 0 and key == "A":
            steps = say(
                "Always in view, with steps wider than {road_mm:g} mm",
                road_mm=facts.state.settings.road_mm,
            )
            rows.append(_by_area("terrace_visible_area_mm2", key, steps))
    if not a_mm2 + b_mm2 > 0:
        rows.append(_by_area("touch_area_mm2", "total", later("Surface touched by supports")))
    rows.append(
        _Row(
            say("Volume of supports"),
            lambda one: one.measures.support_volume_mm3,
            lambda _, value: volume_words(value),
            lambda one: one.measures.error.get("support_volume_mm3"),
        )
    )
    rows.append(
        _Row(
            say("Height in the machine"),
            lambda one: one.measures.height_mm,
            lambda _, value: say("{height:.0f} mm", height=value),
            judged=False,
        )
    )
    return rows + _of_shop(currency)


def _by_area(field: str, key: str, name: str) -> _Row:
    def error(one: PoseFacts) -> float | None:
        found = one.measures.error.get(field)
        return None if found is None else getattr(found, key)

    return _Row(
        say(name),
        lambda one: getattr(getattr(one.measures, field), key),
        lambda _, value: area_words(value) if value > 0 else say("none"),
        error,
    )


def _of_shop(currency: str) -> list[_Row]:
    """Time, mass and money, by what is likely."""

    def likely(field: str) -> Callable[[PoseFacts], float | None]:
        def read(one: PoseFacts) -> float | None:
            made = one.numbers.estimate
            if made is None:
                return None
            if field == "mass":
                return sum(each.likely for each in made.material_g.values())
            return getattr(made, field).likely

        return read

    def money(one: PoseFacts, value: float) -> str:
        return money_words(value, currency or one.numbers.estimate.currency)

    return [
        _Row(name, likely(field), words, share=RECKONED_SHARE)
        for name, field, words in (
            (say("Time"), "time_s", lambda _, value: time_words(value)),
            (say("Material"), "mass", lambda _, value: mass_words(value)),
            (say("Price"), "cost", money),
        )
    ]
