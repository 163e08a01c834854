"""The command line: words in, one answer a file out.

Exit codes: 0 done, 1 the file or the request is at fault (one sentence on stderr), 2 wrong usage.
"""

import argparse
import json
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any, NoReturn

from viewer import __version__
from viewer.command import options, texts
from viewer.command.answers import check_answer, measure_answer
from viewer.command.layer_answers import add_cusp, layers_answer
from viewer.command.mend import add_mend, answer_mend, mend_text
from viewer.command.pack import add_pack, answer_pack, pack_text
from viewer.command.piece import add_piece, answer_piece, piece_text
from viewer.command.rank import add_rank, answer_rank, rank_text
from viewer.command.rank_cluster import print_problem, rank_on_cluster
from viewer.command.sheet import add_sheet, answer_sheet, sheet_text
from viewer.command.shop_answers import shop_numbers, with_shop
from viewer.command.specimen import add_specimen, answer_specimen, specimen_text
from viewer.document.state import State
from viewer.errors import ShowsideError
from viewer.files.mesh_files import write_posed
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.mesh_health import check_mesh
from viewer.geometry.prepared_part import prepare_part


class Parser(argparse.ArgumentParser):
    """An argparse parser that says what is wrong in one sentence and ends with exit code 2."""

    def error(self, message: str) -> NoReturn:
        """One sentence on stderr, exit code 2."""
        self.exit(2, f"{message[:1].upper()}{message[1:]}; see: {self.prog} --help\n")


_HELP = {
    "check": "units, faults and the heights they sit at, verdict",
    "measure": "all numbers of a pose, by class",
    "rank": "all build directions, best first, and why",
    "pose": "write the part as it will stand on the platform",
    "mend": "mend what is wrong with a file, step by step",
    "sheet": "the sheet that a client sees and signs, as PDF or HTML",
    "pack": "all that is needed to print a job, in a folder or zip",
    "piece": "cut closed pieces off a part, to try or to glue",
    "specimen": "a standard specimen that answers one question",
}
_OF_FILES = {
    "check": "+", "measure": "+", "rank": "+", "pose": 1, "mend": 1, "sheet": 1, "pack": 1,
    "piece": 1,
}  # fmt: skip


def parser() -> Parser:
    """All commands and their options."""
    top = Parser(
        prog="showside",
        description="Lay a part so that the side that shows comes out clean. "
        "Without a command: showside [FILE] opens the window.",
    )
    top.add_argument("--version", action="version", version=f"showside {__version__}")
    commands = top.add_subparsers(dest="command", required=True, parser_class=Parser)

    demo = commands.add_parser("demo", help="open the window on the demo job")
    demo.add_argument(
        "--out", type=Path, help="do the job without a window and write what comes of it there"
    )
    asking = {name: commands.add_parser(name, help=words) for name, words in _HELP.items()}
    for name, command in asking.items():
        if name in _OF_FILES:
            metavar = "JOB" if name == "pack" else "FILE"
            command.add_argument("files", nargs=_OF_FILES[name], type=Path, metavar=metavar)
            options.add_reading(command)
        if name in ("check", "measure", "pose", "sheet", "pack", "piece"):
            options.add_pose(command)
        if name in ("measure", "rank", "sheet", "pack", "piece", "specimen"):
            options.add_process(command)
        if name in ("measure", "rank", "sheet", "pack", "piece"):
            options.add_marks(command)
        if name in ("measure", "rank", "sheet", "pack", "piece", "specimen"):
            options.add_shop(command)
        if name != "pose":
            command.add_argument("--json", action="store_true", help="one JSON object a file")
    _add_own_options(asking)
    return top


