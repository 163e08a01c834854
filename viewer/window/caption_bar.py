"""What the client reads in presentation mode, large: part, pose, the few numbers that matter."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QVBoxLayout, QWidget

from viewer.document.document import Document
from viewer.document.kept_poses import place_of
from viewer.document.state import State
from viewer.geometry.pose import Pose
from viewer.geometry.pose_measures import PoseMeasures
from viewer.live.live_measures import LiveMeasures
from viewer.window.document_signals import DocumentSignals
from viewer.window.number_rows import Cell, Row, number_rows
from viewer.window.turn_angles import typed_angles_deg
from viewer.words import say

# What the numbers panel shows first; by class where faces are marked.
BY_CLASS = (("touch_area_mm2", "A"), ("touch_area_mm2", "B"), ("landing_area_mm2", "A"))
TOGETHER = (("touch_area_mm2", "total"), ("landing_area_mm2", "total"))
ALWAYS = (("support_volume_mm3", "whole"),)
MOST_NUMBERS = len(BY_CLASS) + len(ALWAYS)


class CaptionBar(QFrame):
    """Shown only while presenting; follows the document by itself."""

    def __init__(
        self, document: Document, signals: DocumentSignals, live_measures: LiveMeasures
    ) -> None:
        super().__init__()
        self._document, self._live = document, live_measures
        self.setProperty("caption", True)
        self.setAccessibleName(say("Part, pose and numbers"))
        layout = QHBoxLayout(self)
        layout.setContentsMargins(24, 10, 24, 12)
        layout.setSpacing(28)
        words = QVBoxLayout()
        words.setSpacing(2)
        self.part, self.pose = _label("part"), _label("pose")
        words.addWidget(self.part)
        words.addWidget(self.pose)
        layout.addLayout(words, 1)
        self.numbers = [BigNumber() for _ in range(MOST_NUMBERS)]
        for number in self.numbers:
            layout.addWidget(number)
        signals.changed.connect(self._show_words)
        live_measures.measured.connect(self._show_numbers)
        live_measures.pinned_measured.connect(self._show_numbers)
        live_measures.pending.connect(self._show_pending)
        self.hide()

    def showEvent(self, event: object) -> None:
        """Nothing is worked out while it is hidden."""
        super().showEvent(event)
        self._show_words()
        self._show_numbers()

    def _show_words(self, *_: object) -> None:
        if not self.isVisible():
            return
        state = self._document.state
        self.part.setText("" if state.part is None else state.part.name)
        self.pose.setText(pose_words(state))

    def _show_numbers(self, *_: object) -> None:
        if not self.isVisible():
            return
        measures = self._live.latest
        chosen: list[tuple[Row, str]] = []
        if measures is not None:
            rows = {row.key: row for row in number_rows(measures, self._live.pinned)}
            chosen = [(rows[key], column) for key, column in key_columns(self._document.state)]
        for place, number in enumerate(self.numbers):
            number.setVisible(place < len(chosen))
            if place < len(chosen):
                row, column = chosen[place]
                number.show_cell(_title(row, column), row.unit, row.cells[column])
                number.setToolTip(row.explanation)

    def _show_pending(self, pending: bool) -> None:
        if self.isVisible():
            for number in self.numbers:
                number.show_pending(pending)


class BigNumber(QWidget):
    """Title, value with unit, error and difference under one another."""

    def __init__(self) -> None:
        super().__init__()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        self.title, self.value, self.small = _label("title"), _label("value"), _label("small")
        for label in (self.title, self.value, self.small):
            label.setAlignment(Qt.AlignmentFlag.AlignRight)
            layout.addWidget(label)

    def show_cell(self, title: str, unit: str, cell: Cell) -> None:
        """Write the number; screen readers get it in one line."""
        error = f"± {cell.error.removeprefix('±')}" if cell.error else ""
        difference = (
            say("{difference} to the pinned", difference=cell.difference) if cell.difference else ""
        )
        self.title.setText(title)
        self.value.setText(f"{cell.value} {unit}".strip())
        self.small.setText("   ".join(words for words in (error, difference) if words) or " ")
        self.setAccessibleName(f"{title}: {self.value.text()} {self.small.text()}".strip())

    def show_pending(self, pending: bool) -> None:
        """Quieter while the number is older than the pose."""
        self.value.setProperty("quiet", pending)
        self.value.style().unpolish(self.value)
        self.value.style().polish(self.value)


def pose_words(state: State) -> str:
    """Number and name of a kept pose; how any other lies."""
    kept = state.kept_poses
    place = place_of(kept, state.pose)
    if place is not None:
        own, number = kept[place].name, say("Pose {place}", place=place + 1)
        count = say("{number} of {kept}", number=number, kept=len(kept))
        return count if own == number else f"{count}: {own}"
    if state.part is None:
        return ""
    if state.pose == Pose():
        return say("As in the file")
    x, y, z = (f"{angle:.0f}°".replace("-", "−") for angle in typed_angles_deg(state.pose))
    return say("Tilted {x} and {y}, spun {z}", x=x, y=y, z=z)


def key_columns(state: State) -> tuple[tuple[str, str], ...]:
    """The few numbers that matter: measure and class."""
    return (*(BY_CLASS if state.face_classes.any() else TOGETHER), *ALWAYS)


def key_numbers(state: State, measures: PoseMeasures | None) -> list[tuple[str, str]]:
    """Title and value with its unit of each number that matters; [] before it is measured."""
    if measures is None:
        return []
    rows = {row.key: row for row in number_rows(measures, None)}
    return [
        (_title(rows[key], column), f"{rows[key].cells[column].value} {rows[key].unit}".strip())
        for key, column in key_columns(state)
    ]


def _title(row: Row, column: str) -> str:
    return (
        say("{name}, class {column}", name=row.name, column=column)
        if column in ("A", "B")
        else row.name
    )


def _label(role: str) -> QLabel:
    label = QLabel()
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setProperty("caption_role", role)
    return label
