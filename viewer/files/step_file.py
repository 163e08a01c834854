"""Read STEP and IGES: exact surfaces of CAD, kept so that they can be split into triangles anew.

STEP is ISO 10303-21, IGES is version 5.3 (US PRO/IPO-100). The work is done by Open CASCADE in a
child process (step_process.py); this file knows no kernel.
"""

import importlib.util
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import numpy as np

from viewer.document.state import Part
from viewer.errors import NothingToPrint, RequestProblem, UnreadableFile
from viewer.files.raw_mesh import ASKED_UNITS, UNITS_MM, RawMesh, build_part
from viewer.files.step_bodies import Body, advice, bodies_sentence, names_sentence
from viewer.files.step_process import run_task
from viewer.files.step_worker import Task
from viewer.geometry.mesh import Mesh, frozen
from viewer.geometry.print_settings import PrintSettings
from viewer.own_process import memory_limit_bytes
from viewer.progress import Progress
from viewer.words import say

STEP_SUFFIXES = (".step", ".stp")
IGES_SUFFIXES = (".igs", ".iges")
CAD_SUFFIXES = STEP_SUFFIXES + IGES_SUFFIXES

# A quarter of a layer: the facets of a round wall stay below what a layer line shows.
DEFAULT_CHORD_MM = PrintSettings().layer_mm / 4.0
CHORD_RANGE_MM = (0.001, 10.0)
MOST_SEW_MM = 10.0


@dataclass(frozen=True, eq=False)
class CadModel:
    """The exact surfaces a part was split from; `tessellate_part` splits them anew.

    exact : the surfaces in the kernel's binary form, in mm as the file states its unit
    read : bodies of the file, before any sewing
    bodies : bodies of the part as it is now; patches are numbered body after body
    unit : unit the file states, "mm" where it states none or several
    chord_mm, sew_mm : what the present triangles were made with
    """

    exact: bytes
    read: tuple[Body, ...]
    bodies: tuple[Body, ...]
    unit: str
    chord_mm: float
    sew_mm: float


def read_cad(
    path: Path,
    data: np.ndarray,
    unit: str | None,
    progress: Progress,
    chord_mm: float | None = None,
    sew_mm: float = 0.0,
) -> Part:
    """The part of a STEP or IGES file, with its patches and its exact surfaces.

    data : (size,) uint8, the bytes of the file, looked at before the kernel is
    unit : see `read_part`; overrules the unit in the file
    chord_mm : distance between triangles and surface that the kernel aims at (it may overshoot
        by a quarter on round surfaces); None is a quarter of a layer
    sew_mm : 0 leaves loose surfaces as they are, else edges this near are joined
    Raises UnreadableFile, NothingToPrint, RequestProblem, Cancelled.
    """
    if unit is not None and unit not in ASKED_UNITS:
        raise RequestProblem(
            say(
                "The unit has to be one of {units}, not {unit}.",
                units=", ".join(ASKED_UNITS),
                unit=unit,
            )
        )
    chord_mm = DEFAULT_CHORD_MM if chord_mm is None else chord_mm
    _check_request(chord_mm, sew_mm)
    _refuse_at_a_glance(path, data)
    _refuse_without_kernel()
    task = Task(chord_mm, sew_mm, path.resolve(), memory_bytes=memory_limit_bytes())
    if unit is not None:
        task = replace(task, mm_of_unit=UNITS_MM, asked_mm=UNITS_MM[unit])
    answer = run_task(path.name, task, progress.part(0.0, 0.9))
    file_unit = answer["unit"] or "mm"
    model = CadModel(answer["exact"], answer["read"], answer["bodies"], file_unit, chord_mm, sew_mm)
    part = _part(path, answer, model, unit or file_unit, progress.part(0.9, 1.0))
    return part if unit is None else replace(part, unit_doubt="", suggested_unit="")


def tessellate_part(
    part: Part, chord_mm: float, sew_mm: float = 0.0, progress: Progress | None = None
) -> Part:
    """The same CAD part split into triangles anew, without its file; the part given stays as it is.

    chord_mm, sew_mm : see `read_cad`; sewing starts from the surfaces as they were in the file
    Raises RequestProblem (no CAD part, values out of range), UnreadableFile, Cancelled.
    """
    model = part.cad
    if not isinstance(model, CadModel):
        raise RequestProblem(
            say(
                "{name} holds triangles only, no exact surfaces. Open its STEP or IGES file.",
                name=part.name,
            )
        )
    _check_request(chord_mm, sew_mm)
    _refuse_without_kernel()
    progress = progress or Progress()
    path = Path(part.file_name or part.name)
    scale = UNITS_MM[part.unit] / UNITS_MM[model.unit]  # the user may have changed the unit
    task = Task(
        chord_mm / scale,
        sew_mm / scale,
        exact=model.exact,
        bodies=model.read,
        memory_bytes=memory_limit_bytes(),
    )
    answer = run_task(path.name, task, progress.part(0.0, 0.9))
    model = replace(model, bodies=answer["bodies"], chord_mm=chord_mm, sew_mm=sew_mm)
    new = _part(path, answer, model, part.unit, progress.part(0.9, 1.0))
    return replace(
        new,
        name=part.name,
        file_name=part.file_name,
        unit_doubt=part.unit_doubt,
        suggested_unit=part.suggested_unit,
    )


