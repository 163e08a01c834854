"""Re-measure as the part turns: a quick answer within the frame, the full one at rest.

Every request is a frozen value (part, classes, pose, settings). At most one quick and one full
request are under way; a change meanwhile replaces what waits, and an answer that is late (its
state is no longer the present one) is dropped, except that while turning any quick answer is
better than none. The last few full answers are kept: a pose one comes back to (the pinned one, a
kept one) has its numbers at once, as soon as everyone has heard of the change.

While the kernels are still being compiled (see `kernel_warm_up`) quick questions are answered in
plain numpy; such an answer is never the last word, so the numbers stay pending until the kernels
are there and the part is measured again with them.
"""

from dataclasses import dataclass
from functools import partial

import numpy as np
from PySide6.QtCore import QObject, Qt, QTimer, Signal

from viewer.document.document import Changed, Document
from viewer.document.state import State
from viewer.errors import ShowsideError
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.plain_measures import measure_plainly
from viewer.geometry.plain_part import PlainPart, prepare_plain_part
from viewer.geometry.pose import Pose
from viewer.geometry.pose_measures import PoseMeasures
from viewer.geometry.prepared_part import PreparedPart, prepare_part
from viewer.geometry.print_settings import PrintSettings
from viewer.live.jobs import Job, Jobs
from viewer.live.kernel_warm_up import KernelWarmUp
from viewer.live.known_answers import KnownAnswers
from viewer.progress import Progress

FRAME_MS = 16
STILL_MS = 150
MEASURED = Changed.PART | Changed.CLASSES | Changed.POSE | Changed.SETTINGS


@dataclass(frozen=True, eq=False)
class Request:
    """Everything one measurement depends on."""

    part: PreparedPart | PlainPart
    face_classes: np.ndarray
    pose: Pose
    settings: PrintSettings
    tier: str

    def answer(self, progress: Progress) -> PoseMeasures:
        """Measure; runs on a worker's thread."""
        if isinstance(self.part, PlainPart):
            return measure_plainly(self.part, self.face_classes, self.pose, self.settings, progress)
        return measure_pose(
            self.part,
            self.face_classes,
            self.pose,
            self.settings,
            tier=self.tier,
            progress=progress,
            columns=True,
        )


