"""The best poses found: each with its sentence and how sure it is; go there, keep."""

from typing import NamedTuple

from PySide6.QtCore import QEvent, QSignalBlocker, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QHBoxLayout, QListWidget, QListWidgetItem, QWidget

from viewer.window.pieces import button, column, text_label
from viewer.words import later, say

GO_KEYS = (Qt.Key.Key_Return, Qt.Key.Key_Enter)
TICK_KEY = Qt.Key.Key_Space
LEAST_LINES, ROOMY_LINES = 5, 20
TIP = later(
    "Click or Return: lay the part like this. Box or Space: tick it, to compare or keep several."
)


class Result(NamedTuple):
    """One row: what it reads, whether the part lies so now, whether it is kept, and ticked."""

    text: str
    here: bool
    kept: bool
    ticked: bool = False


class ResultsBox(QWidget):
    """gone_to : lay the part like a result (its place from 0); ticked : or no longer (place, on)
    kept : put some (their places) on the list of kept poses; compared : the ticked side by side
    """

    gone_to = Signal(int)
    ticked = Signal(int, bool)
    kept = Signal(list)
    compared = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.setLayout(column(margins=(2, 6, 2, 2), gap=6))
        self.state = text_label(quiet=True)
        self.rows = ResultList(self)
        self.bound = text_label(quiet=True)
        self.keep_button = button(
            say("Keep"), self.keep, say("Put the ticked results, or the chosen one, on the list of "
                                        "kept poses"),
        )  # fmt: skip
        self.compare_button = button(
            say("Compare"), self.compared.emit, say("Show the ticked results side by side")
        )
        self.buttons = QHBoxLayout()
        self.buttons.setSpacing(6)
        self.buttons.addWidget(self.keep_button)
        self.buttons.addWidget(self.compare_button)
        self.layout().addWidget(self.state)
        self.layout().addWidget(self.rows, 1)
        self.layout().addWidget(self.bound)
        self.layout().addLayout(self.buttons)
        self.spin_words = text_label(quiet=True)
        self.layout().addWidget(self.spin_words)
        self.rows.itemPressed.connect(self._pressed)
        self.rows.itemClicked.connect(self._clicked)
        self.rows.itemChanged.connect(self._tick)
        self.rows.currentRowChanged.connect(self._follow)
        self._results: list[Result] = []
        self._just_ticked = False
        self._follow()

    def show_results(self, results: list[Result], state: str, bound: str) -> None:
        """List other results; the chosen row stays at its place."""
        self._results = results
        blocker = QSignalBlocker(self.rows)
        self.rows.show_results(results)
        here = next((k for k, result in enumerate(results) if result.here), None)
        if here is not None:
            self.rows.setCurrentRow(here)
        blocker.unblock()
        for label, words in ((self.state, state), (self.bound, bound)):
            label.setText(words)
            label.setVisible(bool(words))
        self._follow()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Where there is little room, the rows get it; the choice of the spin says it as a tip."""
        super().resizeEvent(event)
        self.spin_words.setVisible(self.height() >= ROOMY_LINES * self.fontMetrics().lineSpacing())

    def _pressed(self, *_: object) -> None:
        self._just_ticked = False

    def _clicked(self, item: QListWidgetItem) -> None:
        """A click on the box of a row ticks it and goes nowhere."""
        if not self._just_ticked:
            self.go_to(self.rows.row(item))

    def _tick(self, item: QListWidgetItem) -> None:
        self._just_ticked = True
        self.ticked.emit(self.rows.row(item), item.checkState() is Qt.CheckState.Checked)

    def go_to(self, place: int) -> None:
        """Ask for a result."""
        if 0 <= place < len(self._results):
            self.gone_to.emit(place)

    def to_keep(self) -> list[int]:
        """Places of what would be kept: the ticked results or else the chosen one."""
        ticked = [place for place, result in enumerate(self._results) if result.ticked]
        here = self.rows.currentRow()
        chosen = ticked or ([here] if 0 <= here < len(self._results) else [])
        return [place for place in chosen if not self._results[place].kept]

    def keep(self) -> None:
        """Ask to keep them."""
        if self.to_keep():
            self.kept.emit(self.to_keep())

    def _follow(self, *_: object) -> None:
        self.keep_button.setEnabled(bool(self.to_keep()))
        self.compare_button.setEnabled(any(result.ticked for result in self._results))


class ResultList(QListWidget):
    """Rows of wrapped text; Return goes there, arrows only move the choice."""

    def __init__(self, box: ResultsBox) -> None:
        super().__init__()
        self._box = box
        self.setAccessibleName(say("Best directions"))
        self.setToolTip(say(TIP))
        self.setWordWrap(True)
        self.setMinimumHeight(LEAST_LINES * self.fontMetrics().lineSpacing())
        self.setResizeMode(QListWidget.ResizeMode.Adjust)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)

    def sizeHint(self) -> QSize:
        """As low as may be: it takes what the page has to spare."""
        return QSize(super().sizeHint().width(), self.minimumHeight())

    def show_results(self, results: list[Result]) -> None:
        """Write the rows anew; places stay."""
        while self.count() > len(results):
            self.takeItem(self.count() - 1)
        for place, result in enumerate(results):
            if place == self.count():
                item = QListWidgetItem()
                item.setFlags(item.flags() | Qt.ItemFlag.ItemIsUserCheckable)
                self.addItem(item)
            item, ticked = self.item(place), Qt.CheckState.Checked
            if item.text() != result.text:
                item.setText(result.text)
            item.setCheckState(ticked if result.ticked else Qt.CheckState.Unchecked)

    def event(self, event: QEvent) -> bool:
        """Keep the keys of the rows from the shortcuts of the same name while the list has them."""
        if event.type() == QEvent.Type.ShortcutOverride and event.key() in (*GO_KEYS, TICK_KEY):
            event.accept()
            return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Return goes to the row, Space ticks it."""
        if event.key() in GO_KEYS:
            self._box.go_to(self.currentRow())
        else:
            super().keyPressEvent(event)

    def keyboardSearch(self, search: str) -> None:
        """Letters are shortcuts of the window, not a search in these few sentences."""
