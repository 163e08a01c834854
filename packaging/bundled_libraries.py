"""Libraries of others that lie within the wheels of the program's packages, and their licences.

`licences/libraries.toml` lists them. A wheel brings shared libraries along (in folders named *.libs
and elsewhere) that its own licence does not speak of: some without a text, some under a choice.
"""

import json
import re
import tomllib
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from importlib.metadata import Distribution, PackageNotFoundError, distribution
from pathlib import Path

HERE = Path(__file__).resolve().parent
TEXTS = (HERE / "licences" / "libraries", HERE / "licences")
OF_WHEEL = "wheel:"
LIST = HERE / "licences" / "libraries.toml"
_LIBRARY = re.compile(r"\.so(\.[0-9.]+)?$")
_EXTENSION_MODULE = re.compile(r"\.(cpython-\w+|abi3)(-[\w-]+)?\.so$")


@dataclass(frozen=True)
class Library:
    """An entry of libraries.toml; its words are explained there."""

    wheel: str
    name: str
    files: tuple[str, ...]
    licence: str
    home: str
    part: str = ""
    version: str = ""
    chosen: str = ""
    texts: tuple[str, ...] = ()
    note: str = ""

    @property
    def goes_under(self) -> str:
        """The licence that it goes along under."""
        return self.chosen or self.licence


def listed_libraries() -> list[Library]:
    """Everything in libraries.toml."""
    return [
        Library(**{k: tuple(v) if isinstance(v, list) else v for k, v in each.items()})
        for each in _list()["library"]
    ]


def installed(wheel: str) -> Distribution | None:
    """The package of a wheel; None where it is not installed."""
    try:
        return distribution(wheel)
    except PackageNotFoundError:
        return None


def libraries_in(package: Distribution) -> list[str]:
    """Shared libraries that a package brings along, by their places in its wheel (Linux)."""
    return [
        file.as_posix()
        for file in package.files or []
        if _LIBRARY.search(file.name) and not _EXTENSION_MODULE.search(file.name)
    ]


@cache
def others_libraries_in(wheel: str) -> list[str]:
    """Those of them that are others' work and go along."""
    package = installed(wheel)
    known = [_list()[kind].get(wheel) for kind in ("own", "left_out")]
    return [
        place
        for place in (libraries_in(package) if package else ())
        if not any(pattern and re.match(pattern, place) for pattern in known)
    ]


def left_out_among(names: Iterable[str]) -> list[str]:
    """Those of these names of files that libraries.toml says do not go along."""
    patterns = [pattern.rpartition("/")[2] for pattern in _list()["left_out"].values()]
    return sorted(name for name in names if any(re.match(each, name) for each in patterns))


def unlisted(wheels: Iterable[str]) -> list[str]:
    """Others' libraries in these packages that libraries.toml does not name."""
    named = listed_libraries()
    return [
        place
        for wheel in wheels
        for place in others_libraries_in(wheel)
        if not any(
            each.wheel == wheel and Path(place).name.startswith(each.files) for each in named
        )
    ]


def version_of(library: Library) -> str:
    """As the wheel tells it in its list of parts, as libraries.toml does, or the wheel's own."""
    package = installed(library.wheel)
    if package is None:
        return library.version
    if library.part:
        for parts in _parts_of(library.wheel):
            if library.part in parts:
                return parts[library.part].partition("-")[0]
        raise LookupError(f"{library.wheel} lists no part named {library.part}")
    return library.version or f"in {library.wheel} {package.version}"


def texts_of(library: Library) -> list[tuple[str, str]]:
    """Names and contents of its texts, among ours and the wheel's own."""
    found = []
    for name in library.texts:
        if name.startswith(OF_WHEEL):
            name = name.removeprefix(OF_WHEEL)
            path = _text_in(library.wheel, name)
        else:
            path = next(folder / name for folder in TEXTS if (folder / name).is_file())
        found.append((name, path.read_text("utf-8")))
    return found


@cache
def _text_in(wheel: str, name: str) -> Path:
    files = [file for file in installed(wheel).files or [] if file.name == name]
    return Path(min(files, key=lambda file: len(file.parts)).locate())


@cache
def _list() -> dict:
    return tomllib.loads(LIST.read_text("utf-8"))


@cache
def _parts_of(wheel: str) -> list[dict[str, str]]:
    """Versions by the names of parts, of each list of parts in a wheel."""
    return [
        {
            each["name"]: each.get("version", "")
            for each in json.loads(file.read_text())["components"]
        }
        for file in installed(wheel).files or []
        if file.name.endswith(".cdx.json")
    ]
