"""Make a standard specimen and write it: all bodies in one 3MF, and each as an STL."""

import argparse
from pathlib import Path
from typing import Any

import numpy as np

from viewer.command.answers import plain
from viewer.command.piece_answers import printing_asked, takes_answer, takes_words
from viewer.command.texts import size_text
from viewer.document.state import State
from viewer.files.atomic_write import make_folder, replacing
from viewer.files.stl_write import write_stl
from viewer.files.threemf_objects import PrintObject, write_objects
from viewer.geometry.specimens.catalogue import KINDS, make_specimen
from viewer.geometry.specimens.specimen import Body
from viewer.shop.job_numbers import choose
from viewer.shop.piece_numbers import LaidBody, numbers_of_bodies
from viewer.shop.usual_steps import usual_steps

# Okabe & Ito: bluish green for the model, orange for the other material.
_COLOURS = {"model": (0, 158, 115), "support": (230, 159, 0)}


def add_specimen(parser: argparse.ArgumentParser) -> None:
    """The options of `specimen`."""
    parser.add_argument("kind", choices=KINDS, metavar="KIND", help=", ".join(KINDS))
    parser.add_argument(
        "--steps",
        type=numbers,
        metavar="N,N,…",
        help="angles in degrees, spans, gaps or thicknesses in mm to try instead of the usual ones,"
        " which suit --machine and --pair where one of them is given",
    )
    parser.add_argument("--out", required=True, type=Path, metavar="DIR", help="folder to write to")


def numbers(text: str) -> list[float]:
    """`15,30,45` as numbers; argparse turns the ValueError into its own sentence."""
    return [float(word) for word in text.split(",")]


def answer_specimen(state: State, asked: argparse.Namespace) -> dict[str, Any]:
    """Write the specimen, and say what its steps are and what to look at."""
    printing = printing_asked(state, asked)
    steps = asked.steps
    if steps is None and (asked.machine or asked.pair):
        steps = usual_steps(asked.kind, choose(printing.shop, printing.choice), state.settings)
    specimen = make_specimen(asked.kind, steps)
    laid = [LaidBody(b.mesh.vertices_mm, b.mesh.faces, b.material) for b in specimen.bodies]
    make_folder(asked.out)
    path = asked.out / f"{specimen.kind}.3mf"
    objects = [
        PrintObject(
            body.name, "model", body.mesh.vertices_mm, body.mesh.faces,
            colour=_COLOURS[body.material],
        )
        for body in specimen.bodies
    ]  # fmt: skip
    with replacing(path) as temporary:
        write_objects(temporary, objects)
    bodies = [_write_body(body, specimen.kind, len(objects), asked.out) for body in specimen.bodies]
    return {
        "kind": specimen.kind,
        "question": specimen.question,
        "out": str(asked.out),
        "file": path.name,
        "bodies": bodies,
        "steps": [
            {"value": s.value, "unit": s.unit, "label": s.label, "words": s.words}
            for s in specimen.steps
        ],
    } | takes_answer(numbers_of_bodies(laid, printing))


def _write_body(body: Body, kind: str, count: int, folder: Path) -> dict[str, Any]:
    name = kind if count == 1 else f"{kind}-{body.name.replace(', ', '-').replace(' ', '-')}"
    path = folder / f"{name}.stl"
    with replacing(path) as temporary:
        write_stl(temporary, body.mesh.vertices_mm, body.mesh.faces)
    return {
        "name": body.name,
        "material": body.material,
        "file": path.name,
        "volume_mm3": body.mesh.signed_volume_mm3,
        "size_mm": plain(np.ptp(body.mesh.box_mm, axis=0)),
    }


def specimen_text(answer: dict[str, Any]) -> str:
    """What was made, in words."""
    unit = "°" if answer["steps"][0]["unit"] == "deg" else " mm"
    labels = ", ".join(dict.fromkeys(step["label"] + unit for step in answer["steps"]))
    lines = [answer["question"], f"  {answer['file']} in {answer['out']}; steps: {labels}"]
    lines += [
        f"  {body['file']}: {size_text(body['size_mm'])}, {body['volume_mm3']:,.1f} mm³,"
        f" in the {body['material']} material"
        for body in answer["bodies"]
    ]
    lines.append(f"  {takes_words(answer)[:1].upper()}{takes_words(answer)[1:]}")
    looks = dict.fromkeys(step["words"] for step in answer["steps"])
    return "\n".join([*lines, *(f"  Look for each step: {words}." for words in looks)])
