"""The import rules hold, and each of them really catches its breach.

A rule that guards nothing passes for years; so every contract is shown a planted breach in a copy
of the package, and has to name it.
"""

import re
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
CONTRACTS = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["tool"]["importlinter"][
    "contracts"
]

# contract id, file the breach is planted in, what is planted there
BREACHES = [
    ("rooms", "geometry/planted.py", "import viewer.files"),
    ("rooms", "geometry/planted.py", "import viewer.shop"),
    ("rooms", "shop/planted.py", "import viewer.document"),
    ("rooms", "document/planted.py", "import viewer.files"),
    ("rooms", "files/planted.py", "import viewer.live"),
    ("rooms", "scene/planted.py", "import viewer.live"),
    ("rooms", "scene/planted.py", "import viewer.paper"),
    ("rooms", "paper/planted.py", "import viewer.window"),
    ("rooms", "live/planted.py", "import viewer.scene"),
    ("rooms", "live/planted.py", "import viewer.window"),
    ("rooms", "command/planted.py", "import viewer.window"),
    ("rooms", "window/planted.py", "import viewer.command"),
    ("rooms", "window/planted.py", "import viewer.app"),
    ("rooms", "progress.py", "import viewer.geometry.pose"),
    ("rooms", "errors.py", "import viewer.progress"),
    ("rooms", "progress.py", "import viewer.own_process"),
    ("rooms", "words.py", "import viewer.progress"),
    ("rooms", "resource_files.py", "import viewer.words"),
    ("rooms", "own_process.py", "import viewer.geometry.mesh"),
    ("rooms", "utils.py", "import viewer.errors"),  # a room nobody planned
    ("headless", "geometry/planted.py", "from PySide6 import QtCore"),
    ("headless", "document/planted.py", "def later():\n    import vtkmodules.vtkCommonCore"),
    ("headless", "files/planted.py", "import pyvista"),
    ("headless", "shop/planted.py", "import qtpy"),
    ("headless", "resource_files.py", "import shiboken6"),
    ("headless", "own_process.py", "from PySide6 import QtCore"),
    ("vtk", "window/planted.py", "import vtkmodules.vtkRenderingCore"),
    ("vtk", "window/panels/planted.py", "import pyvista"),
    ("vtk", "command/planted.py", "import vtk"),
    ("vtk", "paper/planted.py", "import vtkmodules.vtkRenderingCore"),
    ("scene", "scene/planted.py", "from PySide6.QtGui import QColor"),
    ("scene", "scene/planted.py", "import pyvistaqt"),
    ("live", "live/planted.py", "import vtkmodules"),
    ("readers", "geometry/planted.py", "import trimesh"),
    ("readers", "command/planted.py", "import lib3mf"),
    ("readers", "geometry/planted.py", "from OCP.BRep import BRep_Tool"),
    ("solids", "document/planted.py", "import manifold3d"),
    ("compiled", "geometry/planted.py", "import numba"),
    ("panels", "window/panels/planted.py", "import viewer.window.panels.other"),
    (
        "acyclic",
        "geometry/planted.py",
        "import viewer.geometry.planted_too",
    ),
]


APART = ("utils.py", "import viewer.geometry.planted_too")  # would hide what others break


def lint(tree: Path) -> subprocess.CompletedProcess:
    return subprocess.run(
        [sys.executable, "-c", "from importlinter.cli import lint_imports_command as c; c()",
         "--no-cache"],
        cwd=tree, capture_output=True, text=True, timeout=120,
    )  # fmt: skip


def broken(report: str) -> dict[str, str]:
    """What a report says of each contract that it calls broken, by its id."""
    ids = {contract["name"]: contract["id"] for contract in CONTRACTS}
    names = "|".join(re.escape(name) for name in ids)
    details = report.partition("Broken contracts\n")[2]
    _, *parts = re.split(rf"^({names})\n-+$", details, flags=re.MULTILINE)
    found = {ids[name]: said for name, said in zip(parts[::2], parts[1::2], strict=True)}
    assert set(found) == {ids[n] for n in re.findall(r"^(.+) BROKEN", report, re.MULTILINE)}
    return found


def copy_of_package(folder: Path) -> Path:
    """A copy of the package, with every planned room in it, in which breaches may be planted."""
    leave = shutil.ignore_patterns("__pycache__")
    shutil.copytree(ROOT / "viewer", folder / "viewer", ignore=leave)
    shutil.copy(ROOT / "pyproject.toml", folder)
    panels = folder / "viewer" / "window" / "panels"
    panels.mkdir(exist_ok=True)
    for path in (panels / "__init__.py", panels / "other.py", folder / "viewer" / "app.py"):
        path.touch()
    return folder


def plant(tree: Path, number: int, file: str, breach: str) -> str:
    """Plants one breach, a new file of its own for each; the module's name."""
    path = tree / "viewer" / file.replace("planted", f"planted_{number}")
    with path.open("a", encoding="utf-8") as planted:
        planted.write("\n" + breach + "\n")
    return ".".join(path.relative_to(tree).with_suffix("").parts)


def imported(breach: str) -> str:
    """Which module a breach gets at, as reports name it: packages of others by their top name."""
    found = re.search(r"(?:from|import) ([\w.]+)", breach)[1]
    return found if found.startswith("viewer") else found.partition(".")[0]


@pytest.fixture(scope="module")
def all_planted(tmp_path_factory: pytest.TempPathFactory) -> tuple[dict[str, str], list[str]]:
    """What is reported of each contract with all breaches planted at once; the planted modules."""
    tree = copy_of_package(tmp_path_factory.mktemp("planted"))
    modules = [
        "" if file in APART or breach in APART else plant(tree, number, file, breach)
        for number, (_, file, breach) in enumerate(BREACHES)
    ]
    run = lint(tree)
    assert run.returncode == 1
    return broken(run.stdout), modules


def test_all_rules_hold() -> None:
    run = lint(ROOT)
    assert run.returncode == 0, run.stdout + run.stderr
    assert f"Contracts: {len(CONTRACTS)} kept, 0 broken" in run.stdout


def test_the_copy_is_clean_before_anything_is_planted(tmp_path: Path) -> None:
    run = lint(copy_of_package(tmp_path))
    assert run.returncode == 0, run.stdout + run.stderr


@pytest.mark.parametrize("number", range(len(BREACHES)))
def test_planted_breach_is_caught(all_planted, tmp_path: Path, number: int) -> None:
    contract, file, breach = BREACHES[number]
    reports, modules = all_planted
    if modules[number]:
        assert f"{modules[number]} -> {imported(breach)} (l." in reports[contract]
        return
    tree = copy_of_package(tmp_path)
    (tree / "viewer" / "geometry" / "planted_too.py").write_text(
        f"import viewer.geometry.planted_{number}\n", encoding="utf-8"
    )
    plant(tree, number, file, breach)
    run = lint(tree)
    assert run.returncode == 1
    assert set(broken(run.stdout)) == {contract}, run.stdout + run.stderr


def test_every_contract_has_a_planted_breach() -> None:
    assert {c["id"] for c in CONTRACTS} == {contract for contract, _, _ in BREACHES}
