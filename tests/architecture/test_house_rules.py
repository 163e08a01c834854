"""Rules of the house that a linter does not know: ceilings, units in names, docstrings, errors."""

import ast
import importlib
import re
import subprocess
from functools import cache
from pathlib import Path

import pytest

from viewer import errors

ROOT = Path(__file__).resolve().parents[2]
MODULES = sorted((ROOT / "viewer").rglob("*.py"))
DOCUMENTED_ROOMS = ("geometry", "document", "files", "shop")
FUNCTIONS = ast.FunctionDef | ast.AsyncFunctionDef

FILE_CEILING_LINES = 400
BODY_CEILING_LINES = 60

MEASURED = re.compile(
    r"(^|_)(length|height|width|thickness|diameter|radius|distance|clearance|pitch"
    r"|area|volume|angle|inclination|duration|mass)s?$"
)
NUMBER = re.compile(r"\b(float|int|ndarray|NDArray|floating)\b")


@cache
def trees() -> dict[str, ast.Module]:
    """Every module, by its path."""
    names = [path.relative_to(ROOT).as_posix() for path in MODULES]
    return {name: ast.parse((ROOT / name).read_text("utf-8")) for name in names}


def functions(tree: ast.AST) -> list[ast.FunctionDef | ast.AsyncFunctionDef]:
    return [node for node in ast.walk(tree) if isinstance(node, FUNCTIONS)]


def body_lines(function: ast.FunctionDef | ast.AsyncFunctionDef) -> int:
    """Lines from the first statement after the docstring to the last."""
    body = function.body
    if ast.get_docstring(function) is not None:
        body = body[1:]
    return body[-1].end_lineno - body[0].lineno + 1 if body else 0


def public_parts(tree: ast.AST) -> list[tuple[str, ast.AST]]:
    """The module's public classes and functions, and the public methods of those classes."""
    found = []
    for node in ast.iter_child_nodes(tree):
        if isinstance(node, ast.ClassDef | FUNCTIONS) and not node.name.startswith("_"):
            found.append((node.name, node))
            if isinstance(node, ast.ClassDef):
                found += [(f"{node.name}.{name}", part) for name, part in public_parts(node)]
    return found


def nameless_numbers(tree: ast.AST) -> list[str]:
    """Public fields, constants, parameters and properties that measure, without their unit."""
    found = []

    def look(where: str, name: str, annotation: ast.AST | None) -> None:
        kind = ast.unparse(annotation) if annotation is not None else ""
        if MEASURED.search(name.lower()) and NUMBER.search(kind):
            found.append(f"{where}{name}: {kind}")

    for name, node in [("", tree), *public_parts(tree)]:
        if isinstance(node, FUNCTIONS):
            if node.name != node.name.lower():  # Qt's own name, so Qt's own parameters
                continue
            arguments = node.args
            for each in (*arguments.posonlyargs, *arguments.args, *arguments.kwonlyargs):
                look(f"{name}(", each.arg, each.annotation)
            look("-> ", name.rpartition(".")[2], node.returns)
            continue
        for field in node.body:
            if isinstance(field, ast.AnnAssign):
                look(f"{name}.", ast.unparse(field.target), field.annotation)
            elif isinstance(field, ast.Assign) and isinstance(field.value, ast.Constant):
                kind = ast.Name(type(field.value.value).__name__)
                look(f"{name}.", ast.unparse(field.targets[0]), kind)
    return found


def committed_files() -> list[Path]:
    listed = subprocess.run(
        ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"],
        cwd=ROOT, capture_output=True, text=True,
    )  # fmt: skip
    if listed.returncode != 0:
        pytest.skip("not a git checkout")
    paths = [ROOT / name for name in listed.stdout.split("\0") if name]
    return [path for path in paths if path.is_file()]


@pytest.mark.parametrize("path", MODULES, ids=lambda path: path.relative_to(ROOT).as_posix())
def test_a_file_holds_one_idea(path: Path) -> None:
    assert len(path.read_text("utf-8").splitlines()) <= FILE_CEILING_LINES


def test_functions_stay_short() -> None:
    too_long = [
        f"{name}: {function.name} has {body_lines(function)} lines"
        for name, tree in trees().items()
        for function in functions(tree)
        if body_lines(function) > BODY_CEILING_LINES
    ]
    assert not too_long


