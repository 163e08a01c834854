"""What pieces take, in words; pure functions, no widget."""

from viewer.document.job_piece import JobPiece
from viewer.shop.piece_numbers import PieceNumbers
from viewer.window.quantities import count_text, number_text, size_text
from viewer.window.shop_rows import duration_text
from viewer.words import say


def takes_text(numbers: PieceNumbers | None) -> str:
    """Time, mass and money of one piece; why there is none, or that it is being worked out."""
    if numbers is None:
        return say("Being worked out …")
    made = numbers.estimate
    if made is None:
        return numbers.problem
    return say(
        "{time} · {mass} g · {cost} {currency}",
        time=duration_text(made.time_s.likely),
        mass=number_text(numbers.mass_g),
        cost=number_text(made.cost.likely),
        currency=made.currency,
    )


def range_text(numbers: PieceNumbers | None) -> str:
    """Time and money from low to high, "" where nothing is known."""
    made = None if numbers is None else numbers.estimate
    if made is None:
        return ""
    return say(
        "{low} to {high}, {cheap} to {dear} {currency}; each piece printed by itself.",
        low=duration_text(made.time_s.low),
        high=duration_text(made.time_s.high),
        cheap=number_text(made.cost.low),
        dear=number_text(made.cost.high),
        currency=made.currency,
    )


def made_text(pieces: tuple[JobPiece, ...], numbers: list[PieceNumbers | None]) -> str:
    """What a cut makes: how many pieces, how large, and what all of them take."""
    lines = [count_text(len(pieces), "piece")]
    lines += [f"{piece.name}: {size_text(tuple(piece.size_mm))}" for piece in pieces]
    known = [each for each in numbers if each is not None]
    if len(known) < len(pieces):
        return "\n".join([*lines, say("Being worked out …")])
    if any(each.estimate is None for each in known):
        return "\n".join([*lines, next(e.problem for e in known if e.estimate is None)])
    made = [each.estimate for each in known]
    lines.append(
        say(
            "{time} · {mass} g · {cost} {currency}",
            time=duration_text(sum(each.time_s.likely for each in made)),
            mass=number_text(sum(each.mass_g for each in known)),
            cost=number_text(sum(each.cost.likely for each in made)),
            currency=made[0].currency,
        )
    )
    touch = sum(each.touch_a_mm2 for each in known)
    if touch > 0:
        lines.append(say("Supports touch {area} mm² of class A.", area=number_text(touch)))
    return "\n".join(lines)
