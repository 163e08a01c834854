"""Opening, saving and exporting beside the window, with progress and cancel.

A job that fails or is cancelled changes nothing: the document is swapped only once all is read.
"""

from collections.abc import Callable
from functools import partial
from pathlib import Path

import numpy as np
from PySide6.QtCore import QObject, Signal

from viewer.document.demo_job import demo_job, faulty_demo_job
from viewer.document.document import Document
from viewer.document.state import Part, State
from viewer.errors import ShowsideError
from viewer.files.job_file import JOB_SUFFIX, read_job_camera, write_job
from viewer.files.mesh_files import read_part, write_posed
from viewer.files.step_file import tessellate_part
from viewer.geometry.known_of_mesh import get_to_know
from viewer.geometry.nearest_face import carried_over
from viewer.live.jobs import Job, Jobs
from viewer.progress import Progress


class FileWork(QObject):
    """Runs file jobs, one at a time.

    started : the job under way and what it does; progressed : share done and what is being done
    ended : it is over, however it ended; opened : a part is open; saved, exported : a path
    failed : one sentence for the user
    """

    started = Signal(object, str)
    progressed = Signal(float, str)
    ended = Signal()
    opened = Signal(object)
    saved = Signal(object)
    exported = Signal(object, object)
    failed = Signal(str)

    def __init__(self, document: Document, jobs: Jobs, camera: Callable[[], dict | None]) -> None:
        """`camera` tells the present camera, which a job keeps."""
        super().__init__()
        self._document, self._jobs, self._camera = document, jobs, camera
        self._job: Job | None = None

    def close(self) -> None:
        """Stop the job under way."""
        if self._job is not None:
            self._job.cancel()

    # --- verbs
    def open_file(self, path: Path) -> None:
        """Read a mesh or a job and make it the open one."""
        self._run(
            partial(_read, path),
            f"Opening {path.name}",
            partial(self._read, path),
        )

    def open_demo(self, faulty: bool = False) -> None:
        """Make the demo part and open it."""
        self._run(partial(_make_demo, faulty), "Making the demo part", partial(self._read, None))

    def split_anew(self, chord_mm: float, sew_mm: float) -> None:
        """Make the triangles of a CAD part again, as one step that undo takes back."""
        state = self._document.state
        self._run(
            partial(_split_anew, state, chord_mm, sew_mm), "Making the triangles anew",
            partial(self._split, state),
        )  # fmt: skip

    def save_job(self, path: Path) -> None:
        """Write the present state as a job file."""
        state, camera = self._document.state, self._camera()
        self._run(
            partial(_save, state, path, camera), f"Saving {path.name}",
            partial(self._saved, path, state),
        )  # fmt: skip

    def export(self, path: Path) -> None:
        """Write the posed part; the suffix names the format."""
        state = self._document.state
        self._run(
            partial(_export, state, path), f"Writing {path.name}",
            partial(self._exported, path, state),
        )  # fmt: skip

    # --- the job under way
    def _run(
        self, function: Callable[..., object], doing: str, done: Callable[[object], None]
    ) -> None:
        if self._job is not None:
            self._job.cancel()

        def finished(result: object) -> None:
            self._job = None
            self.ended.emit()
            done(result)

        self._job = self._jobs.run(function, finished, self._fail, self.progressed.emit, priority=2)
        self.started.emit(self._job, doing)

    def _fail(self, error: ShowsideError) -> None:
        self._job = None
        self.ended.emit()
        self.failed.emit(str(error))

    # --- answers
    def _read(self, path: Path | None, answer: tuple[State, bool, dict | None]) -> None:
        state, was_job, camera = answer
        self._document.open(state, path if was_job else None)
        self.opened.emit((path, camera))

    def _split(self, asked: State, part_and_classes: tuple[Part, np.ndarray]) -> None:
        now = self._document.state
        if now.part is asked.part:  # the pose may have changed meanwhile, and stays
            part, classes = part_and_classes
            self._document.replace_part(
                now.with_(part=part, face_classes=classes), "Make the triangles anew"
            )

    def _saved(self, path: Path, state: State, _: object) -> None:
        self._document.mark_saved(path, state)
        self.saved.emit(path)

    def _exported(self, path: Path, state: State, _: object) -> None:
        self.exported.emit(path, state)


# --- what runs on a worker: plain functions of frozen values
def _read(path: Path, progress: Progress) -> tuple[State, bool, dict | None]:
    """The state of a file, whether it is a job that Save may write over, and the job's camera."""
    state = read_part(path, progress=progress)
    get_to_know(state.part.mesh)
    camera = read_job_camera(path) if path.suffix.lower() == JOB_SUFFIX else None
    untouched = not any("another program" in note.lower() for note in state.part.notes)
    return state, camera is not None and untouched, camera


def _make_demo(faulty: bool, progress: Progress) -> tuple[State, bool, None]:
    progress.report(0.1, "Making the demo part")
    state = faulty_demo_job() if faulty else demo_job()
    get_to_know(state.part.mesh)
    return state, False, None


def _split_anew(
    state: State, chord_mm: float, sew_mm: float, progress: Progress
) -> tuple[Part, np.ndarray]:
    part = tessellate_part(state.part, chord_mm, sew_mm, progress.part(0.0, 0.9))
    get_to_know(part.mesh)
    old = state.part.mesh
    return part, carried_over(old.vertices_mm, old.faces, state.face_classes, part.mesh)


def _save(state: State, path: Path, camera: dict | None, progress: Progress) -> None:
    write_job(state, path, camera, progress)


def _export(state: State, path: Path, progress: Progress) -> None:
    write_posed(state, path, progress)
