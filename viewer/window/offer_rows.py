"""One offer as the cells of its column: value, and below it the difference to what is chosen."""

from typing import NamedTuple

from viewer.shop.offers import Offer
from viewer.shop.ranges import Range
from viewer.window.quantities import number_text
from viewer.window.shop_rows import clock_text, duration_text
from viewer.words import later, say, written

# Name and explanation of each row.
ROW_NAMES = (
    (later("Time"), later("Likely; the range from low to high stands beside it.")),
    (later("Cost"), later("Material at its price, and hours of the machine.")),
    (later("Material, g"), later("Everything that is fed, in all materials.")),
    (later("of it purged, g"), later("What is pushed out at changes of material.")),
    (later("of it supports, g"), later("What is taken off again.")),
    (later("Tool changes"), later("From the real sequence of layers.")),
    (later("Fits"), later("Whether part and supports find room on the machine.")),
)


class OfferCell(NamedTuple):
    """What stands in a cell, and its tooltip."""

    text: str
    tip: str = ""


def offer_cells(offer: Offer) -> tuple[OfferCell, ...]:
    """The cells of a column, from the top, as many as ROW_NAMES."""
    made, against = offer.made, offer.against
    if made is None:
        problem = OfferCell(say("cannot be printed so"), offer.problem)
        return (problem, *(OfferCell("–", offer.problem) for _ in ROW_NAMES[1:-1]), _fit(offer))
    material = sum(each.likely for each in made.material_g.values())
    low, high = clock_text(made.time_s.low), clock_text(made.time_s.high)
    sure = "" if against is None else _sure(against.sure)
    return (
        OfferCell(
            _two(duration_text(made.time_s.likely), against and _time_change(against.time_s)),
            "\n".join(
                words
                for words in (say("{low} to {high} h", low=low, high=high), made.dominates, sure)
                if words
            ),
        ),
        OfferCell(
            _two(f"{number_text(made.cost.likely)} {made.currency}",
                 against and _change(against.cost, 2)),
            _range(made.cost),
        ),
        OfferCell(number_text(material), ", ".join(
            f"{say(name)} {number_text(each.likely)} g" for name, each in made.material_g.items()
        )),
        OfferCell(_two(number_text(made.purge_g.likely), against and _change(against.purge_g, 0)),
                  _range(made.purge_g)),
        OfferCell(
            _two(number_text(made.support_g.likely), against and _change(against.support_g, 0)),
            _range(made.support_g),
        ),
        OfferCell(
            _two(written(round(made.tool_changes.likely), ",d"),
                 against and _change(against.tool_changes, 0)),
            _range(made.tool_changes),
        ),
        _fit(offer),
    )  # fmt: skip


def _fit(offer: Offer) -> OfferCell:
    fit = offer.fit
    if fit is None:
        return OfferCell("–", say("See the table of machines."))
    if fit.fits and fit.why:
        return OfferCell(say("at {spin_deg:g}°", spin_deg=fit.spin_deg), fit.why)
    return OfferCell(say("yes") if fit.fits else say("no"), fit.why)


def _two(value: str, change: str | None) -> str:
    return f"{value}\n{change}" if change else value


def _time_change(seconds: float) -> str:
    if abs(seconds) < 30:
        return ""
    return f"{'−' if seconds < 0 else '+'}{duration_text(seconds)}"


def _change(value: float, decimals: int) -> str:
    """The signed difference; "" for none and where currencies differ."""
    if value != value or round(value, decimals) == 0:
        return ""
    return written(value, f"+,.{decimals}f").replace("-", "−")


def _sure(sure: bool) -> str:
    return (
        say("The ranges do not overlap: the difference is sure.")
        if sure
        else say("The ranges overlap: which is quicker is not sure.")
    )


def _range(of: Range) -> str:
    return say("{low} to {high}", low=number_text(of.low), high=number_text(of.high))
