"""The full numbers of several poses at once, measured one after the other beside the window."""

from functools import partial

from PySide6.QtCore import QObject, Signal

from viewer.document.document import Changed, Document
from viewer.document.state import State
from viewer.errors import ShowsideError
from viewer.geometry.pose import Pose
from viewer.geometry.pose_measures import PoseMeasures
from viewer.live.jobs import Job, Jobs
from viewer.live.live_measures import LiveMeasures, Request

DEPENDS_ON = Changed.PART | Changed.CLASSES | Changed.SETTINGS | Changed.REFINED


class LiveCompare(QObject):
    """Listens to the document; knows the full answer for each pose that is wanted, or asks for it.

    found : the answer for a pose is there, or all answers were forgotten; look at `of`
    failed : a sentence for the user
    """

    found = Signal()
    failed = Signal(str)

    def __init__(self, document: Document, jobs: Jobs, live_measures: LiveMeasures) -> None:
        super().__init__()
        self._document, self._jobs, self._live = document, jobs, live_measures
        self._wanted: tuple[Pose, ...] = ()
        self._answers: dict[Pose, PoseMeasures] = {}
        self._job: Job | None = None
        live_measures.measured.connect(self._ask)  # by then the part is prepared
        self._stop_listening = document.listen(self._document_changed)

    def set_wanted(self, poses: tuple[Pose, ...]) -> None:
        """Which poses somebody looks at; () stops asking and forgets."""
        self._wanted = tuple(dict.fromkeys(poses))
        self._answers = {pose: a for pose, a in self._answers.items() if pose in self._wanted}
        self._stop()
        self._ask()

    def of(self, pose: Pose) -> PoseMeasures | None:
        """The full answer for a pose that is wanted, None until it is there."""
        return self._answers.get(pose)

    @property
    def pending(self) -> bool:
        """Whether an answer is still missing."""
        return len(self._answers) < len(self._wanted)

    def close(self) -> None:
        """Stop listening and asking."""
        self._stop_listening()
        self._stop()
        self._wanted = ()

    def _document_changed(self, what: Changed) -> None:
        if what & DEPENDS_ON:
            self._stop()
            self._answers.clear()
            if self._wanted:
                self.found.emit()
                self._ask()

    def _stop(self) -> None:
        if self._job is not None:
            self._job.cancel()
            self._job = None

    def _ask(self, *_: object) -> None:
        """Take what is known already, and measure the next pose that is not."""
        if self._job is not None or self._live.prepared is None:
            return
        state, news = self._document.state, False
        for pose in self._wanted:
            if pose in self._answers:
                continue
            known = self._live.known.find(state, pose)
            if known is not None:
                self._answers[pose], news = known, True
            elif self._job is None:
                request = Request(
                    self._live.prepared, state.face_classes, pose, state.settings, "full"
                )
                self._job = self._jobs.run(
                    request.answer, done=partial(self._answered, state, pose), failed=self._fail
                )
        if news:
            self.found.emit()

    def _answered(self, asked: State, pose: Pose, measures: PoseMeasures) -> None:
        self._job = None
        self._live.known.remember(asked, pose, measures)
        if pose in self._wanted:
            self._answers[pose] = measures
            self.found.emit()
        self._ask()

    def _fail(self, error: ShowsideError) -> None:
        self._job = None
        self.failed.emit(str(error))
