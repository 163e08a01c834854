"""Opening, saving and exporting beside the window, with progress and cancel.

A job that fails or is cancelled changes nothing: the document is swapped only once all is read.
"""

from collections.abc import Callable
from dataclasses import replace
from functools import partial
from pathlib import Path

import numpy as np
from PySide6.QtCore import Signal

from viewer.document.demo_job import demo_job, faulty_demo_job
from viewer.document.document import Document
from viewer.document.job_piece import JobPiece
from viewer.document.state import Part, State
from viewer.errors import RequestProblem
from viewer.files.adaptive_table import write_adaptive_table
from viewer.files.job_file import CHANGED_ELSEWHERE, JOB_SUFFIX, read_job_camera, write_job
from viewer.files.kept_table import write_kept_table
from viewer.files.mesh_files import read_part, write_posed
from viewer.files.piece_files import write_piece, write_pieces
from viewer.files.platform_file import write_platform
from viewer.files.recovery import Lost, recover
from viewer.files.step_file import tessellate_part
from viewer.files.trial_table import write_trial_table
from viewer.geometry.adaptive_layers import AdaptiveLayers
from viewer.geometry.known_of_mesh import get_to_know
from viewer.geometry.mesh import frozen
from viewer.geometry.nearest_face import carried_over
from viewer.geometry.reduce_part import REDUCED_FACES, WITHIN_MM, reduce_part
from viewer.geometry.revision import Revision, carry_to_revision
from viewer.live.jobs import Jobs
from viewer.progress import Progress
from viewer.shop.packing import Placed
from viewer.shop.trials import Trial
from viewer.window.kept_choices import unit_for
from viewer.window.one_job import OneJob
from viewer.words import say


