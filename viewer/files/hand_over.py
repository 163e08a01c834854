"""The pack: everything that whoever prints the part needs, in one folder or zip, read back.

Posed part as 3MF and STL, supports and space to be kept clear as bodies, test pieces, the layers as
a table, client sheets, the job, and a readme with a checksum for every file.
"""

import hashlib
import tempfile
import zipfile
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from viewer.document.state import Part, State
from viewer.errors import CannotWrite
from viewer.files.adaptive_table import adaptive_table
from viewer.files.atomic_write import cannot_write, replacing
from viewer.files.job_file import write_job
from viewer.files.layer_table import layer_table
from viewer.files.mesh_files import write_posed
from viewer.files.pack_check import read_back_bytes, read_back_models
from viewer.files.pack_folder import filling
from viewer.files.pack_pieces import PIECES, pack_pieces, write_job_pieces
from viewer.files.support_files import write_coloured, write_keep_clear, write_supports
from viewer.geometry.adaptive_layers import adapt_layers
from viewer.geometry.closed_part import ClosedPart, closed_part
from viewer.geometry.keep_clear import keep_clear_body
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.mend.mended import carry_classes
from viewer.geometry.pose_measures import PoseMeasures
from viewer.geometry.prepared_part import PreparedPart, prepare_part
from viewer.geometry.support_solids import SupportShape, support_solids
from viewer.progress import Progress
from viewer.words import later, say, speaking, spoken_language, written

README, ADAPTIVE = "readme.txt", "adaptive-layers.csv"
OF_JOB = later("a test piece of the job")
_WORDS = {
    "part.3mf": later(
        "the part as it is to be laid, the faces that show as triangle sets and in colour"
    ),
    "part.stl": later("the same, in millimetres"),
    "supports.3mf": later("the part with its supports as objects of their own"),
    "support-body.stl": later("the bulk of the supports, where the part stands"),
    "contact-layers.stl": later("the layers of the supports next to the part"),
    "keep-clear.3mf": later(
        "the part with the space beside class A in which no support should stand"
    ),
    "keep-clear.stl": later("that space alone; do not print it"),
    PIECES["touch"]: later(
        "a test piece: where supports touch class A most, cut out, laid as the whole"
    ),
    PIECES["terrace"]: later(
        "a test piece: the broadest steps on class A, cut out, laid as the whole"
    ),
    "layers.csv": later("what each layer holds, lowest first"),
    ADAPTIVE: later(
        "layers of different heights that keep the steps on class A small, as a proposal"
    ),
    "client-sheet.pdf": later("what the client sees and signs, to be printed"),
    "client-sheet.html": later(
        "the same with a part that can be turned; opens in any browser, offline"
    ),
    "job.3mf": later("the job, to be opened again with Showside"),
}


@dataclass(frozen=True)
class PackedFile:
    """One file of a pack: its name, what it is in English, its size in bytes and its SHA-256."""

    name: str
    words: str
    bytes: int
    sha256: str


@dataclass(frozen=True, eq=False)
class Pack:
    """path : the folder or zip; files : all but the readme; notes : sentences for the user
    support_mm3, measured_mm3 : of the support bodies with their gap, and of the measure
    """

    path: Path
    files: tuple[PackedFile, ...]
    support_mm3: float
    measured_mm3: float
    notes: tuple[str, ...]


def write_pack(
    state: State,
    path: Path,
    shape: SupportShape | None = None,
    progress: Progress | None = None,
    cusp_limit_mm: float | None = None,
    sheets: Mapping[str, bytes] | None = None,
    language: str = "",
) -> Pack:
    """Write a pack to a folder, or to a zip if `path` ends so, and read all of it back.

    cusp_limit_mm : also propose layers of different heights that keep cusps on class A within it
    sheets : client sheets by the names they have in a pack
    language : of the readme, "" for the one in force
    A folder or zip that stands at `path` is replaced only once the new one is complete.
    Raises RequestProblem for a limit that makes no sense, CannotWrite (also where something is not
    read back as it was written), Cancelled.
    """
    progress = progress or Progress()
    if state.part is None:
        raise CannotWrite(say("There is no part to pack. Open one first."))
    asked = _Asked(state, shape, cusp_limit_mm, sheets or {}, language or spoken_language())
    if path.suffix.lower() != ".zip":
        with filling(path, README) as folder:
            return _fill(asked, folder, path, progress)
    try:
        with tempfile.TemporaryDirectory() as made:
            folder = Path(made)
            pack = _fill(asked, folder, path, progress.part(0.0, 0.9))
            _zip(folder, pack, path, progress)
    except OSError as error:
        raise cannot_write(path, error) from error
    return pack


@dataclass(frozen=True, eq=False)
class _Asked:
    """What goes into a pack."""

    state: State
    shape: SupportShape | None
    cusp_limit_mm: float | None
    sheets: Mapping[str, bytes]
    language: str


