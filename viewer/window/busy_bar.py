"""Progress and Cancel for the long job under way, at the right of the status bar."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QProgressBar, QWidget

from viewer.live.jobs import Job
from viewer.window.pieces import button
from viewer.words import say


class BusyBar(QWidget):
    """Hidden unless a long job runs; finished : it is over, or was stopped."""

    finished = Signal()

    def __init__(self) -> None:
        super().__init__()
        self._job: Job | None = None
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 6, 0)
        self._doing = QLabel()
        self._bar = QProgressBar()
        self._bar.setRange(0, 100)
        self._bar.setFixedWidth(140)
        self._bar.setAccessibleName(say("Progress"))
        self.cancel_button = button(
            say("Cancel"), self.cancel, say("Stop; nothing is changed (Esc)")
        )
        for widget in (self._doing, self._bar, self.cancel_button):
            layout.addWidget(widget)
        self.hide()

    @property
    def busy(self) -> bool:
        """Whether a job is shown."""
        return self._job is not None

    def follow(self, job: Job, doing: str) -> None:
        """Show a job from now on; the one shown before is stopped."""
        if self._job is not None:
            self._job.cancel()
        self._job = job
        self._doing.setText(say(doing))
        self._bar.setValue(0)
        self.show()

    def report(self, fraction: float, doing: str) -> None:
        """How far the job is."""
        if self._job is None:
            return
        self._bar.setValue(round(100 * fraction))
        if doing:
            self._doing.setText(say(doing))

    def finish(self) -> None:
        """The job is over."""
        self._job = None
        self.hide()
        self.finished.emit()

    def cancel(self) -> bool:
        """Stop the job; True if there was one."""
        if self._job is None:
            return False
        self._job.cancel()
        self.finish()
        return True
