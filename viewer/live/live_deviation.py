"""How far the present part lies from the part as received, worked out once somebody looks at it."""

from functools import partial

from PySide6.QtCore import QObject, Signal

from viewer.document.document import Changed, Document
from viewer.errors import ShowsideError
from viewer.geometry.deviation import Deviation, find_deviation
from viewer.live.jobs import Job, Jobs


class LiveDeviation(QObject):
    """Listens to the document; asks on a worker, and only while it is wanted.

    found : Deviation of the part of the present state, or None: not known yet, or not mended
    failed : a sentence for the user
    """

    found = Signal(object)
    failed = Signal(str)

    def __init__(self, document: Document, jobs: Jobs) -> None:
        super().__init__()
        self._document, self._jobs = document, jobs
        self._job: Job | None = None
        self._wanted = False
        self.latest: Deviation | None = None
        self._stop_listening = document.listen(self._document_changed)

    @property
    def mended(self) -> bool:
        """Whether there is anything to compare: the part was mended since it was read."""
        part = self._document.state.part
        return part is not None and part.received is not None

    def set_wanted(self, wanted: bool) -> None:
        """Whether somebody looks at it."""
        self._wanted = wanted
        if not wanted:
            self._stop()
        elif self.latest is None and self._job is None:
            self._ask()

    def close(self) -> None:
        """Stop listening and asking."""
        self._stop_listening()
        self._stop()

    def _document_changed(self, what: Changed) -> None:
        if what & Changed.PART:
            self._stop()
            self._tell(None)
            if self._wanted:
                self._ask()

    def _stop(self) -> None:
        if self._job is not None:
            self._job.cancel()
            self._job = None

    def _ask(self) -> None:
        if self.mended:
            part = self._document.state.part
            self._job = self._jobs.run(
                partial(find_deviation, part.received, part.file_mesh),
                done=self._tell,
                failed=self._fail,
                priority=-1,
            )

    def _tell(self, deviation: Deviation | None) -> None:
        self._job = None
        self.latest = deviation
        self.found.emit(deviation)

    def _fail(self, error: ShowsideError) -> None:
        self._job = None
        self.failed.emit(str(error))
