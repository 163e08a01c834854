"""Pack a job: what whoever prints the part needs, in one folder or zip."""

import argparse
from pathlib import Path
from typing import Any

from viewer.command.sheet import add_wording, sheet_order
from viewer.command.texts import counted
from viewer.document.state import State
from viewer.files.hand_over import README
from viewer.geometry.support_solids import SupportShape


def add_pack(parser: argparse.ArgumentParser) -> None:
    """The options of `pack`."""
    usual = SupportShape()
    parser.add_argument(
        "--gap",
        dest="gap_mm",
        type=float,
        default=usual.gap_mm,
        metavar="MM",
        help=f"gap between the part and the supports below it (default {usual.gap_mm:g})",
    )
    parser.add_argument(
        "--contact-layers",
        dest="contact_layers",
        type=int,
        default=usual.contact_layers,
        metavar="N",
        help=f"layers next to the part as a body of their own (default {usual.contact_layers})",
    )
    parser.add_argument(
        "--thin",
        dest="cell_mm",
        type=float,
        default=usual.cell_mm,
        metavar="MM",
        help="thin the bulk of the supports to walls around cells so wide (default: whole)",
    )
    parser.add_argument(
        "--cusp",
        dest="cusp_mm",
        type=float,
        metavar="MM",
        help="also propose layers of different heights that keep cusps on class A within MM",
    )
    add_wording(parser)
    parser.add_argument(
        "--out", required=True, type=Path, metavar="DIR|FILE.zip", help="folder or zip to write"
    )


def answer_pack(state: State, asked: argparse.Namespace) -> dict[str, Any]:
    """Write the pack, read it back, and say what is in it."""
    from viewer.paper.make_pack import make_pack  # brings Qt and VTK, which take a second

    shape = SupportShape(asked.gap_mm, asked.contact_layers, asked.cell_mm)
    pack = make_pack(sheet_order(state, asked), asked.out, shape, cusp_limit_mm=asked.cusp_mm)
    return {
        "file": state.part.file_name,
        "out": str(asked.out),
        "readme": README,
        "files": [
            {"name": f.name, "words": f.words, "bytes": f.bytes, "sha256": f.sha256}
            for f in pack.files
        ],
        "support_bodies_mm3": pack.support_mm3,
        "support_volume_mm3": pack.measured_mm3,
        "notes": list(pack.notes),
    }


def pack_text(answer: dict[str, Any]) -> str:
    """What was packed, in words."""
    files = answer["files"]
    lines = [f"{counted(len(files) + 1, 'file')} in {answer['out']}, read back as written."]
    lines += [f"  {each['name']}: {each['words']}" for each in files]
    lines.append(f"  {answer['readme']}: checksums")
    return "\n".join([*lines, *(f"  {note}" for note in answer["notes"])])
