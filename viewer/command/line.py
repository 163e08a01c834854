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
from viewer.command.mend import add_mend, answer_mend, mend_text
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

    check = commands.add_parser("check", help="units, faults and the heights they sit at, verdict")
    check.add_argument("files", nargs="+", type=Path, metavar="FILE")
    check.add_argument("--layer", dest="layer_mm", type=float, metavar="MM", help="layer height")
    check.add_argument("--road", dest="road_mm", type=float, metavar="MM", help="road width")

    measure = commands.add_parser("measure", help="all numbers of a pose, by class")
    measure.add_argument("files", nargs="+", type=Path, metavar="FILE")
    options.add_process(measure)
    options.add_marks(measure)
    measure.add_argument(
        "--profile", action="store_true", help="with --json: also every layer, lowest first"
    )

    pose = commands.add_parser("pose", help="write the part as it will stand on the platform")
    pose.add_argument("files", nargs=1, type=Path, metavar="FILE")
    pose.add_argument(
        "--out", required=True, type=Path, metavar="POSED", help="a .3mf, .stl, .obj or .ply file"
    )

    mend = commands.add_parser("mend", help="mend what is wrong with a file, step by step")
    mend.add_argument("files", nargs=1, type=Path, metavar="FILE")
    add_mend(mend)
    options.add_reading(mend)
    for command in (check, measure, pose):
        options.add_pose(command)
        options.add_reading(command)
    for command in (check, measure, mend):
        command.add_argument("--json", action="store_true", help="one JSON object a file")
    return top


def answer_check(state: State, _asked: argparse.Namespace) -> dict[str, Any]:
    """Check one part."""
    settings = state.settings
    report = check_mesh(state.part.mesh, state.pose, settings.layer_mm, settings.road_mm)
    return check_answer(state, report)


def answer_measure(state: State, asked: argparse.Namespace) -> dict[str, Any]:
    """Measure one part in its pose."""
    prepared = prepare_part(state.part.mesh)
    measures = measure_pose(prepared, state.face_classes, state.pose, state.settings)
    return measure_answer(state, prepared, measures, asked.profile)


def answer_pose(state: State, asked: argparse.Namespace) -> dict[str, Any]:
    """Write the posed part."""
    write_posed(state, asked.out)
    return {"file": state.part.file_name, "out": str(asked.out), "notes": list(state.part.notes)}


ANSWERS: dict[str, tuple[Callable[..., dict[str, Any]], Callable[[dict[str, Any]], str]]] = {
    "check": (answer_check, texts.check_text),
    "measure": (answer_measure, texts.measure_text),
    "mend": (answer_mend, mend_text),
    "pose": (answer_pose, texts.pose_text),
}


def run_command(asked: argparse.Namespace) -> int:
    """Answer for each file in order; a file at fault does not keep the others from their answer."""
    answer, text = ANSWERS[asked.command]
    exit_code = 0
    for path in asked.files:
        try:
            result = answer(options.asked_state(path, asked), asked)
        except ShowsideError as problem:
            name = f"{path.name}: " if len(asked.files) > 1 else ""
            print(f"{name}{problem}", file=sys.stderr)
            exit_code = 1
            continue
        if getattr(asked, "json", False):
            print(json.dumps(result, allow_nan=False, ensure_ascii=False), flush=True)
        else:
            print(text(result), flush=True)
    return exit_code