class LiveMeasures(QObject):
    """Listens to the document, measures, and tells.

    measured : PoseMeasures of the present state (tier "quick" or "full"), None without a part
    pinned_measured : PoseMeasures of the pinned pose (full tier), or None
    pending : whether the numbers shown are older than the state
    failed : a sentence for the user
    """

    measured = Signal(object)
    pinned_measured = Signal(object)
    pending = Signal(bool)
    failed = Signal(str)
    _is_known = Signal()

    def __init__(self, document: Document, jobs: Jobs, kernels: KernelWarmUp | None = None) -> None:
        """Without `kernels` they are called at once, compiled or not."""
        super().__init__()
        self._document, self._jobs, self._kernels = document, jobs, kernels
        self._prepared: PreparedPart | PlainPart | None = None
        self._preparing: Job | None = None
        self._running: dict[str, Job | None] = {"quick": None, "full": None, "pinned": None}
        self._wanted = False
        self._known = KnownAnswers()
        self._is_known.connect(self._tell_known, Qt.ConnectionType.QueuedConnection)
        self.latest: PoseMeasures | None = None
        self.pinned: PoseMeasures | None = None
        self._frame = QTimer(self, singleShot=True, interval=FRAME_MS)
        self._frame.timeout.connect(self._ask_quick)
        self._still = QTimer(self, singleShot=True, interval=STILL_MS)
        self._still.timeout.connect(self._ask_full)
        if kernels is not None:
            kernels.became_ready.connect(self._kernels_are_ready)
        self._stop_listening = document.listen(self._document_changed)
        if document.state.part is not None:
            self._document_changed(Changed.EVERYTHING)

    @property
    def prepared(self) -> PreparedPart | None:
        """What was worked out once about the present part, None until that is done."""
        return self._prepared if isinstance(self._prepared, PreparedPart) else None

    @property
    def known(self) -> KnownAnswers:
        """The last full answers, which others may use and add to."""
        return self._known

    def close(self) -> None:
        """Stop listening and asking."""
        self._stop_listening()
        if self._kernels is not None:
            self._kernels.close()
        self._frame.stop()
        self._still.stop()
        for job in (self._preparing, *self._running.values()):
            if job is not None:
                job.cancel()

    # --- what the document says
    def _document_changed(self, what: Changed) -> None:
        if what & Changed.PART and self._document.just_opened and self.latest is not None:
            self._tell(None)  # numbers of another part would be taken for this one's
        if what & (Changed.PART | Changed.REFINED):
            self._prepare()
        if what & MEASURED:
            self.pending.emit(self._document.state.part is not None)
            self._cancel("full")
            if self._known_now is not None:
                self._is_known.emit()
            elif not self._frame.isActive():
                self._frame.start()
            self._still.start()
        if what & (Changed.PINNED | Changed.PART | Changed.CLASSES | Changed.SETTINGS):
            self._ask_pinned()

    def _prepare(self) -> None:
        for tier in self._running:
            self._cancel(tier)
        if self._preparing is not None:
            self._preparing.cancel()
        self._prepared, self._preparing = None, None
        part = self._document.state.part
        if part is None:
            self._tell(None)
            self._tell_pinned(None)
            return
        prepare = prepare_part if self.kernels_at_hand else prepare_plain_part
        self._preparing = self._jobs.run(
            partial(prepare, part.mesh), done=self._part_is_prepared, failed=self._fail
        )

    @property
    def kernels_at_hand(self) -> bool:
        """Whether nothing waits for a first compiling any more."""
        return self._kernels is None or self._kernels.ready

    def _kernels_are_ready(self) -> None:
        """Measure anew with the kernels; the first numbers stay on the screen meanwhile."""
        if self._document.state.part is not None:
            self._prepare()

    def _part_is_prepared(self, prepared: PreparedPart | PlainPart) -> None:
        self._prepared, self._preparing = prepared, None
        self._ask_quick()
        self._still.start()
        self._ask_pinned()

    # --- asking
    def _ask_quick(self) -> None:
        self._wanted = self._running["quick"] is not None
        if not self._wanted and self._running["full"] is None:
            self._ask("quick")

    @property
    def _known_now(self) -> PoseMeasures | None:
        return self._known.find(self._document.state, self._document.state.pose)

    def _tell_known(self) -> None:
        """Answer at once what was answered before; nothing if it is no longer asked."""
        measures = self._known_now
        if measures is None or self._prepared is None or self._running["full"] is not None:
            return
        self._frame.stop()
        self._still.stop()
        self._cancel("quick")
        self._wanted = False
        self._tell(measures)
        self.pending.emit(False)

    def _ask_full(self) -> None:
        if isinstance(self._prepared, PreparedPart):
            self._ask("full")

    def _ask(self, tier: str) -> None:
        state = self._document.state
        if self._prepared is None:
            return
        request = Request(self._prepared, state.face_classes, state.pose, state.settings, tier)
        self._running[tier] = self._jobs.run(
            request.answer,
            done=partial(self._answered, tier, state),
            failed=self._fail,
            priority=1,
        )

    def _ask_pinned(self) -> None:
        self._cancel("pinned")
        state = self._document.state
        if self.prepared is None or state.pinned_pose is None:
            self._tell_pinned(None)
            return
        known = self._known.find(state, state.pinned_pose)
        if known is not None:
            self._tell_pinned(known)
            return
        request = Request(
            self._prepared, state.face_classes, state.pinned_pose, state.settings, "full"
        )
        self._running["pinned"] = self._jobs.run(
            request.answer, done=partial(self._pinned_answered, state), failed=self._fail
        )

    def _cancel(self, tier: str) -> None:
        job = self._running[tier]
        if job is not None:
            job.cancel()
        self._running[tier] = None

    # --- answers
    def _answered(self, tier: str, asked: State, measures: PoseMeasures) -> None:
        self._running[tier] = None
        now = self._document.state
        same = (
            asked.part is now.part
            and asked.face_classes is now.face_classes
            and asked.pose == now.pose
            and asked.settings == now.settings
        )
        if tier == "full":
            if not same:
                return
            self._known.remember(asked, asked.pose, measures)
            self._cancel("quick")  # asked earlier and coarser: it must not have the last word
            self._wanted = False
        if asked.part is now.part and len(asked.face_classes) == len(now.face_classes):
            self._tell(measures)
        if tier == "full":
            self.pending.emit(False)
        elif self._wanted:
            self._ask_quick()

    def _tell(self, measures: PoseMeasures | None) -> None:
        self.latest = measures
        self.measured.emit(measures)

    def _pinned_answered(self, asked: State, measures: PoseMeasures) -> None:
        self._known.remember(asked, asked.pinned_pose, measures)
        self._tell_pinned(measures)

    def _tell_pinned(self, measures: PoseMeasures | None) -> None:
        self._running["pinned"] = None
        self.pinned = measures
        self.pinned_measured.emit(measures)

    def _fail(self, error: ShowsideError) -> None:
        for tier in self._running:
            self._running[tier] = None
        self.pending.emit(False)
        self.failed.emit(str(error))
