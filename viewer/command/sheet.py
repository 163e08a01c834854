"""The client sheet of a pose, as PDF or as one HTML file."""

import argparse
from pathlib import Path
from typing import Any

from viewer.command.options import shop_choice
from viewer.document.state import State
from viewer.files.maker_file import read_maker
from viewer.files.shop_folder import read_finished_prints, read_user_shop
from viewer.words import ENGLISH, LANGUAGES


def add_sheet(parser: argparse.ArgumentParser) -> None:
    """The options of `sheet`."""
    parser.add_argument(
        "--out", required=True, type=Path, metavar="SHEET.pdf|.html", help="file to write"
    )
    add_wording(parser)


def add_wording(parser: argparse.ArgumentParser) -> None:
    """Options of everything that holds a client sheet."""
    parser.add_argument(
        "--language", choices=tuple(LANGUAGES), default=ENGLISH, help="of the sheet (default en)"
    )
    parser.add_argument("--client", metavar="NAME", help="who the part is printed for")
    parser.add_argument("--company", metavar="NAME", help="who prints it (default: your settings)")


def sheet_order(state: State, asked: argparse.Namespace):
    """What the options ask for; the maker is the user's own unless named."""
    from viewer.paper.make_sheet import SheetOrder  # brings Qt and VTK, which take a second

    maker = read_maker()
    if asked.company is not None:
        maker = type(maker)(asked.company, maker.currency, maker.logo_png)
    state = state.with_(shop_choice=shop_choice(state.shop_choice, asked))
    if asked.client is not None:
        state = state.with_(client=asked.client)
    return SheetOrder(
        state, read_user_shop(), read_finished_prints(), maker, asked.language, apart=False
    )


def answer_sheet(state: State, asked: argparse.Namespace) -> dict[str, Any]:
    """Write the sheet."""
    from viewer.paper.make_sheet import make_sheet, write_sheet

    made = make_sheet(sheet_order(state, asked))
    write_sheet(made, asked.out)
    return {
        "file": state.part.file_name,
        "out": str(asked.out),
        "bytes": asked.out.stat().st_size,
        "language": made.sheet.language,
        "turnable": {
            "faces": len(made.turnable.triangles),
            "deviation_mm": made.turnable.deviation_mm,
        },
        "notes": list(state.part.notes),
    }


def sheet_text(answer: dict[str, Any]) -> str:
    """Where the sheet was written."""
    return "\n".join([f"Wrote {answer['out']}.", *(f"  {note}" for note in answer["notes"])])
