"""Mend a file: say what each step changes, and write what comes of it."""

import argparse
import math
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Any

import numpy as np

from viewer.command.answers import units_answer
from viewer.document.state import State
from viewer.errors import CannotWrite, RequestProblem
from viewer.files.atomic_write import replacing
from viewer.files.threemf_write import separate_corners, write_threemf
from viewer.geometry.deviation import find_deviation
from viewer.geometry.mend.mend_effect import MendEffect, preview
from viewer.geometry.mend.mended import MendedMesh, after, carry_classes, unchanged
from viewer.geometry.mend.plan_mending import mend_safely, plan_mending
from viewer.geometry.mend.steps import Step, step_named
from viewer.geometry.mesh import Mesh
from viewer.geometry.mesh_health import check_mesh
from viewer.progress import Progress

ALL = "all"


def add_mend(parser: argparse.ArgumentParser) -> None:
    """The options of `mend`."""
    parser.add_argument("--out", type=threemf_path, metavar="FIXED.3mf", help="file to write")
    parser.add_argument(
        "--steps",
        metavar="NAME[:MM],NAME",
        help=f"steps to take, in order, such as fill-holes,re-skin:0.4, each with the length in mm"
        f' that it works with; "{ALL}" for the whole plan (default: the safe ones)',
    )
    parser.add_argument(
        "--dry-run", action="store_true", help="only say what the steps would change"
    )


def threemf_path(text: str) -> Path:
    """A path to write a 3MF to; argparse adds which argument its sentence is about."""
    path = Path(text)
    if path.suffix.lower() != ".3mf":
        raise argparse.ArgumentTypeError(
            f"mended parts are written as 3MF, which keeps classes; name a file such as "
            f"{path.with_suffix('.3mf').name or 'fixed.3mf'}"
        )
    return path


def answer_mend(state: State, asked: argparse.Namespace) -> dict[str, Any]:
    """Take the steps one by one, and write the mended part unless it is a dry run."""
    if asked.out is None and not asked.dry_run:
        raise RequestProblem("Say where to write with --out FIXED.3mf, or ask for a --dry-run.")
    state = state.on_file_triangles()  # not the finer ones that a job keeps for its marks
    mesh = state.part.mesh
    process = (state.settings.layer_mm, state.settings.road_mm)
    before = check_mesh(mesh, state.pose, *process)
    done, taken = unchanged(mesh), []
    for choose in _asked_steps(mesh, asked.steps):
        step = choose(done.mesh)
        effect = preview(step, done.mesh)
        if not effect.faces_after:
            raise RequestProblem(
                f"The step {step.name} would leave nothing of this part; leave it out."
            )
        taken.append(_step_answer(step, effect))
        done = after(done, effect.mended)
    now = check_mesh(done.mesh, state.pose, *process)
    deviation = find_deviation(state.part.received or mesh, done.mesh)  # a job knows the former
    if not asked.dry_run:
        _write(state, done, asked.out)
    return {
        "file": state.part.file_name,
        "out": "" if asked.dry_run else str(asked.out),
        "units": units_answer(state.part),
        "steps": taken,
        "planned": [
            {"name": step.name, "words": step.words, "safe": step.safe}
            for step in plan_mending(done.mesh)
        ],
        "verdict_before": before.verdict,
        "verdict_after": now.verdict,
        "reason_after": now.reason,
        "deviation_max_mm": deviation.max_mm,
        "deviation_95_mm": deviation.share_95_mm,
        "deviation_mean_mm": deviation.mean_mm,
        "notes": list(state.part.notes),
    }


def _asked_steps(mesh: Mesh, words: str | None) -> list[Callable[[Mesh], Step]]:
    """For each step in order: what gives it the options that suit the part as it then is."""
    if words is None or words == ALL:
        planned = mend_safely(mesh)[0] if words is None else plan_mending(mesh)
        return [lambda _, step=step: step for step in planned]  # what came of it is known
    asked = [word.strip() for word in words.split(",") if word.strip()]
    for word in asked:
        _asked_step(word, mesh)  # an unknown step is refused before anything is done
    return [partial(_asked_step, word) for word in asked]


def _asked_step(word: str, mesh: Mesh) -> Step:
    """The step that `name` or `name:mm` asks for, with the length that suits the part or this one.

    Raises RequestProblem.
    """
    name, colon, number = (piece.strip() for piece in word.partition(":"))
    step = step_named(name, mesh)
    if not colon:
        return step
    option = step.length_option
    if option is None:
        raise RequestProblem(f"The step {name} takes no number; ask for {name} alone.")
    try:
        length_mm = float(number)
    except ValueError:
        length_mm = math.nan
    if not (0.0 < length_mm < math.inf):
        raise RequestProblem(
            f"{number!r} is no length for the step {name}; write a number of mm above 0, such as"
            f" {name}:{dict(step.options)[option]:.3g}."
        )
    return step.with_options(**{option: length_mm})


def _step_answer(step: Step, effect: MendEffect) -> dict[str, Any]:
    left = effect.left
    return {
        "name": step.name,
        "words": step.words,
        "safe": step.safe,
        "faces_before": effect.faces_before,
        "faces_after": effect.faces_after,
        "volume_before_mm3": effect.volume_before_mm3,
        "volume_after_mm3": effect.volume_after_mm3,
        "area_before_mm2": effect.area_before_mm2,
        "area_after_mm2": effect.area_after_mm2,
        "largest_moved_mm": effect.largest_moved_mm,
        "left": {
            "open_edges": left.open_edges,
            "nonmanifold_edges": left.crowded_edges,
            "flipped_edges": left.flipped_edges,
            "degenerate_faces": left.degenerate_faces,
            "duplicate_faces": left.duplicate_faces,
            "self_intersecting_faces": left.crossing_faces,
            "inward_shells": left.inward_shells,
        },
    }


def _write(state: State, done: MendedMesh, path: Path) -> None:
    classes = carry_classes(state.face_classes, done.origin_face)
    vertices, faces = separate_corners(done.vertices_mm, done.faces)
    if not len(faces):
        raise CannotWrite("Nothing is left of the part, so no file was written.")
    with replacing(path) as temporary:
        write_threemf(temporary, vertices, faces, classes, np.eye(4), state.part.name, Progress())


def mend_text(answer: dict[str, Any]) -> str:
    """What was mended, in words."""
    lines = [f"{answer['file']}: {answer['verdict_before']}, then {answer['verdict_after']}."]
    for step in answer["steps"]:
        lines.append(
            f"  {step['name']}: {step['words']} {step['faces_before']:,} to"
            f" {step['faces_after']:,} faces, volume {step['volume_before_mm3']:,.1f} to"
            f" {step['volume_after_mm3']:,.1f} mm³, moved {step['largest_moved_mm']:.3g} mm at most"
        )
    if answer["steps"]:
        lines.append(
            f"  Off the part as received by {answer['deviation_max_mm']:.3g} mm at most, 95 % of"
            f" the surface by {answer['deviation_95_mm']:.3g} mm, on average by"
            f" {answer['deviation_mean_mm']:.3g} mm."
        )
    else:
        lines.append("  No step was needed.")
    if answer["planned"]:
        names = ",".join(step["name"] for step in answer["planned"])
        lines.append(f"  What is left can be mended with --steps {names}; each changes the part.")
    if answer["out"]:
        lines.append(f"  Wrote {answer['out']}.")
    return "\n".join([*lines, *(f"  {note}" for note in answer["notes"])])
