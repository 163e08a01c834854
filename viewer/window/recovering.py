"""Offers the unsaved work of a window that came to a sudden end, in a bar over the scene."""

from functools import partial
from pathlib import Path
from typing import Protocol

from PySide6.QtCore import QDateTime, QLocale, QObject
from PySide6.QtWidgets import QFrame, QHBoxLayout, QSizePolicy

from viewer.files.recovery import Lost, throw_away
from viewer.window.file_work import FileWork
from viewer.window.job_keeper import JobKeeper
from viewer.window.notice_bar import NoticeBar
from viewer.window.pieces import bar_label, button
from viewer.window.safe_keeping import SafeKeeping
from viewer.window.verbs import Verbs, plain
from viewer.words import later, say

THROW_AWAY = later("Throw it away")
REALLY = later("Really throw it away")


class RecoveringWindow(Protocol):
    """What is needed of the window."""

    safety: SafeKeeping
    files: FileWork
    keeper: JobKeeper
    notice: NoticeBar


class RecoveryBar(QFrame):
    """One sentence with its three answers."""

    def __init__(self) -> None:
        super().__init__()
        self.setProperty("notice", True)
        self.setAccessibleName(say("Unsaved work"))
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(12, 6, 8, 6)
        self.sentence = bar_label()
        layout.addWidget(self.sentence, 1)
        self.open = button(
            say("Open it"), lambda: None, say("Open the work as it was kept aside last"), True
        )
        self.throw = button(THROW_AWAY, lambda: None, say("Remove this unsaved work for good"))
        self.wait = button(
            say("Later"), self.hide, say("Keep it; File > Recover unsaved work offers it again")
        )
        for answer in (self.open, self.throw, self.wait):
            layout.addWidget(answer)
        self.hide()


class Recovering(QObject):
    """Looks for such work and does with it what the user says."""

    def __init__(self, window: RecoveringWindow) -> None:
        super().__init__(window)
        self._window = window
        self._waiting: list[Lost] = []
        self._asked = False
        self.bar = RecoveryBar()
        self.bar.open.clicked.connect(self._open)
        self.bar.throw.clicked.connect(self._throw)
        window.safety.found.connect(self._found)
        window.files.recovered.connect(self._recovered)

    def verbs(self) -> Verbs:
        """What the File menu does."""
        return {"recover": plain(self._look)}

    def _look(self) -> None:
        self._asked = True
        self._window.safety.look_for_lost()

    def _found(self, found: list[Lost]) -> None:
        asked, self._asked = self._asked, False
        self._waiting = found
        self._show()
        if asked and not found:
            self._window.notice.say(say("There is no unsaved work to recover."))

    def _show(self) -> None:
        self.bar.setVisible(bool(self._waiting))
        self.bar.throw.setText(say(THROW_AWAY))
        if self._waiting:
            sentence = lost_sentence(self._waiting[0], len(self._waiting))
            self.bar.sentence.setText(sentence)
            self.bar.setAccessibleDescription(sentence)

    def _open(self) -> None:
        lost = self._waiting[0]
        self._window.keeper.when_settled(partial(self._window.files.recover, lost))

    def _recovered(self, lost: Lost) -> None:
        self._window.safety.adopt(lost)
        self._drop(lost)

    def _throw(self) -> None:
        if self.bar.throw.text() != say(REALLY):  # nothing brings it back, so it is asked twice
            self.bar.throw.setText(say(REALLY))
            return
        lost = self._waiting[0]
        throw_away(lost)
        self._drop(lost)

    def _drop(self, lost: Lost) -> None:
        self._waiting = [other for other in self._waiting if other is not lost]
        self._show()


def lost_sentence(lost: Lost, count: int) -> str:
    """What was lost, when and from which file, in plain words."""
    when = QLocale().toString(
        QDateTime.fromSecsSinceEpoch(round(lost.kept_s)), QLocale.FormatType.ShortFormat
    )
    name = lost.part_name or "?"
    if lost.source is None:
        words = say(
            "Showside came to a sudden end. Unsaved work on “{name}” was kept, last on {when}.",
            name=name,
            when=when,
        )
    else:
        words = say(
            "Showside came to a sudden end. Unsaved work on “{name}” from {source} was kept, last "
            "on {when}.",
            name=name,
            source=lost.source,
            when=when,
        )
    if _saved_since(lost.job_path, lost.kept_s):
        words += " " + say("That job was saved since, so look before you save over it.")
    if count > 1:
        words += " " + say("There are {count} such works; this is the latest.", count=count)
    return words


def _saved_since(job_path: Path | None, kept_s: float) -> bool:
    try:
        return job_path is not None and job_path.stat().st_mtime > kept_s
    except OSError:
        return False