def test_public_numbers_carry_their_unit() -> None:
    found = [f"{name} {what}" for name, tree in trees().items() for what in nameless_numbers(tree)]
    assert not found


def test_the_unit_rule_sees_a_number_without_unit() -> None:
    source = (
        "WALL_THICKNESS = 0.8\nwidth_mm: float = 1.0\n"
        "class Bead:\n    height: float\n    area_mm2: float\n    _depth: str\n"
        "def cut(part: str, angle: float, top_angle_deg: float) -> float: ...\n"
        "def volume(part: str) -> float: ...\n"
        "def heightForWidth(self, width: int) -> int: ...\n"
    )
    found = nameless_numbers(ast.parse(source))
    names = [re.search(r"(\w+): \w+$", line).group(1) for line in found]
    assert names == ["WALL_THICKNESS", "height", "angle", "volume"]


@pytest.mark.parametrize("room", DOCUMENTED_ROOMS)
def test_everything_public_says_what_it_is(room: str) -> None:
    silent = [
        f"{name}: {part}"
        for name, tree in trees().items()
        if name.startswith(f"viewer/{room}/")
        for part, node in [("the module", tree), *public_parts(tree)]
        if not ast.get_docstring(node)
    ]
    assert not silent


def test_live_uses_the_core_of_qt_only() -> None:
    others = []
    for name, tree in trees().items():
        if not name.startswith("viewer/live/"):
            continue
        for node in ast.walk(tree):
            if isinstance(node, ast.ImportFrom) and node.module == "PySide6":
                wanted = [f"PySide6.{each.name}" for each in node.names]
            elif isinstance(node, ast.ImportFrom):
                wanted = [node.module or ""]
            elif isinstance(node, ast.Import):
                wanted = [each.name for each in node.names]
            else:
                continue
            others += [
                f"{name}: {module}"
                for module in wanted
                if module.split(".")[0] == "PySide6" and module.split(".")[:2][-1] != "QtCore"
            ]
    assert not others


def test_the_drawing_of_the_errors_is_true() -> None:
    drawn: dict[str, str] = {}
    above: list[tuple[int, str]] = []  # column and name of the errors the next one may belong to
    for line in errors.__doc__.splitlines():
        name = re.match(r"[ │├└─]{4,}([A-Z]\w+)\s{2,}", line)
        if name is None:
            continue
        column = name.start(1)
        above = [each for each in above if each[0] < column]
        drawn[name.group(1)] = above[-1][1] if above else "Exception"
        above.append((column, name.group(1)))
    real = {
        name: thing.__bases__[0].__name__
        for name, thing in vars(errors).items()
        if isinstance(thing, type) and issubclass(thing, Exception)
    }
    assert drawn == real


def test_errors_for_the_user_are_defined_in_one_place() -> None:
    family = {name for name, thing in vars(errors).items() if isinstance(thing, type)}
    elsewhere = [
        f"{name}: {node.name}"
        for name, tree in trees().items()
        if name != "viewer/errors.py"
        for node in ast.walk(tree)
        if isinstance(node, ast.ClassDef)
        and {ast.unparse(base).rpartition(".")[2] for base in node.bases} & family
    ]
    assert not elsewhere


def test_names_listed_as_public_exist() -> None:
    listed = {
        name: ast.literal_eval(node.value)
        for name, tree in trees().items()
        for node in tree.body
        if isinstance(node, ast.Assign) and ast.unparse(node.targets[0]) == "__all__"
    }
    for name, names in listed.items():
        module = importlib.import_module(
            name.removesuffix(".py").removesuffix("/__init__").replace("/", ".")
        )
        assert [each for each in names if not hasattr(module, each)] == [], name


def test_no_committed_file_points_to_one_machine_or_package_index() -> None:
    trouble = re.compile(
        r"://\S*/simple\b|files\.pythonhosted|(?<![\w.}~-])/(?:work|tmp|home|root|Users)/\w"
    )
    found = []
    for path in committed_files():
        try:
            text = path.read_text("utf-8")
        except UnicodeDecodeError:
            continue
        if path == Path(__file__) or not trouble.search(text):
            continue
        for number, line in enumerate(text.splitlines(), 1):
            if trouble.search(line):
                found.append(f"{path.relative_to(ROOT)}:{number}: {line.strip()[:80]}")
    assert not found
