"""Every package the program is made of, with version, licence and the licence's text.

A packed program carries the list with it (`packaging/gather_licences.py` writes it); from a
checkout or a wheel it is read from what is installed.
"""

import json
import re
import tomllib
from dataclasses import dataclass
from importlib.metadata import Distribution, PackageNotFoundError, distribution
from pathlib import Path

from viewer.resource_files import resource_file

LICENCE_FOLDER = "licences"
LIST_FILE = f"{LICENCE_FOLDER}/list.json"
_NAME = re.compile(r"^[A-Za-z0-9._-]+")
_IS_LICENCE = re.compile(r"(licen[sc]e|copying|notice)[^/]*$", re.IGNORECASE)
_CODE = (".py", ".pyc", ".json", ".h")
_SHORT = 80  # signs; some put the whole licence where its name belongs
PROGRAM = "showside"


@dataclass(frozen=True)
class Licensed:
    """One package. `texts`: names and contents of its licence files."""

    name: str
    version: str
    licence: str
    home: str
    texts: tuple[tuple[str, str], ...]


def licensed_packages() -> list[Licensed]:
    """All packages, sorted by name."""
    try:
        listed = json.loads(resource_file(LIST_FILE).read_text(encoding="utf-8"))
    except FileNotFoundError:
        return installed_packages()
    return [
        Licensed(**{**each, "texts": tuple((name, text) for name, text in each["texts"])})
        for each in listed
    ]


def own_licence() -> str:
    """The program's own licence; its name where the installation carries no text."""
    try:
        path = resource_file(f"{LICENCE_FOLDER}/LICENSE.txt")
    except FileNotFoundError:
        path = Path(__file__).resolve().parents[2] / "LICENSE"
    return path.read_text(encoding="utf-8") if path.is_file() else "MIT"


def installed_packages() -> list[Licensed]:
    """What is installed of all that the program needs, straight or through others."""
    found: dict[str, Licensed] = {}
    waiting = _needed_by_program()
    while waiting:
        name = plain(waiting.pop())
        if name in found or name == PROGRAM:
            continue
        try:
            package = distribution(name)
        except PackageNotFoundError:
            continue  # for another system or Python
        found[name] = licensed(package)
        waiting += _needed(package.requires or [])
    return [found[name] for name in sorted(found)]


def licensed(package: Distribution) -> Licensed:
    """What an installed package says of itself."""
    return Licensed(
        plain(package.metadata["Name"]),
        package.version,
        licence_of(package),
        _home(package),
        tuple(_texts(package)),
    )


def plain(name: str) -> str:
    """A package's name as it is compared (PEP 503)."""
    return re.sub(r"[-_.]+", "-", name).lower()


def licence_of(package: Distribution) -> str:
    """The licence as the package names it: expression, name, or classifier."""
    told = package.metadata.get("License-Expression") or ""
    if not told:
        told = (package.metadata.get("License") or "").strip().split("\n")[0].strip(" =")
    if not told or len(told) > _SHORT or told.lower().startswith(("copyright", "license agree")):
        classes = package.metadata.get_all("Classifier") or []
        names = [each.rpartition(" :: ")[2] for each in classes if each.startswith("License ::")]
        told = ", ".join(names)
    return told


def _needed_by_program() -> list[str]:
    try:
        return _needed(distribution(PROGRAM).requires or [])
    except PackageNotFoundError:
        project = Path(__file__).resolve().parents[2] / "pyproject.toml"
        if not project.is_file():
            return []
        return _needed(tomllib.loads(project.read_text("utf-8"))["project"]["dependencies"])


def _needed(requirements: list[str]) -> list[str]:
    return [_NAME.match(one)[0] for one in requirements if "extra ==" not in one]


def _home(package: Distribution) -> str:
    for each in package.metadata.get_all("Project-URL") or []:
        label, _, address = each.partition(",")
        if label.strip().lower() in ("homepage", "home", "source", "repository", "source code"):
            return address.strip()
    return package.metadata.get("Home-page") or ""


def _texts(package: Distribution) -> list[tuple[str, str]]:
    found = []
    for file in package.files or []:
        name = file.as_posix()
        if not _IS_LICENCE.search(name) or name.endswith(_CODE):
            continue
        try:
            text = file.read_text(encoding="utf-8")
        except (OSError, UnicodeDecodeError):
            continue
        found.append((name.partition(".dist-info/")[2] or name, text))
    return found