def _part(
    path: Path, answer: dict[str, Any], model: CadModel, unit: str, progress: Progress
) -> Part:
    if not model.bodies:
        raise NothingToPrint(
            say(
                "{name} holds no surfaces, only curves, points or drawings, so there "
                "is nothing to print. Export the solid model.",
                name=path.name,
            )
        )
    positions_mm = answer["positions"] * (UNITS_MM[unit] / UNITS_MM[model.unit])
    raw = RawMesh(positions_mm, answer["faces"], unit="mm", notes=_notes(answer, model))
    part = build_part(path, raw, None, progress)
    faces, patches = part.mesh.faces, answer["patches"]
    # At the pole of a sphere one side of a triangle has no length; its neighbours meet without it.
    a, b, c = faces.T
    kept = (a != b) & (b != c) & (c != a)
    if not kept.all():
        part = replace(part, mesh=Mesh(part.mesh.vertices_mm, faces[kept]))
        patches = patches[kept]
    return replace(part, unit=unit, patch_of_face=frozen(patches), cad=model)


def _notes(answer: dict[str, Any], model: CadModel) -> tuple[str, ...]:
    sentences = (
        bodies_sentence(model.bodies),
        advice(model.bodies, model.sew_mm),
        _lost(int(answer["missing"]), int(answer["holed"])),
        names_sentence(model.bodies),
    )
    return tuple(sentence for sentence in sentences if sentence)


def _lost(missing: int, holed: int) -> str:
    """What the kernel failed to split into triangles, "" for nothing."""
    if not missing and not holed:
        return ""
    bodies = say("one closed body") if holed == 1 else say("{holed:,} closed bodies", holed=holed)
    where = say(", which leaves holes in {bodies}", bodies=bodies) if holed else ""
    what = say("{missing:,} whole", missing=missing) if missing else say("parts of some")
    noun = say("surface") if missing == 1 else say("surfaces")
    return say(
        "The CAD kernel could not split {what} {noun} into triangles{where}: "
        "try another chord error, or fill the holes.",
        what=what,
        noun=noun,
        where=where,
    )


# --- refusals
def _check_request(chord_mm: float, sew_mm: float) -> None:
    low, high = CHORD_RANGE_MM
    if not low <= chord_mm <= high:
        raise RequestProblem(
            say(
                "The chord error has to lie between {low:g} and {high:g} mm, not {chord_mm:g} mm.",
                low=low,
                high=high,
                chord_mm=chord_mm,
            )
        )
    if not 0.0 <= sew_mm <= MOST_SEW_MM:
        raise RequestProblem(
            say(
                "The sewing tolerance has to lie between 0 and {most_sew_mm:g} mm, not "
                "{sew_mm:g} mm.",
                most_sew_mm=MOST_SEW_MM,
                sew_mm=sew_mm,
            )
        )


def _refuse_without_kernel() -> None:
    if importlib.util.find_spec("OCP") is None:
        raise UnreadableFile(
            say(
                "This installation cannot read STEP files; export the part as 3MF or STL instead, "
                "or set the program up again."
            )
        )


def _refuse_at_a_glance(path: Path, data: np.ndarray) -> None:
    """Refuse what is no CAD file or lacks its end, where the kernel would read half in silence."""
    start, end = data[:4096].tobytes(), data[-8192:].tobytes().rstrip()
    if path.suffix.lower() in STEP_SUFFIXES:
        kind = "STEP"
        is_one = b"ISO-10303-21" in start
        is_whole = b"END-ISO-10303-21" in end
    else:  # column 73 of each line names its section (IGES 5.3, section 2.2.3)
        kind = "IGES"
        is_one = start.splitlines()[0][72:73] in (b"S", b"C")
        is_whole = is_one and end.splitlines()[-1][72:73] == b"T"
    if not is_one:
        raise UnreadableFile(
            say(
                "{name} is not a text {kind} file. Check that it was exported as {kind}.",
                name=path.name,
                kind=kind,
            )
        )
    if not is_whole:
        raise UnreadableFile(
            say("{name} is cut off: its end is missing. Ask for the file again.", name=path.name)
        )
