"""Meshes made by others, for tests: a folder beside the checkout, where there is one.

`open_mesh(name)` and `open_facts()` skip the test that calls them where the folder is absent.
"""

import json
from functools import cache
from pathlib import Path
from typing import Any

import pytest

FOLDER = Path(__file__).resolve().parents[2] / "shared" / "meshes"


def folder(name: str) -> Path:
    """The folder "open" or "nasty"; skips the calling test where it is absent."""
    path = FOLDER / name
    if not path.is_dir():
        pytest.skip("the shared meshes are not on this machine")
    return path


def open_mesh(name: str) -> Path:
    """One file of the open meshes, by its name in facts.json; skips where it is absent."""
    path = folder("open") / name
    if not path.is_file():
        pytest.skip(f"{name} is not among the shared meshes on this machine")
    return path


@cache
def _read(path: Path) -> dict[str, Any]:
    return json.loads(path.read_text(encoding="utf-8"))["files"]


def open_facts() -> dict[str, dict[str, Any]]:
    """What is known about each open mesh: file name → its entry in facts.json."""
    return _read(folder("open") / "facts.json")


def names(*suffixes: str) -> list[str]:
    """Open meshes that hold triangles, with these suffixes, for parametrize; [] if absent."""
    facts = FOLDER / "open" / "facts.json"
    if not facts.is_file():
        return []
    return sorted(
        name
        for name, entry in _read(facts).items()
        if name.lower().endswith(suffixes) and entry["facts"].get("triangles")
    )
