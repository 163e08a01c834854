"""Pictures and turntables drawn in a process of their own, so that the window never waits."""

from collections.abc import Callable
from functools import partial
from pathlib import Path

from PySide6.QtCore import QObject, Signal

from viewer.errors import ShowsideError
from viewer.files.picture_files import write_picture
from viewer.live.jobs import Job, Jobs
from viewer.own_process import run_in_own_process
from viewer.progress import Progress
from viewer.scene.shots import Shot, still_file, turntable_file
from viewer.words import say


class PictureWork(QObject):
    """One at a time; signals as of `FileWork`.

    saved : the path of the picture
    """

    started = Signal(object, str)
    progressed = Signal(float, str)
    ended = Signal()
    saved = Signal(object)
    failed = Signal(str)

    def __init__(self, jobs: Jobs) -> None:
        super().__init__()
        self._jobs = jobs
        self._job: Job | None = None

    def close(self) -> None:
        """Stop the picture under way; no file is left."""
        if self._job is not None:
            self._job.cancel()

    def save_still(self, shot: Shot, path: Path) -> None:
        """Write a PNG."""
        self._run(partial(_write_still, shot, path), say("Drawing {name}", name=path.name), path)

    def save_turntable(self, shot: Shot, path: Path) -> None:
        """Write an animation; the suffix names the format."""
        self._run(
            partial(_write_turntable, shot, path), say("Drawing {name}", name=path.name), path
        )

    def _run(self, function: Callable[..., None], doing: str, path: Path) -> None:
        self.close()
        self._job = self._jobs.run(
            function, partial(self._done, path), self._fail, self.progressed.emit, priority=2
        )
        self.started.emit(self._job, doing)

    def _done(self, path: Path, _: object) -> None:
        self._job = None
        self.ended.emit()
        self.saved.emit(path)

    def _fail(self, error: ShowsideError) -> None:
        self._job = None
        self.ended.emit()
        self.failed.emit(str(error))


# --- what runs on a worker: it waits for the process and writes what that returns
def _write_still(shot: Shot, path: Path, progress: Progress) -> None:
    data = run_in_own_process(still_file, shot, progress=progress.part(0.0, 0.95))
    write_picture(path, data, progress)


def _write_turntable(shot: Shot, path: Path, progress: Progress) -> None:
    suffix = path.suffix.lower()
    data = run_in_own_process(turntable_file, shot, suffix, progress=progress.part(0.0, 0.98))
    write_picture(path, data, progress)
