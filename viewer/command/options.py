"""The options that several commands share, and the State they ask for."""

import argparse
from dataclasses import replace
from pathlib import Path

from viewer.document.state import State
from viewer.errors import RequestProblem
from viewer.files.marks_file import read_marks
from viewer.files.mesh_files import read_part
from viewer.files.step_file import DEFAULT_CHORD_MM
from viewer.geometry.pose import Pose
from viewer.geometry.print_settings import PrintSettings
from viewer.shop.shop_choice import ShopChoice

UNITS = ("mm", "cm", "m", "inch", "ft")
PROCESS = ("layer_mm", "support_limit_deg", "road_mm", "bridge_mm", "visible_terrace_mm")


def three_numbers(text: str) -> tuple[float, float, float]:
    """`X,Y,Z` as three numbers; argparse turns the ValueError into its own sentence."""
    x, y, z = (float(word) for word in text.split(","))
    return x, y, z


def with_minus_signs(words: list[str]) -> list[str]:
    """Join `--up -1,0,0` to `--up=-1,0,0`, which argparse would take for an unknown option."""
    joined: list[str] = []
    for word in words:
        after_option = joined and joined[-1].startswith("--") and "=" not in joined[-1]
        if after_option and len(word) > 1 and word[0] == "-" and word[1] in "0123456789.":
            joined[-1] += f"={word}"
        else:
            joined.append(word)
    return joined


def add_reading(parser: argparse.ArgumentParser) -> None:
    """Options that say how a file is to be read."""
    parser.add_argument(
        "--unit", choices=UNITS, help="unit of the numbers in the file (default: as written, mm)"
    )
    parser.add_argument(
        "--item", type=int, metavar="N", help="only the Nth item of a 3MF file, counted from 1"
    )
    parser.add_argument(
        "--chord",
        dest="chord_mm",
        type=float,
        metavar="MM",
        help=f"STEP and IGES: chord error of the triangles (default {DEFAULT_CHORD_MM:g})",
    )
    parser.add_argument(
        "--sew",
        dest="sew_mm",
        type=float,
        metavar="MM",
        help="STEP and IGES: join loose surfaces whose edges lie this near (default: not)",
    )


def add_pose(parser: argparse.ArgumentParser) -> None:
    """Options that say how the part is laid."""
    parser.add_argument(
        "--up",
        type=three_numbers,
        metavar="X,Y,Z",
        help="part direction that will point up (default 0,0,1)",
    )
    parser.add_argument(
        "--spin",
        type=float,
        metavar="DEG",
        help="turn about the build direction, anticlockwise seen from above (default 0)",
    )


def add_process(parser: argparse.ArgumentParser) -> None:
    """Options that say how the part is printed."""
    defaults = PrintSettings()
    for flag, field, unit, words in (
        ("--layer", "layer_mm", "MM", "layer height"),
        ("--limit", "support_limit_deg", "DEG", "support limit, from horizontal"),
        ("--road", "road_mm", "MM", "road width"),
        ("--bridge", "bridge_mm", "MM", "longest span that needs no support"),
    ):
        default = getattr(defaults, field)
        parser.add_argument(
            flag, dest=field, type=float, metavar=unit, help=f"{words} (default {default:g})"
        )
    parser.add_argument(
        "--visible",
        dest="visible_terrace_mm",
        type=float,
        metavar="MM",
        help="width from which terraces count as visible (default: the road width)",
    )


def add_shop(parser: argparse.ArgumentParser) -> None:
    """Options that say on what the part is printed, and of what."""
    parser.add_argument("--machine", metavar="NAME", help="machine of your shop or an example")
    parser.add_argument("--pair", metavar="NAME", help="model and support material, likewise")


def shop_choice(own: ShopChoice, options: argparse.Namespace) -> ShopChoice:
    """What a job chose, where the command line does not choose otherwise."""
    named = {name: getattr(options, name, None) for name in ("machine", "pair")}
    return replace(own, **{name: value for name, value in named.items() if value is not None})


def add_marks(parser: argparse.ArgumentParser) -> None:
    """The option that says which faces show."""
    parser.add_argument(
        "--marks", type=Path, metavar="MARKS.json", help='{"A": [faces], "B": [faces]}, from 0'
    )


def asked_state(path: Path, options: argparse.Namespace) -> State:
    """Read `path` and apply pose, process and marks as far as the command has such options.

    A job file brings its own pose and process; options given on the command line win.
    """
    item = getattr(options, "item", None)
    if item is not None and item < 1:
        raise RequestProblem("Items are counted from 1; ask for --item 1 or higher.")
    state = read_part(
        path,
        unit=getattr(options, "unit", None),
        item=item,
        chord_mm=getattr(options, "chord_mm", None),
        sew_mm=getattr(options, "sew_mm", None) or 0.0,
    )
    up, spin_deg = getattr(options, "up", None), getattr(options, "spin", None)
    if up is not None or spin_deg is not None:
        own = state.pose
        state = state.with_(
            pose=Pose(
                own.up if up is None else up,
                (own.spin_deg if up is None else 0.0) if spin_deg is None else spin_deg,
            )
        )
    changes = _process_changes(options)
    if changes:
        state = state.with_(settings=PrintSettings(**{**vars(state.settings), **changes}))
    if getattr(options, "marks", None) is not None:
        state = state.with_(face_classes=read_marks(options.marks, state.part))
    return state


def asked_process(options: argparse.Namespace) -> State:
    """The State of a command that reads no file: only how something is printed."""
    return State(settings=PrintSettings(**_process_changes(options)))


def _process_changes(options: argparse.Namespace) -> dict[str, float]:
    return {
        field: value for field in PROCESS if (value := getattr(options, field, None)) is not None
    }
