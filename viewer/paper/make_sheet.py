"""A client sheet from a job: measured, checked, reckoned, drawn and put into words."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

import numpy as np

from viewer.document.beside_pieces import reckoned_beside
from viewer.document.compose_sheet import compose_sheet
from viewer.document.sheet_facts import PoseFacts, SheetFacts, chosen_name, other_poses
from viewer.document.state import State
from viewer.errors import CannotWrite, RequestProblem
from viewer.files.made_sheet import MadeSheet, jpeg_bytes
from viewer.files.picture_files import still_bytes
from viewer.files.sheet_html import write_sheet_html
from viewer.files.turnable_part import turnable_part
from viewer.geometry.deviation import find_deviation
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.mesh_health import check_mesh
from viewer.geometry.pose import Pose, pose_matrix
from viewer.geometry.pose_measures import PoseMeasures
from viewer.geometry.prepared_part import PreparedPart, prepare_part
from viewer.geometry.showing_sides import showing_sides
from viewer.own_process import run_in_own_process
from viewer.paper.pages import write_sheet_pdf
from viewer.progress import Progress
from viewer.scene import palettes
from viewer.scene.arrays import used_vertices_mm
from viewer.scene.sheet_pictures import sheet_legend, sheet_pictures
from viewer.shop.calibrate import FinishedPrint
from viewer.shop.job_numbers import JobNumbers, job_numbers
from viewer.shop.maker import Maker
from viewer.shop.shop import Shop
from viewer.words import GERMAN, say, speaking, spoken_language

SUFFIXES = (".pdf", ".html")


@dataclass(frozen=True, eq=False)
class SheetOrder:
    """What a sheet is asked for with, as a value.

    language : a key of `words.LANGUAGES`, "" for the one in force; apart : draw in a process of
        its own, so that no window waits
    """

    state: State
    shop: Shop
    prints: tuple[FinishedPrint, ...] = ()
    maker: Maker = Maker()  # noqa: RUF009 -- a frozen value
    language: str = ""
    apart: bool = True
    print_colour: palettes.Colour = palettes.PRINT_MATERIAL
    today: date | None = None


def make_sheet(order: SheetOrder, progress: Progress | None = None) -> MadeSheet:
    """The sheet of the job's pose, in the language that is asked for.

    Raises RequestProblem where a choice of the shop is not there, CannotWrite without a part,
    Cancelled.
    """
    progress = progress or Progress()
    if order.state.part is None:
        raise CannotWrite(say("There is no part to make a sheet of. Open one first."))
    state = order.state
    state = state.with_(part=replace(state.part, cad=None))
    order = replace(order, state=state)
    with speaking(order.language or spoken_language()):
        facts = _facts(order, progress.part(0.0, 0.5))
        drawn = progress.part(0.5, 0.8)
        measures = facts.chosen.measures
        progress.report(0.5, "Drawing the pictures of the sheet")
        if order.apart:
            pictures = run_in_own_process(
                sheet_pictures, state, measures, order.print_colour, progress=drawn
            )
        else:
            pictures = sheet_pictures(state, measures, order.print_colour, progress=drawn)
        matrix = pose_matrix(used_vertices_mm(state.part.mesh), state.pose)
        touched = measures.faces.touch_share > 0
        classes = state.face_classes.astype(np.int64)
        mesh = state.part.mesh
        sides = showing_sides(
            mesh.face_areas_mm2, mesh.face_normals @ matrix[:3, :3].T, state.face_classes, 1
        )
        return MadeSheet(
            compose_sheet(facts),
            {name: jpeg_bytes(image) for name, image in pictures.items()},
            tuple((one.label, still_bytes(one.image)) for one in sheet_legend(state, measures)),
            order.maker.logo_png,
            turnable_part(mesh, classes + 3 * touched, matrix, progress=progress.part(0.8, 1.0)),
            np.array([*palettes.CLASS_COLOURS, *palettes.CLASS_COLOURS]),
            np.array([*map(_pale, palettes.CLASS_COLOURS), *palettes.TOUCH_COLOURS]),
            sides[0],
        )


def write_sheet(made: MadeSheet, path: Path, progress: Progress | None = None) -> None:
    """Write it as .pdf or .html. Raises CannotWrite, Cancelled."""
    writers: dict[str, Callable[..., None]] = {".pdf": write_sheet_pdf, ".html": write_sheet_html}
    suffix = path.suffix.lower()
    if suffix not in writers:
        raise CannotWrite(
            say(
                "{name} was not saved: end its name in one of {known}.",
                name=path.name,
                known=", ".join(SUFFIXES),
            )
        )
    with speaking(made.sheet.language):
        writers[suffix](made, path, progress)


def _pale(colour: palettes.Colour) -> palettes.Colour:
    return tuple(0.5 + 0.5 * c for c in colour)


def _facts(order: SheetOrder, progress: Progress) -> SheetFacts:
    state = order.state
    progress.report(0.0, "Measuring the poses of the sheet")
    prepared = prepare_part(state.part.mesh, progress.part(0.0, 0.2))
    others = other_poses(state)
    poses = [(chosen_name(state), state.pose), *others]
    found = []
    for number, (name, pose) in enumerate(poses):
        share = progress.part(
            0.2 + 0.5 * number / len(poses), 0.2 + 0.5 * (number + 1) / len(poses)
        )
        found.append(_pose_facts(order, prepared, name, pose, share))
    progress.report(0.7, "Checking the file for the sheet")
    settings = state.settings
    report = check_mesh(
        state.part.file_mesh, state.pose, settings.layer_mm, settings.road_mm,
        progress.part(0.7, 0.8),
    )  # fmt: skip
    received, deviation = None, None
    if state.part.received is not None:
        received = check_mesh(
            state.part.received, state.pose, settings.layer_mm, settings.road_mm,
            progress.part(0.8, 0.9),
        )  # fmt: skip
        deviation = find_deviation(
            state.part.received, state.part.file_mesh, progress.part(0.9, 1.0)
        )
    return SheetFacts(
        state, order.maker, _date_words(order.today or date.today()), found[0], tuple(found[1:]),
        report, received, deviation,
    )  # fmt: skip


def _pose_facts(
    order: SheetOrder, prepared: PreparedPart, name: str, pose: Pose, progress: Progress
) -> PoseFacts:
    state, first = order.state, pose == order.state.pose
    measures = measure_pose(
        prepared, state.face_classes, pose, state.settings, columns=first, progress=progress
    )
    return PoseFacts(name, pose, measures, _numbers(order, pose, measures, progress))


def _numbers(
    order: SheetOrder, pose: Pose, measures: PoseMeasures, progress: Progress
) -> JobNumbers:
    state = order.state
    try:
        return job_numbers(
            state.part.mesh, state.face_classes, pose, state.settings, measures, order.shop,
            state.shop_choice, order.prints, progress, reckoned_beside(state, progress),
        )  # fmt: skip
    except RequestProblem as problem:
        raise RequestProblem(
            say("{problem} Choose in the shop what it is printed with.", problem=problem)
        ) from problem


def _date_words(day: date) -> str:
    """A date as it is written where the language is spoken."""
    if spoken_language() == GERMAN:
        return f"{day.day}.{day.month}.{day.year}"
    return f"{day.day} {_MONTHS[day.month - 1]} {day.year}"


_MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September",
    "October", "November", "December",
)  # fmt: skip