def _add_own_options(asking: dict[str, argparse.ArgumentParser]) -> None:
    """What only one command has."""
    check, measure, pose = asking["check"], asking["measure"], asking["pose"]
    check.add_argument("--layer", dest="layer_mm", type=float, metavar="MM", help="layer height")
    check.add_argument("--road", dest="road_mm", type=float, metavar="MM", help="road width")
    measure.add_argument(
        "--profile", action="store_true", help="with --json: also every layer, lowest first"
    )
    add_cusp(measure)
    add_rank(asking["rank"])
    pose.add_argument(
        "--out", required=True, type=Path, metavar="POSED", help="a .3mf, .stl, .obj or .ply file"
    )
    pose.add_argument(
        "--fine",
        action="store_true",
        help="of a job: write the finer triangles of its marks, not those of the file",
    )
    add_mend(asking["mend"])
    add_sheet(asking["sheet"])
    add_pack(asking["pack"])
    add_piece(asking["piece"])
    add_specimen(asking["specimen"])


def answer_check(state: State, _asked: argparse.Namespace) -> dict[str, Any]:
    """Check one part."""
    settings = state.settings
    report = check_mesh(state.part.file_mesh, state.pose, settings.layer_mm, settings.road_mm)
    return check_answer(state, report)


def answer_measure(state: State, asked: argparse.Namespace) -> dict[str, Any]:
    """Measure one part in its pose."""
    prepared = prepare_part(state.part.mesh)
    measures = measure_pose(prepared, state.face_classes, state.pose, state.settings)
    answer = measure_answer(state, prepared, measures, asked.profile)
    answer |= layers_answer(state, prepared, asked)
    return with_shop(answer, shop_numbers(state, measures, asked))


def answer_pose(state: State, asked: argparse.Namespace) -> dict[str, Any]:
    """Write the posed part."""
    write_posed(state, asked.out, finer=asked.fine)
    return {"file": state.part.file_name, "out": str(asked.out), "notes": list(state.part.notes)}


ANSWERS: dict[str, tuple[Callable[..., dict[str, Any]], Callable[[dict[str, Any]], str]]] = {
    "check": (answer_check, texts.check_text),
    "measure": (answer_measure, texts.measure_text),
    "mend": (answer_mend, mend_text),
    "pack": (answer_pack, pack_text),
    "piece": (answer_piece, piece_text),
    "pose": (answer_pose, texts.pose_text),
    "rank": (answer_rank, rank_text),
    "sheet": (answer_sheet, sheet_text),
    "specimen": (answer_specimen, specimen_text),
}


def run_command(asked: argparse.Namespace) -> int:
    """Answer for each file in order; a file at fault does not keep the others from their answer."""
    answer, text = ANSWERS[asked.command]
    if getattr(asked, "scheduler", None):
        return _run_on_cluster(asked)
    exit_code = 0
    for path in getattr(asked, "files", [None]):  # a specimen is made from no file
        try:
            state = (
                options.asked_process(asked) if path is None else options.asked_state(path, asked)
            )
            result = answer(state, asked)
        except ShowsideError as problem:
            name = f"{path.name}: " if path is not None and len(asked.files) > 1 else ""
            print(f"{name}{problem}", file=sys.stderr)
            exit_code = 1
            continue
        _print_result(asked, text, result)
    return exit_code


def _print_result(asked: argparse.Namespace, text: Callable[..., str], result: dict) -> None:
    if getattr(asked, "json", False):
        print(json.dumps(result, allow_nan=False, ensure_ascii=False), flush=True)
    else:
        print(text(result), flush=True)


def _run_on_cluster(asked: argparse.Namespace) -> int:
    """The same for `rank` with --scheduler."""
    failed = []

    def tell(path: Path, result: dict[str, Any] | None, problem: str) -> None:
        if result is None:
            failed.append(path)
            print_problem(path, problem, len(asked.files) > 1)
        else:
            _print_result(asked, rank_text, result)

    try:
        rank_on_cluster(asked, tell)
    except ShowsideError as problem:
        print(problem, file=sys.stderr)
        return 1
    return 1 if failed else 0
