"""JobNumbers as rows of text for the numbers panel; a pure function, no widget.

Where a row of `number_rows` shows a standard error, these show the range from low to high.
"""

from dataclasses import replace

from viewer.shop.extrusion import filament_length_mm
from viewer.shop.job_numbers import JobNumbers
from viewer.shop.print_job import PART_NAMES, Estimate
from viewer.shop.ranges import Range
from viewer.window.number_rows import Cell, Row
from viewer.window.quantities import difference_text, number_text
from viewer.words import say

FILAMENT_MM = 1.75  # the usual thickness


def shop_rows(numbers: JobNumbers, pinned: JobNumbers | None) -> tuple[Row, ...]:
    """All rows for `numbers`, with differences to `pinned` where it is given.

    Where the chosen machine cannot print the pair there is one row without a number.
    """
    made = numbers.estimate
    if made is None:
        return (Row("time_s", say("Time"), "", numbers.problem, _whole("–")),)
    before = pinned.estimate if pinned is not None else None
    largest = max(made.time_parts_s, key=lambda name: made.time_parts_s[name])
    rows = [
        Row("time_s", say("Time"), "", made.dominates,
            _time(made.time_s, before and before.time_s)),
        Row(
            "dominates", say("of it {part}", part=say(PART_NAMES[largest])), "%",
            made.dominates,
            _whole(number_text(_share(made.time_parts_s, largest), 0)),
        ),
        _row(
            "material_g", say("Material"), "g", _by_material(made.material_g, numbers),
            _sum(made.material_g),
            before and _sum(before.material_g),
        ),
        _row(
            "purge_g", say("of it purged"), "g", say("What is pushed out at changes of material."),
            made.purge_g, before and before.purge_g, only_if_any=True,
        ),
        _row(
            "support_g", say("of it supports"), "g", say("What is taken off again."),
            made.support_g,
            before and before.support_g, only_if_any=True,
        ),
        _row(
            "cost", say("Cost"), made.currency,
            say("Material at its price, and hours of the machine."),
            made.cost, before and before.cost,
        ),
        *_beside(made, before),
        _row(
            "tool_changes", say("Tool changes"), "", say("From the real sequence of layers; "
            "the range is that of both orders of materials."), made.tool_changes,
            before and before.tool_changes, only_if_any=True,
        ),
        _fits(numbers),
    ]  # fmt: skip
    if all(cell.difference in ("", "=") for row in rows for cell in row.cells.values()):
        rows = [_without_difference(row) for row in rows]  # the pinned pose itself
    return tuple(rows)


def _beside(made: Estimate, before: Estimate | None) -> list[Row]:
    """What pieces beside the part cost of it, where there are any."""
    beside = made.beside
    if beside is None:
        return []
    tip = [
        say(
            "{names}: {time}, {mass} g, as if each were printed by itself but for the start.",
            names=", ".join(beside.names) or "–",
            time=duration_text(beside.time_s.likely),
            mass=number_text(beside.mass_g.likely),
        )
    ]
    if beside.left_out:
        tip.append(say("The machine cannot print {names}.", names=", ".join(beside.left_out)))
    old = None if before is None or before.beside is None else before.beside.cost
    return [
        _row(
            "beside",
            say("of it test pieces beside"),
            made.currency,
            "\n".join(tip),
            beside.cost,
            old,
        )
    ]


def _without_difference(row: Row) -> Row:
    return replace(row, cells={"whole": replace(row.cells["whole"], difference="")})


def price_texts(numbers: JobNumbers | None) -> tuple[str, ...]:
    """Time and cost in one line, in the longest words first; "!" where something is in the way."""
    if numbers is None:
        return ("–",)
    made = numbers.estimate
    if made is None:
        return (say("! cannot be printed so"), say("! not so"))
    fit = numbers.fits[numbers.chosen.machine.name]
    sign = "! " if fit.why else ""
    short = say("{time} h", time=clock_text(made.time_s.likely))
    cost = f"{number_text(made.cost.likely)} {made.currency}"
    times = (duration_text(made.time_s.likely), short)
    told = [f"{sign}{time} · {cost}" for time in times]
    rounded = f"{number_text(made.cost.likely, 0)} {made.currency}"
    told += [f"{sign}{short} · {rounded}", f"{sign}{clock_text(made.time_s.likely)} · {rounded}"]
    return (*told, f"{sign}{short}")


