"""Run a long plain function beside the window, with progress, cancel and one answer.

The function gets a `Progress` as its keyword argument `progress` and only frozen inputs; its
answer, error and progress come back as calls on the window's thread. VTK objects and widgets never
go in or out.
"""

import logging
import time
from collections.abc import Callable
from typing import Any

from PySide6.QtCore import QObject, Qt, QThreadPool, QTimer, Signal

from viewer.errors import Cancelled, ShowsideError
from viewer.progress import Progress
from viewer.words import say

log = logging.getLogger(__name__)
REPORT_EVERY_S = 0.03  # more often than a frame would only fill the event queue


class Job(QObject):
    """One running function. Its callbacks run on the thread that made it."""

    _ended = Signal(object, object)
    _progressed = Signal(float, str)

    def __init__(
        self,
        function: Callable[..., Any],
        done: Callable[[Any], None],
        failed: Callable[[ShowsideError], None],
        progressed: Callable[[float, str], None],
    ) -> None:
        super().__init__()
        self._function, self._done, self._failed = function, done, failed
        self._last_report_s = 0.0
        self.running = True
        self.progress = Progress(self._listen)
        self._ended.connect(self._end, Qt.ConnectionType.QueuedConnection)
        self._progressed.connect(progressed, Qt.ConnectionType.QueuedConnection)

    def cancel(self) -> None:
        """Ask the function to stop; neither `done` nor `failed` will be called."""
        self.progress.cancel()
        self._forget()

    def _forget(self) -> None:
        """Whoever asked may go away, while Qt still keeps what ran."""
        self._done = self._failed = _ignore

    def _listen(self, fraction: float, doing: str) -> None:  # on the worker's thread
        now_s = time.monotonic()
        if now_s - self._last_report_s >= REPORT_EVERY_S:
            self._last_report_s = now_s
            self._progressed.emit(fraction, doing)

    def work(self) -> None:
        """Call the function; runs on the worker's thread."""
        result, error = None, None
        function, self._function = self._function, _ignore
        try:
            self.progress.check()
            result = function(progress=self.progress)
        except ShowsideError as problem:
            error = problem
        except MemoryError:
            error = ShowsideError(say("There is not enough memory for that; close other programs."))
        except Exception as problem:
            log.exception("a job failed unexpectedly")
            error = ShowsideError(
                say(
                    "Something went wrong inside Showside ({problem}). Nothing was "
                    "changed; the log file holds the details.",
                    problem=problem,
                )
            )
        self._ended.emit(result, error)

    def _end(self, result: Any, error: ShowsideError | None) -> None:
        self.running = False
        done, failed = self._done, self._failed
        self._forget()
        if self.progress.cancelled or isinstance(error, Cancelled):
            return
        if error is not None:
            failed(error)
        else:
            done(result)


def _ignore(_: object) -> None:
    """In place of what a job no longer needs."""


class Jobs(QObject):
    """The small pool on which all long work runs."""

    def __init__(self, threads: int = 2) -> None:
        super().__init__()
        self._pool = QThreadPool(self)
        self._pool.setMaxThreadCount(threads)
        self._jobs: list[Job] = []
        self._held: list[tuple[Job, int]] | None = None

    def hold(self, most_ms: int) -> None:
        """Begin nothing until `release`, or for so long at most."""
        if self._held is None:
            self._held = []
            QTimer.singleShot(most_ms, self, self.release)

    def release(self) -> None:
        """Begin what was asked for while work was held, in its order."""
        held, self._held = self._held or [], None
        for job, priority in held:
            self._begin(job, priority)

    def run(
        self,
        function: Callable[..., Any],
        done: Callable[[Any], None],
        failed: Callable[[ShowsideError], None],
        progressed: Callable[[float, str], None] = lambda fraction, doing: None,
        priority: int = 0,
    ) -> Job:
        """Call `function(progress=…)` on the pool; returns the job, which can be cancelled."""
        self._jobs = [job for job in self._jobs if job.running]
        job = Job(function, done, failed, progressed)
        self._jobs.append(job)
        if self._held is not None:
            self._held.append((job, priority))
        else:
            self._begin(job, priority)
        return job

    def _begin(self, job: Job, priority: int) -> None:
        # Given as a function: a `QRunnable` that ends before `start` comes back is never let go of
        # by PySide6 6.12, nor is the job in it.
        self._pool.start(job.work, priority)

    def close(self, wait_ms: int = 10_000) -> bool:
        """Cancel everything and wait for the threads; False when one is still at work."""
        for job in self._jobs:
            job.cancel()
        self.release()
        finished = self._pool.waitForDone(wait_ms)
        self._jobs.clear()
        return finished