class FileWork(OneJob):
    """Runs file jobs; further signals than those of `OneJob`:

    opened : a part is open; saved, exported : a path
    recovered : unsaved work is open, a `Lost`; written : a table stands at this path
    revised : a newer version of the part is in its place, and what could not be carried over
    """

    opened = Signal(object)
    recovered = Signal(object)
    revised = Signal(object)
    saved = Signal(object)
    exported = Signal(object, object)
    written = Signal(object)

    def __init__(self, document: Document, camera: Callable[[], dict | None]) -> None:
        """`camera` tells the present camera, which a job keeps."""
        super().__init__(Jobs(threads=1))  # its own: no file waits for what is being worked out
        self._document, self._camera = document, camera

    def close(self) -> None:
        """Stop the job under way."""
        self._jobs.close()

    # --- verbs
    def open_file(self, path: Path) -> None:
        """Read a mesh or a job and make it the open one."""
        self._run(
            partial(_read, path, unit_for(path)),
            say("Opening {name}", name=path.name),
            partial(self._read, path),
        )

    def open_demo(self, faulty: bool = False) -> None:
        """Make the demo part and open it."""
        self._run(
            partial(_make_demo, faulty), say("Making the demo part"), partial(self._read, None)
        )

    def recover(self, lost: Lost) -> None:
        """Open work that a window had not saved when it came to a sudden end."""
        self._run(
            partial(_recover, lost), say("Opening {name}", name=lost.part_name),
            partial(self._recovered, lost),
        )  # fmt: skip

    def split_anew(self, chord_mm: float, sew_mm: float) -> None:
        """Make the triangles of a CAD part again, as one step that undo takes back."""
        state = self._document.state
        self._run(
            partial(_split_anew, state, chord_mm, sew_mm), say("Making the triangles anew"),
            partial(self._split, state),
        )  # fmt: skip

    def reduce(self) -> None:
        """Give a very large part fewer facets, as one step that undo takes back."""
        state = self._document.state
        self._run(partial(_reduce, state), say("Reducing the part"), partial(self._reduced, state))

    def open_newer(self, path: Path) -> None:
        """Put a newer version of the part into its place with the marks, as one step."""
        state = self._document.state
        self._run(
            partial(_revise, state, path), say("Carrying the marks over to {name}", name=path.name),
            partial(self._revised, state),
        )  # fmt: skip

    def save_job(self, path: Path) -> None:
        """Write the present state as a job file."""
        state, camera = self._document.state, self._camera()
        self._run(
            partial(_save, state, path, camera), say("Saving {name}", name=path.name),
            partial(self._saved, path, state),
        )  # fmt: skip

    def export(self, path: Path, finer: bool = False) -> None:
        """Write the posed part; the suffix names the format; `finer`: see `write_posed`."""
        state = self._document.state
        self._run(
            partial(_export, state, path, finer), say("Writing {name}", name=path.name),
            partial(self._exported, path, state),
        )  # fmt: skip

    def write_kept(self, path: Path) -> None:
        """Measure the kept poses and write them as a table."""
        state = self._document.state
        self._write(partial(write_kept_table, state, path), path)

    def write_platform(
        self, pieces: tuple[JobPiece, ...], places: tuple[Placed, ...], path: Path
    ) -> None:
        """Write pieces side by side as one 3MF."""
        self._write(partial(write_platform, pieces, places, path), path)

    def write_trials(self, trials: tuple[Trial, ...], path: Path) -> None:
        """Write trials as a table."""
        self._write(partial(_write_trials, trials, path), path)

    def write_layers(self, path: Path, adapting: Callable[..., AdaptiveLayers]) -> None:
        """Work out layers of different heights and write the fewest as a table."""
        self._write(partial(_write_layers, adapting, path), path)

    def write_piece(self, piece: JobPiece, path: Path) -> None:
        """Write one piece of the job; the suffix names the format."""
        self._write(partial(write_piece, self._document.state, piece, path), path)

    def write_pieces(self, folder: Path, suffix: str) -> None:
        """Write all pieces of the job into a folder."""
        self._write(partial(write_pieces, self._document.state, folder, suffix), folder)

    def _write(self, function: Callable[..., object], path: Path) -> None:
        doing = say("Writing {name}", name=path.name)
        self._run(function, doing, lambda _: self.written.emit(path))

    # --- the job under way
    # --- answers
    def _read(self, path: Path | None, answer: tuple[State, bool, dict | None]) -> None:
        state, was_job, camera = answer
        self._document.open(state, path if was_job else None)
        self.opened.emit((path, camera))

    def _recovered(self, lost: Lost, state: State) -> None:
        self._document.open(state, lost.job_path, saved=False)
        self.opened.emit((lost.source, None))
        self.recovered.emit(lost)

    def _split(self, asked: State, part_and_classes: tuple[Part, np.ndarray]) -> None:
        now = self._document.state
        if now.part is asked.part:  # the pose may have changed meanwhile, and stays
            part, classes = part_and_classes
            self._document.replace_part(
                now.with_(part=part, face_classes=classes), say("Make the triangles anew")
            )

    def _revised(self, asked: State, answer: tuple[State, Revision]) -> None:
        now, (state, revision) = self._document.state, answer
        if now.part is not asked.part or now.face_classes is not asked.face_classes:
            self.failed.emit(
                say(
                    "The part was changed meanwhile, so the newer version was not put in its place;"
                    " open it again."
                )
            )
            return
        if revision.motion.turn_deg > 0.0:
            now = now.standing_as_before(revision.motion.turn)
        self._document.replace_part(
            now.with_(part=state.part, face_classes=state.face_classes), say("Open a newer version")
        )
        self.revised.emit(revision)

    def _reduced(self, asked: State, reduced: State) -> None:
        now = self._document.state
        if now.part is not asked.part or now.face_classes is not asked.face_classes:
            self.failed.emit(
                say("The part was changed meanwhile, so it was not reduced; reduce it again.")
            )
            return
        self._document.replace_part(
            now.with_(part=reduced.part, face_classes=reduced.face_classes), say("Reduce the part")
        )

    def _saved(self, path: Path, state: State, _: object) -> None:
        self._document.mark_saved(path, state)
        self.saved.emit(path)

    def _exported(self, path: Path, state: State, _: object) -> None:
        self.exported.emit(path, state)