def _fill(asked: _Asked, folder: Path, path: Path, progress: Progress) -> Pack:
    progress.report(0.0, "Measuring the part")
    state, settings = asked.state, asked.state.settings
    part, closed, classes, notes = _solid(state, progress.part(0.0, 0.2))
    measures = measure_pose(part, classes, state.pose, settings, progress=progress.part(0.2, 0.4))
    supports = support_solids(
        part, measures, state.pose, settings, asked.shape, progress.part(0.4, 0.6)
    )
    clear = keep_clear_body(part, classes, measures, state.pose, progress=progress.part(0.6, 0.75))
    progress.report(0.75, "Writing the pack")
    write_coloured(state, folder / "part.3mf", progress)
    write_posed(state, folder / "part.stl", progress, finer=True)
    write_job(state, folder / "job.3mf", progress=progress)
    write_supports(state, supports, folder, progress)
    write_keep_clear(state, clear, folder, progress)
    solid = State.of_part(
        Part(state.part.name, part.mesh), classes, pose=state.pose, settings=settings
    )
    pieces = write_job_pieces(state, folder, progress)
    if not pieces:
        pieces = pack_pieces(solid, part, closed, measures, progress)
        for name, piece in pieces.items():
            write_coloured(piece, folder / name, progress)
    _write_text(folder / "layers.csv", layer_table(measures.profile))
    if asked.cusp_limit_mm is not None:
        up, limit_mm = state.pose.up, asked.cusp_limit_mm
        adapted = adapt_layers(part, classes, up, settings, limit_mm, progress=progress)
        _write_text(folder / ADAPTIVE, adaptive_table(adapted.optimal))
    for name, content in asked.sheets.items():
        with replacing(folder / name, progress) as temporary:
            temporary.write_bytes(content)
    progress.report(0.85, "Reading the pack back")
    read_back_models(state, folder, supports, clear, pieces, progress)
    read_back_bytes(folder, asked.sheets)
    words = _WORDS | {name: OF_JOB for name in pieces if name not in _WORDS}
    files = tuple(
        _packed(folder / name, what) for name, what in words.items() if (folder / name).is_file()
    )
    pack = Pack(path, files, supports.standing_mm3, supports.measured_mm3, notes)
    with speaking(asked.language):
        _write_text(folder / README, _readme(state, measures, pack))
    return pack


def _solid(
    state: State, progress: Progress
) -> tuple[PreparedPart, ClosedPart, np.ndarray, tuple[str, ...]]:
    """The part ready to be measured, closed if need be, its classes, and what was done for it."""
    prepared = prepare_part(state.part.mesh, progress.part(0.0, 0.5))
    closed = closed_part(prepared, progress.part(0.5, 1.0))
    notes = (*state.part.notes, *((closed.sentence,) if closed.sentence else ()))
    if closed.mesh is prepared.mesh or prepared.overlapping:
        return prepared, closed, state.face_classes, notes
    classes = carry_classes(state.face_classes, closed.origin_face)
    prepared = prepare_part(closed.mesh)
    return prepared, closed_part(prepared), classes, notes


def _packed(path: Path, words: str) -> PackedFile:
    return PackedFile(path.name, words, path.stat().st_size, _digest(path.open))


def _digest(opened: Callable[[str], object]) -> str:
    with opened("rb") as stream:
        return hashlib.file_digest(stream, "sha256").hexdigest()


def _write_text(path: Path, text: str) -> None:
    with replacing(path) as temporary:
        temporary.write_bytes(text.encode("utf-8"))


def _readme(state: State, measures: PoseMeasures, pack: Pack) -> str:
    up = "; ".join(written(x, ".6g") for x in state.pose.up)
    touch = measures.touch_area_mm2
    lines = [
        say("{part}, laid with the part's direction ({up}) up, spin {spin_deg:g}°.",
            part=state.part.name, up=up, spin_deg=state.pose.spin_deg),
        say("All files are in millimetres, z up, platform at z = 0, and fit over each other."),
        "",
        say("Layer height {layer_mm:g} mm, {layers:,} layers, height {height_mm:.2f} mm.",
            layer_mm=state.settings.layer_mm, layers=measures.layers,
            height_mm=measures.height_mm),
        say("Supports touch class A on {A:,.1f} mm², class B on {B:,.1f} mm², other faces on "
            "{unmarked:,.1f} mm².", A=touch.A, B=touch.B, unmarked=touch.unmarked),
        say("Support volume {measured_mm3:,.1f} mm³ as measured, {bodies_mm3:,.1f} mm³ as bodies.",
            measured_mm3=pack.measured_mm3, bodies_mm3=pack.support_mm3),
        *pack.notes,
        "",
        say("Files, each with its SHA-256:"),
    ]  # fmt: skip
    for each in pack.files:
        size = say("{name}: {words} ({count:,} bytes)", name=each.name, words=say(each.words),
                   count=each.bytes)  # fmt: skip
        lines += [f"  {size}", f"    {each.sha256}"]
    return "\r\n".join([*lines, ""])


def _zip(folder: Path, pack: Pack, path: Path, progress: Progress) -> None:
    with replacing(path, progress) as temporary:
        with zipfile.ZipFile(temporary, "w", zipfile.ZIP_DEFLATED) as package:
            for name in (README, *(each.name for each in pack.files)):
                package.write(folder / name, name)
                progress.check()
        with zipfile.ZipFile(temporary) as package:
            for each in pack.files:
                with package.open(each.name) as stream:
                    if hashlib.file_digest(stream, "sha256").hexdigest() != each.sha256:
                        raise CannotWrite(
                            say("{name} is damaged in the zip; pack the job again.", name=each.name)
                        )
