"""Time, material, money and tool changes of several poses as rows of the table that compares them.

All poses are reckoned with the same assumptions, so that their differences are surer than each
number by itself: what the range of one is wide by, those of all are. Alike are two within 2 %.
"""

from collections.abc import Callable, Sequence
from typing import NamedTuple

from viewer.shop.job_numbers import JobNumbers
from viewer.shop.print_job import Estimate
from viewer.shop.ranges import Range
from viewer.window.compare_rows import BETTER, SAME, WORSE, CompareCell, CompareRow
from viewer.window.quantities import difference_text, number_text
from viewer.window.shop_rows import clock_text, duration_text
from viewer.words import later, say

ALIKE_SHARE = 0.02  # common practice, no source


class Price(NamedTuple):
    """One row: its key as in `measure --json`, what the user reads, and where it comes from."""

    key: str
    name: str
    explanation: str
    read: Callable[[Estimate], Range]


def _grams(made: Estimate) -> Range:
    total = Range(0.0, 0.0, 0.0)
    for each in made.material_g.values():
        total = total.plus(each)
    return total


PRICES = (
    Price("time_s", later("Time"), later("Of all copies, on the chosen machine."),
          lambda made: made.time_s),
    Price("cost", later("Cost"), later("Material at its price, and hours of the machine."),
          lambda made: made.cost),
    Price("material_g", later("Material"), later("Part, supports and what is purged."), _grams),
    Price("tool_changes", later("Tool changes"),
          later("From the real sequence of layers; the range is that of both orders of materials."),
          lambda made: made.tool_changes),
)  # fmt: skip


def price_rows(poses: Sequence[JobNumbers | None]) -> tuple[CompareRow, ...]:
    """Rows for the poses, compared with the first; None for one that is not worked out yet.

    Tool changes have no row where nobody changes anything.
    """
    if not any(poses):
        return ()
    estimates = [None if one is None else one.estimate for one in poses]
    rows = []
    for price in PRICES:
        values = [None if made is None else price.read(made) for made in estimates]
        if price.key == "tool_changes" and not any(
            each is not None and each.high for each in values
        ):
            continue
        unit = _unit(price.key, estimates)
        cells = tuple(
            _cell(price.key, unit, poses[k], values[k], values[0] if k else None)
            for k in range(len(poses))
        )
        name = say(price.name)
        bare = f"{name}, {unit}" if unit else name
        rows.append(CompareRow(price.key, "whole", name, bare, say(price.explanation), cells))
    return (*rows, *_fit_row(poses))


def _unit(key: str, estimates: Sequence[Estimate | None]) -> str:
    made = next((one for one in estimates if one is not None), None)
    currency = "" if made is None else made.currency
    return {"cost": currency, "material_g": "g"}.get(key, "")


def _cell(
    key: str, unit: str, numbers: JobNumbers | None, value: Range | None, first: Range | None
) -> CompareCell:
    if numbers is None:
        return CompareCell("…")
    if value is None:
        return CompareCell(say("not so"))
    time = key == "time_s"
    number = duration_text(value.likely) if time else number_text(value.likely)
    low, high = (clock_text(v) if time else number_text(v) for v in (value.low, value.high))
    between = "" if low == high else say("{low} to {high}", low=low, high=high)
    if first is None:
        return CompareCell(number, unit, between)
    gap = value.likely - first.likely
    told = _duration_difference(gap) if time else difference_text(value.likely, first.likely)
    alike = abs(gap) <= ALIKE_SHARE * max(value.likely, first.likely)
    verdict = SAME if alike else WORSE if gap > 0 else BETTER
    return CompareCell(number, unit, between, told or "=", verdict)


def _duration_difference(seconds: float) -> str:
    if abs(seconds) < 30:
        return "="
    return f"{'−' if seconds < 0 else '+'}{duration_text(seconds)}"


def _fit_row(poses: Sequence[JobNumbers | None]) -> list[CompareRow]:
    """Only where a pose does not fit the chosen machine as it is laid."""
    fits = [None if one is None else one.fits[one.chosen.machine.name] for one in poses]
    if not any(fit is not None and fit.why for fit in fits):
        return []
    cells = tuple(
        CompareCell("…")
        if fit is None
        else CompareCell(
            say("yes")
            if not fit.why
            else say("at {spin_deg:g}°", spin_deg=fit.spin_deg)
            if fit.fits
            else say("no")
        )
        for fit in fits
    )
    tip = "\n".join(dict.fromkeys(fit.why for fit in fits if fit is not None and fit.why))
    return [CompareRow("fits", "whole", say("Fits"), say("Fits"), tip, cells)]