# --- what runs on a worker: plain functions of frozen values
def _read(path: Path, unit: str | None, progress: Progress) -> tuple[State, bool, dict | None]:
    """The state of a file, whether it is a job that Save may write over, and the job's camera."""
    state = read_part(path, progress=progress, unit=unit)
    get_to_know(state.part.file_mesh)
    get_to_know(state.part.mesh)
    camera = read_job_camera(path) if path.suffix.lower() == JOB_SUFFIX else None
    untouched = say(CHANGED_ELSEWHERE) not in state.part.notes
    return state, camera is not None and untouched, camera


def _recover(lost: Lost, progress: Progress) -> State:
    progress.report(0.1, say("Reading the file"))
    state = recover(lost)
    get_to_know(state.part.file_mesh)
    get_to_know(state.part.mesh)
    return state


def _make_demo(faulty: bool, progress: Progress) -> tuple[State, bool, None]:
    progress.report(0.1, say("Making the demo part"))
    state = faulty_demo_job() if faulty else demo_job()
    get_to_know(state.part.mesh)
    return state, False, None


def _split_anew(
    state: State, chord_mm: float, sew_mm: float, progress: Progress
) -> tuple[Part, np.ndarray]:
    part = tessellate_part(state.part, chord_mm, sew_mm, progress.part(0.0, 0.9))
    get_to_know(part.mesh)
    old = state.part.mesh
    classes = carried_over(old.vertices_mm, old.faces, state.face_classes, part.mesh)
    if state.part.base is None:
        return part, classes
    within_mm = 2.0 * max(chord_mm, state.part.cad.chord_mm)  # both lie so close to the surface
    finer = state.with_fine_marks_on(part, classes, within_mm, progress.part(0.9, 1.0))
    return finer.part, finer.face_classes


def _reduce(state: State, progress: Progress) -> State:
    progress.report(0.0, say("Reducing the part"))
    part = state.part
    reduced = reduce_part(part.mesh, state.face_classes, REDUCED_FACES, progress.part(0.0, 0.8))
    if reduced is None:
        raise RequestProblem(
            say(
                "The part cannot be reduced: it is not closed, or its surface would move by more "
                "than {within_mm:.2f} mm. It stays as it is; mend it first, or go on with it.",
                within_mm=WITHIN_MM,
            )
        )
    get_to_know(reduced.mesh)
    fewer = replace(
        part,
        mesh=reduced.mesh,
        received=part.received or part.file_mesh,
        base=None,
        base_face=None,
        polygon_of_face=None,
        patch_of_face=None,
        cad=None,
    )
    return state.with_(part=fewer, face_classes=frozen(reduced.face_classes))


def _revise(state: State, path: Path, progress: Progress) -> tuple[State, Revision]:
    part = read_part(path, progress=progress.part(0.0, 0.3)).on_file_triangles().part
    get_to_know(part.mesh)
    revision = carry_to_revision(
        state.part.mesh, state.face_classes, part.mesh, progress.part(0.3, 1.0)
    )
    newer = state.with_part(part, revision.marked)
    get_to_know(newer.part.mesh)
    return newer, revision


def _save(state: State, path: Path, camera: dict | None, progress: Progress) -> None:
    write_job(state, path, camera, progress)


def _export(state: State, path: Path, finer: bool, progress: Progress) -> None:
    write_posed(state, path, progress, finer)


def _write_trials(trials: tuple[Trial, ...], path: Path, progress: Progress) -> None:
    progress.check()
    write_trial_table(trials, path)


def _write_layers(adapting: Callable[..., AdaptiveLayers], path: Path, progress: Progress) -> None:
    progress.report(0.1, say("Working out the layers"))
    write_adaptive_table(adapting(progress=progress.part(0.1, 0.9)).optimal, path, progress)
