"""Machines, materials, pairs and processes out of plain TOML, with the sources of their values."""

import tomllib
from typing import TypeVar

import msgspec

from viewer.errors import RequestProblem
from viewer.shop.machines import Machine
from viewer.shop.materials import Material
from viewer.shop.pairs import Pair
from viewer.shop.processes import Process
from viewer.words import say

Thing = TypeVar("Thing", Machine, Material, Pair, Process)
KINDS: dict[str, type[Machine] | type[Material] | type[Pair] | type[Process]] = {
    "machines": Machine,
    "materials": Material,
    "pairs": Pair,
    "processes": Process,
}


def read_toml(text: str, kind: type[Thing], file_name: str) -> Thing:
    """One machine, material, pair or process from its TOML (`toml_writing.write_toml`).

    file_name : what the sentence calls the text if something is wrong
    Raises RequestProblem in one sentence that names the value.
    """
    try:
        return msgspec.convert(tomllib.loads(text), kind)
    except tomllib.TOMLDecodeError as error:
        raise RequestProblem(
            say(
                "{file_name} is no TOML ({error}); mend it in a text editor.",
                file_name=file_name,
                error=error,
            )
        ) from error
    except msgspec.ValidationError as error:
        what, _, where = str(error).partition(" - at `$.")
        place = f" at {where.rstrip('`')}" if where else ""
        raise RequestProblem(
            say(
                "{file_name}{place}: {lower}; correct that line.",
                file_name=file_name,
                place=place,
                lower=what.lower(),
            )
        ) from error
    except RequestProblem as error:
        raise RequestProblem(f"{file_name}: {error}") from error
