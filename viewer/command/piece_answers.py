"""Time, mass and money of a piece or a specimen that is printed by itself, for JSON and as text."""

import argparse
from typing import Any

from viewer.command.options import shop_choice
from viewer.document.state import State
from viewer.files.shop_folder import read_finished_prints, read_user_shop
from viewer.shop.piece_numbers import PieceNumbers, Printing


def printing_asked(state: State, asked: argparse.Namespace) -> Printing:
    """With what is printed: the user's shop, and what the job or the command line chooses of it."""
    choice = shop_choice(state.shop_choice, asked)
    return Printing(state.settings, read_user_shop(), choice, read_finished_prints())


def takes_answer(numbers: PieceNumbers) -> dict[str, Any]:
    """What it takes; only `problem` where the machine cannot print it."""
    made = numbers.estimate
    if made is None:
        return {"problem": numbers.problem}
    return {
        "time_s": dict(made.time_s._asdict()),
        "material_g": {name: each.likely for name, each in made.material_g.items()},
        "cost": {**made.cost._asdict(), "currency": made.currency},
    }


def takes_words(answer: dict[str, Any]) -> str:
    """The same as a sentence."""
    if "problem" in answer:
        return answer["problem"]
    minutes = {key: value / 60.0 for key, value in answer["time_s"].items()}
    grams = sum(answer["material_g"].values())
    return (
        f"by itself {minutes['likely']:,.0f} min ({minutes['low']:,.0f} to"
        f" {minutes['high']:,.0f}), {grams:,.1f} g, {answer['cost']['likely']:,.2f}"
        f" {answer['cost']['currency']}"
    )
