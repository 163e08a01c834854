"""Keeps unsaved work aside as it grows, and holds the lock of the open job.

What is kept aside is at most `KEEP_EVERY_MS` and the time of one writing behind. It is written by
a thread of its own: states are frozen, so nothing has to wait for that.
"""

from functools import partial
from pathlib import Path
from typing import Protocol

from PySide6.QtCore import QObject, QTimer, Signal

from viewer.document.document import Document
from viewer.document.state import State
from viewer.errors import ShowsideError
from viewer.files.job_lock import RENEW_EVERY_S, Holder, JobLock, busy_sentence, take_lock
from viewer.files.job_words import NEWER
from viewer.files.recovery import Aside, Lost, lost_work, throw_away
from viewer.live.jobs import Job, Jobs
from viewer.progress import Progress
from viewer.window.document_signals import DocumentSignals
from viewer.window.notice_bar import NoticeBar
from viewer.words import say

KEEP_EVERY_MS = 3_000


class KeptWindow(Protocol):
    """What is needed of the window whose work is kept."""

    document: Document
    signals: DocumentSignals
    notice: NoticeBar


class SafeKeeping(QObject):
    """Autosave, locks and what earlier windows left, for one window.

    found : work of windows that came to a sudden end, a list of `Lost`, whenever it was looked for
    standing_changed : whether the job may be written over has changed
    """

    found = Signal(object)
    standing_changed = Signal()

    def __init__(self, window: KeptWindow) -> None:
        super().__init__()
        self._window, self._document = window, window.document
        self._jobs, self._aside = Jobs(threads=1), Aside()
        self._kept: State | None = None  # the state that is kept aside now
        self._keeping: Job | None = None
        self._source: Path | None = None
        self._adopted: Lost | None = None
        self._lock: JobLock | None = None
        self._claimed: JobLock | None = None
        self._read_only: tuple[Path, str] | None = None
        self._failed_before = False
        self._clock = QTimer(self, singleShot=True, interval=KEEP_EVERY_MS)
        self._clock.timeout.connect(self.keep_now)
        self._renewal = QTimer(self, interval=round(1000 * RENEW_EVERY_S))
        self._renewal.timeout.connect(self._renew)
        window.signals.changed.connect(self._changed)

    @property
    def read_only(self) -> str:
        """Why the open job is not to be written over, "" if it may be."""
        return self._read_only[1] if self._read_only else ""

    # --- keeping aside
    def _changed(self, *_: object) -> None:
        if not self._clock.isActive():
            self._clock.start()

    def keep_now(self) -> None:
        """Bring what is kept aside up to now; nothing is kept of work that is saved."""
        if self._keeping is not None:
            return  # it looks again when it ends
        wanted, document = self._wanted(), self._document
        if wanted is self._kept:
            return
        if wanted is None:
            work = partial(_forget, self._aside)
        else:
            work = partial(_keep, self._aside, wanted, self._source, document.job_path)
        self._keeping = self._jobs.run(work, lambda _: self._ended(wanted), self._failed)

    def _wanted(self) -> State | None:
        """What is to be kept aside now."""
        state = self._document.state
        return state if state.part is not None and self._document.modified else None

    def _ended(self, kept: State | None) -> None:
        self._keeping, self._kept, self._failed_before = None, kept, False
        if self._adopted is not None and kept is not None:
            throw_away(self._adopted)
            self._adopted = None
        if self._wanted() is not kept:
            self._changed()

    def _failed(self, problem: ShowsideError) -> None:
        self._keeping = None
        self._changed()
        if not self._failed_before:  # once, not every few seconds
            self._failed_before = True
            self._window.notice.say(
                say("Unsaved work cannot be kept aside: {problem}", problem=problem)
            )

    # --- what others left
    def look_for_lost(self) -> None:
        """Look for work of windows that came to a sudden end; `found` tells."""
        self._jobs.run(lambda progress: lost_work(), self.found.emit, lambda problem: None)

    def adopt(self, lost: Lost) -> None:
        """Recovered work is open: it is removed there once it is kept aside here."""
        self._source, self._adopted = lost.source, lost
        self.keep_now()

    # --- locks
    def opened(self, path: Path | None) -> None:
        """Another job or part is open; locks it, or says why it can only be read."""
        self._let_go()
        self._give_back_claim()
        self._source, self._read_only = path, None
        job_path = self._document.job_path
        if job_path is not None:
            taken = take_lock(job_path)
            if isinstance(taken, Holder):
                self._only_read(job_path, busy_sentence(job_path, taken))
            else:
                self._hold(taken)
        elif path is not None and say(NEWER) in self._document.state.part.notes:
            self._only_read(
                path,
                say(
                    "{name} was saved by a newer version of the program, so it can only be read "
                    "here. Save it under another name to go on.",
                    name=path.name,
                ),
            )
        self._changed()
        self.standing_changed.emit()

    def claim(self, path: Path) -> str:
        """Lock the job that is about to be written; "" or why it may not be."""
        if self._read_only and _same(path, self._read_only[0]):
            return self.read_only
        if self._lock is not None and _same(path, self._document.job_path):
            return ""
        self._give_back_claim()
        taken = take_lock(path)
        if isinstance(taken, Holder):
            return busy_sentence(path, taken)
        self._claimed = taken
        return ""

    def saved(self, path: Path) -> None:
        """The job was written there: that lock counts from now on."""
        if self._claimed is not None:
            claimed, self._claimed = self._claimed, None
            self._let_go()
            self._hold(claimed)
        self._source, self._read_only = path, None
        self.keep_now()
        self.standing_changed.emit()

    def not_saved(self) -> None:
        """Writing failed: the job stays where it was."""
        self._give_back_claim()

    def _only_read(self, path: Path, why: str) -> None:
        self._read_only = (path, why)
        self._window.notice.say(why)

    def _hold(self, lock: JobLock) -> None:
        self._lock = lock
        self._renewal.start()

    def _let_go(self) -> None:
        self._renewal.stop()
        if self._lock is not None:
            self._lock.release()
            self._lock = None

    def _give_back_claim(self) -> None:
        if self._claimed is not None:
            self._claimed.release()
            self._claimed = None

    def _renew(self) -> None:
        lock, path = self._lock, self._document.job_path

        def renewed(still_ours: bool) -> None:
            if not still_ours and lock is self._lock:
                self._let_go()
                self._only_read(path, busy_sentence(path, Holder()))
                self.standing_changed.emit()

        self._jobs.run(lambda progress: lock.renew(), renewed, lambda problem: None)

    def close(self) -> None:
        """The user has decided what becomes of the work: nothing is kept, nothing held."""
        self._clock.stop()
        self._jobs.close()
        self._aside.forget()
        self._let_go()
        self._give_back_claim()


def _keep(
    aside: Aside, state: State, source: Path | None, job_path: Path | None, progress: Progress
) -> None:
    aside.keep(state, source, job_path, progress)


def _forget(aside: Aside, progress: Progress) -> None:
    aside.forget()


def _same(one: Path, other: Path | None) -> bool:
    return other is not None and one.resolve() == other.resolve()
