"""The program imports nothing but Python itself and the packages it is shipped with."""

import ast
import re
import sys
import tomllib
from collections.abc import Mapping
from importlib.metadata import packages_distributions
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
OPTIONAL = {"distributed", "dask"}  # an extra that one asks for


def plain(name: str) -> str:
    return re.sub(r"[-_.]+", "-", name).lower()


def outside_imports(source: str) -> set[str]:
    """Top names of the packages that a file imports, wherever in it."""
    found = set()
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            found |= {each.name.partition(".")[0] for each in node.names}
        elif isinstance(node, ast.ImportFrom) and node.level == 0:
            found.add(node.module.partition(".")[0])
    return found - set(sys.stdlib_module_names) - {"viewer"}


@pytest.fixture(scope="module")
def shipped() -> set[str]:
    lock = (ROOT / "packaging" / "requirements.lock").read_text("utf-8")
    return {plain(name) for name in re.findall(r"^([\w.-]+)==", lock, re.MULTILINE)}


@pytest.fixture(scope="module")
def owners() -> Mapping[str, list[str]]:
    """Which packages bring a module, by its top name; looking through all of them takes seconds."""
    return packages_distributions()


def test_what_is_imported_is_shipped(shipped, owners):
    missing = {}
    for path in sorted((ROOT / "viewer").rglob("*.py")):
        for name in outside_imports(path.read_text("utf-8")) - OPTIONAL:
            if not {plain(owner) for owner in owners.get(name, (name,))} & shipped:
                missing.setdefault(name, path.relative_to(ROOT).as_posix())
    assert missing == {}


def test_what_is_imported_is_asked_for(owners):
    """By name in pyproject.toml, not only by way of another package."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    asked = {plain(re.match(r"[\w.-]+", each)[0]) for each in project["dependencies"]}
    asked |= {"shiboken6"}  # one with PySide6-Essentials, of the same version
    names = set().union(
        *(outside_imports(path.read_text("utf-8")) for path in (ROOT / "viewer").rglob("*.py"))
    )
    absent = {
        name
        for name in names - OPTIONAL
        if not {plain(owner) for owner in owners.get(name, (name,))} & asked
    }
    assert absent == set()


def test_the_test_sees_a_package_that_is_not_shipped():
    assert outside_imports("def f():\n    from scipy.spatial import KDTree\n") == {"scipy"}
