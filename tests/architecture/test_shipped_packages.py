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
# What numba hands to BLAS and LAPACK, taken from SciPy (`ensure_blas` in numba/np/linalg.py).
OF_SCIPY = {"dot", "vdot", "matmul", "linalg", "roots", "cov", "corrcoef"}


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


def asks_for_scipy(source: str) -> set[str]:
    """Functions of a file that numba compiles and cannot without SciPy."""
    return {
        function.name
        for function in ast.walk(ast.parse(source))
        if isinstance(function, ast.FunctionDef)
        and any("compiled" in ast.unparse(each) for each in function.decorator_list)
        for node in ast.walk(function)
        if (isinstance(node, ast.Attribute) and node.attr in OF_SCIPY)
        or (isinstance(node, ast.BinOp | ast.AugAssign) and isinstance(node.op, ast.MatMult))
    }


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


def test_no_kernel_needs_scipy():
    """Where it is installed, as for tests, the kernel works, and fails for everybody else."""
    for path in sorted((ROOT / "viewer").rglob("*.py")):
        assert asks_for_scipy(path.read_text("utf-8")) == set(), path.relative_to(ROOT).as_posix()


def test_the_test_sees_a_kernel_that_needs_scipy():
    kernels = (
        "@compiled\ndef one(a, b):\n    return np.dot(a, b)\n",
        "@compiled(inline=True)\ndef two(a, b):\n    a @= b\n",
        "@compiled\ndef three(a, b):\n    return a @ b\n",
        "def four(a, b):\n    return np.linalg.norm(a @ b)\n",
        "@compiled\ndef five(a, b):\n    return dot(a, b)\n",
    )
    assert asks_for_scipy("".join(kernels)) == {"one", "two", "three"}
