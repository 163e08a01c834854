"""Check the part once it is opened, and re-sort its faults by height whenever it turns.

While the kernels are still being compiled (see `kernel_warm_up`) the check waits for them.
"""

from functools import partial

from PySide6.QtCore import QObject, QTimer, Signal

from viewer.document.document import Changed, Document
from viewer.document.state import State
from viewer.errors import ShowsideError
from viewer.geometry.mesh_health import HealthReport, check_mesh
from viewer.live.jobs import Job, Jobs
from viewer.live.kernel_warm_up import KernelWarmUp

STILL_MS = 250
CHECKED = Changed.PART | Changed.POSE | Changed.SETTINGS


class LiveCheck(QObject):
    """Listens to the document and tells the health report of the part in its present pose.

    checked : HealthReport, or None without a part
    progressed : share done and what is being done
    failed : a sentence for the user
    """

    checked = Signal(object)
    progressed = Signal(float, str)
    failed = Signal(str)

    def __init__(self, document: Document, jobs: Jobs, kernels: KernelWarmUp | None = None) -> None:
        """Without `kernels` they are called at once, compiled or not."""
        super().__init__()
        self._document, self._jobs, self._kernels = document, jobs, kernels
        self._job: Job | None = None
        self.latest: HealthReport | None = None
        self._still = QTimer(self, singleShot=True, interval=STILL_MS)
        self._still.timeout.connect(self._ask)
        if kernels is not None:
            kernels.became_ready.connect(self._kernels_are_ready)
        self._stop_listening = document.listen(self._document_changed)
        if document.state.part is not None:
            self._still.start()

    @property
    def waits_for_kernels(self) -> bool:
        """Whether nothing is checked until the kernels are compiled."""
        return self._kernels is not None and not self._kernels.ready

    def close(self) -> None:
        """Stop listening and asking."""
        self._stop_listening()
        self._still.stop()
        self._stop_job()

    def _kernels_are_ready(self) -> None:
        if self.latest is None:
            self._tell(None)  # that it begins now
        self._still.start()

    def _stop_job(self) -> None:
        if self._job is not None:
            self._job.cancel()
            self._job = None

    def _document_changed(self, what: Changed) -> None:
        if what & Changed.PART:
            self._stop_job()  # its report would be taken for one of the new part
            self._tell(None)
        if what & CHECKED:
            self._still.start()

    def _ask(self) -> None:
        self._stop_job()
        state: State = self._document.state
        if state.part is None or self.waits_for_kernels:
            return
        self._job = self._jobs.run(
            partial(
                check_mesh,
                state.part.file_mesh,
                state.pose,
                state.settings.layer_mm,
                state.settings.road_mm,
            ),
            done=self._tell,
            failed=self._fail,
            progressed=self.progressed.emit,
            priority=-1,
        )

    def _tell(self, report: HealthReport | None) -> None:
        self._job = None
        self.latest = report
        self.checked.emit(report)

    def _fail(self, error: ShowsideError) -> None:
        self._job = None
        self.failed.emit(str(error))
