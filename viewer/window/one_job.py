"""Work beside the window of which one is under way at a time, with progress and cancel."""

from collections.abc import Callable

from PySide6.QtCore import QObject, Signal

from viewer.errors import ShowsideError
from viewer.live.jobs import Job, Jobs


class OneJob(QObject):
    """Runs jobs, one at a time: the next one cancels the one before.

    started : the job under way and what it does; progressed : share done and what is being done
    ended : it is over, however it ended; failed : one sentence for the user
    """

    started = Signal(object, str)
    progressed = Signal(float, str)
    ended = Signal()
    failed = Signal(str)

    def __init__(self, jobs: Jobs) -> None:
        super().__init__()
        self._jobs = jobs
        self._job: Job | None = None

    def _run(
        self, function: Callable[..., object], doing: str, done: Callable[[object], None]
    ) -> None:
        """`done` is called with what `function(progress)` returns, after `ended`."""
        self._stop()

        def finished(result: object) -> None:
            self._job = None
            self.ended.emit()
            done(result)

        self._job = self._jobs.run(function, finished, self._fail, self.progressed.emit, priority=2)
        self.started.emit(self._job, doing)

    def _stop(self) -> None:
        if self._job is not None:
            self._job.cancel()

    def _fail(self, error: ShowsideError) -> None:
        self._job = None
        self.ended.emit()
        self.failed.emit(str(error))