def duration_text(seconds: float) -> str:
    """A time in hours and minutes."""
    hours, minutes = divmod(round(abs(seconds) / 60.0), 60)
    return (
        say("{hours} h {minutes:02d} min", hours=hours, minutes=minutes)
        if hours
        else say("{minutes} min", minutes=minutes)
    )


def clock_text(seconds: float) -> str:
    """A time as hours:minutes, for where there is little room."""
    hours, minutes = divmod(round(seconds / 60.0), 60)
    return f"{hours}:{minutes:02d}"


def _whole(value: str, error: str = "", difference: str = "") -> dict[str, Cell]:
    return {"whole": Cell(value, error, difference)}


def _time(time_s: Range, before: Range | None) -> dict[str, Cell]:
    difference = ""
    if before is not None:
        change = time_s.likely - before.likely
        sign = "−" if change < 0 else "+"
        difference = "=" if abs(change) < 30 else f"{sign}{duration_text(change)}"
    low, high = clock_text(time_s.low), clock_text(time_s.high)
    between = "" if low == high else say("{low} to {high} h", low=low, high=high)
    return _whole(duration_text(time_s.likely), between, difference)


def _row(
    key: str,
    name: str,
    unit: str,
    explanation: str,
    value: Range,
    before: Range | None,
    only_if_any: bool = False,
) -> Row:
    low, likely, high = (number_text(each) for each in value)
    difference = "" if before is None else difference_text(value.likely, before.likely)
    shown = not only_if_any or value.high > 0 or (before is not None and before.high > 0)
    cells = _whole(
        likely, "" if low == high else say("{low} to {high}", low=low, high=high), difference
    )
    return Row(key, name, unit, explanation, cells, shown)


def _sum(grams: dict[str, Range]) -> Range:
    total = Range(0.0, 0.0, 0.0)
    for each in grams.values():
        total = total.plus(each)
    return total


def _by_material(grams: dict[str, Range], numbers: JobNumbers) -> str:
    """Each material with its mass, and how long a filament of the usual thickness that is."""
    density = {each.name: each.density_g_cm3 for each in numbers.chosen.materials}
    return "\n".join(
        say(
            "{material}: {grams} g, {metres:.1f} m of filament of {diameter_mm:g} mm",
            material=say(name),
            grams=number_text(each.likely),
            metres=filament_length_mm(1000.0 * each.likely / density[name], FILAMENT_MM) / 1000.0,
            diameter_mm=FILAMENT_MM,
        )
        for name, each in grams.items()
    )


def _share(parts: dict[str, float], name: str) -> float:
    return 100.0 * parts[name] / max(sum(parts.values()), 1e-9)


def _fits(numbers: JobNumbers) -> Row:
    """Whether it fits the chosen machine, and in the tooltip which others."""
    fit = numbers.fits[numbers.chosen.machine.name]
    others = [name for name, each in numbers.fits.items() if each.fits and each is not fit]
    explanation = fit.why or say("It fits as it is laid.")
    explanation += (
        say(" Also fits: {names}.", names="; ".join(say(each) for each in others))
        if others
        else say(" No other machine fits.")
    )
    text = (
        say("yes")
        if fit.fits and not fit.why
        else say("at {spin_deg:g}°", spin_deg=fit.spin_deg)
        if fit.fits
        else say("no")
    )
    over = (
        say("{over_mm} mm too large", over_mm=number_text(fit.over_mm)) if fit.over_mm > 0 else ""
    )
    return Row("fits", say("Fits"), "", explanation, _whole(text, over))
