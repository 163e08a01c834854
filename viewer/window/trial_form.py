"""The form that a result is written down in: test piece, a row for each step, photo, note."""

import uuid
from pathlib import Path
from typing import NamedTuple

from PySide6.QtCore import QDate, QSignalBlocker, Qt, Signal
from PySide6.QtGui import QDragEnterEvent, QDropEvent, QKeySequence, QPixmap, QShortcut
from PySide6.QtWidgets import (
    QCheckBox,
    QDialog,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPlainTextEdit,
    QScrollArea,
    QWidget,
)

from viewer.errors import ShowsideError
from viewer.geometry.pose import Pose
from viewer.shop.trial_steps import PIECE_NAMES, WHAT_TO_LOOK_AT, asked_steps, usual_values
from viewer.shop.trials import KINDS, LONGEST_NOTE, Trial
from viewer.window.pieces import ChoiceBox, Fields, NumberField, button, column, text_label
from viewer.window.prompts import Prompts
from viewer.window.step_rows import StepRows
from viewer.window.trial_photo import photo_of
from viewer.words import say, written

THUMBNAIL_PX = 150


class Printed(NamedTuple):
    """With what a test piece was printed, as far as the job knows.

    values : steps by kind of piece that this job tried or is to try; usual ones otherwise
    """

    machine: str
    model: str
    support: str
    pair: str
    layer_mm: float
    pose: Pose
    job: str
    kind: str
    values: dict[str, tuple[float, ...]]


class TrialForm(QDialog):
    """written : Trial, sound and complete; the form closes itself."""

    written = Signal(object)

    def __init__(self, parent: QWidget, prompts: Prompts, printed: Printed, old: Trial | None):
        """`old` : the trial to change, None for a new one."""
        super().__init__(parent)
        self.setWindowTitle(say("Change the result") if old else say("Write down a result"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setAcceptDrops(True)
        self._prompts, self._printed, self._old = prompts, printed, old
        self._photo = old.photo if old else b""
        layout = QGridLayout(self)
        layout.setColumnStretch(1, 1)
        layout.setHorizontalSpacing(18)
        layout.addLayout(self._left(), 0, 0)
        layout.addLayout(self._right(), 0, 1)
        layout.addLayout(self._bottom(), 1, 0, 1, 2)
        layout.setRowStretch(0, 1)
        self.resize(960, 600)
        self._show_start()
        QShortcut(QKeySequence("Ctrl+Return"), self, self.write)

    # --- building
    def _left(self):
        made = column(gap=8)
        self.kind = ChoiceBox()
        for kind in KINDS:
            self.kind.addItem(say(PIECE_NAMES[kind]), kind)
        self.day = QLineEdit()
        self.layer = NumberField(
            say("Layer height"), "mm", 0.01, 5, 2, 0.05, self._typed, say("Of this print.")
        )
        self.values = QLineEdit()
        self.values.editingFinished.connect(self._show_rows)
        fields = Fields()
        for name, field, tip in (
            (say("Test piece"), self.kind, say("What was printed.")),
            (say("Day"), self.day, say("As 2026-11-26.")),
            (say("Layer height"), self.layer, say("Of this print.")),
            (say("Steps"), self.values, say("As they stand on the print, with semicolons between "
             "them, such as 30; 35; 40.")),
        ):  # fmt: skip
            field.setAccessibleName(name)
            fields.add(name, field, tip)
        self.kind.currentIndexChanged.connect(self._kind_changed)
        self.about = text_label(quiet=True)
        self.note = QPlainTextEdit()
        self.note.setTabChangesFocus(True)
        self.note.setAccessibleName(say("Note"))
        self.note.setToolTip(say("Anything worth remembering."))
        self.note.setPlaceholderText(say("Note"))
        self.note.setMinimumHeight(60)
        for piece in (fields, self.about, self.note):
            made.addWidget(piece)
        made.addLayout(self._photo_line())
        made.addStretch(1)
        return made

    def _photo_line(self) -> QHBoxLayout:
        self.thumbnail = QLabel()
        self.thumbnail.setMinimumSize(THUMBNAIL_PX, 60)
        self.thumbnail.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.thumbnail.setWordWrap(True)
        self.thumbnail.setProperty("quiet", True)
        self.photo_button = button(
            say("Photo …"), self._ask_photo,
            say("Choose a picture, or drop one here; it is kept small, and without where it was "
                "taken."),
        )  # fmt: skip
        self.no_photo = button(say("Without"), self._drop_photo, say("Leave the photo away."))
        line, buttons = QHBoxLayout(), column(gap=6)
        for made in (self.photo_button, self.no_photo):
            made.setAutoDefault(False)
            buttons.addWidget(made)
        buttons.addStretch(1)
        line.addWidget(self.thumbnail, 1)
        line.addLayout(buttons)
        return line

    def _right(self):
        made = column(gap=6)
        self.look_at = text_label(heading=True)
        self.hint = text_label(
            say("Keys 1, 2, 3 judge a step and go on to the next; 0 takes it back."), quiet=True
        )
        self.measured = QCheckBox(say("Measured values"))
        self.measured.setAccessibleName(say("Fields for measured values"))
        self.measured.setToolTip(say("Roughness Ra and height of terraces, if you measured them."))
        self.rows = StepRows(self._typed)
        self.measured.toggled.connect(self.rows.show_measured)
        area = QScrollArea()
        area.setWidgetResizable(True)
        area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        holder = QWidget()
        inner = column(margins=(0, 0, 8, 0))
        holder.setLayout(inner)
        inner.addWidget(self.rows)
        inner.addStretch(1)
        area.setWidget(holder)
        area.setFrameShape(QScrollArea.Shape.NoFrame)
        for piece in (self.look_at, self.hint, self.measured):
            made.addWidget(piece)
        made.addWidget(area, 1)
        return made

    def _bottom(self) -> QHBoxLayout:
        self.problem = text_label(heading=True)
        self.write_button = button(
            say("Write it down"), self.write, say("Keep it with the job and in the shop "
            "(Ctrl+Return)."), leading=True,
        )  # fmt: skip
        self.cancel = button(say("Cancel"), self.close, say("Write nothing down (Escape)."))
        line = QHBoxLayout()
        line.addWidget(self.problem, 1)
        for made in (self.write_button, self.cancel):
            made.setAutoDefault(False)
            line.addWidget(made)
        return line

    # --- what is shown
    def _show_start(self) -> None:
        old, printed = self._old, self._printed
        self.day.setText(old.day if old else QDate.currentDate().toString(Qt.DateFormat.ISODate))
        self.layer.show_number(old.layer_mm if old else printed.layer_mm)
        self.note.setPlainText(old.note if old else "")
        machine, pair = (old.machine, old.pair) if old else (printed.machine, printed.pair)
        self.about.setText(
            say("Printed on “{machine}” in {pair}, as the shop has them chosen.",
                machine=say(machine), pair=say(pair))
        )  # fmt: skip
        blocker = QSignalBlocker(self.kind)
        self.kind.setCurrentIndex(KINDS.index(old.kind if old else printed.kind))
        blocker.unblock()
        self._show_kind(tuple(dict.fromkeys(step.value for step in old.steps)) if old else None)
        if old:
            self.rows.show_steps(asked_steps(old.kind, self._numbers() or ()), old.steps)
            self.measured.setChecked(self.rows.has_measured())
        self._show_photo()
        self.rows.rows[0].take_focus()

    def _kind_changed(self, *_: object) -> None:
        self._show_kind(None)

    def _show_kind(self, values: tuple[float, ...] | None) -> None:
        kind = self.kind.currentData()
        if values is None:
            values = self._printed.values.get(kind) or usual_values(kind) or (0.0,)
        self.values.setText("; ".join(written(value, "g") for value in values))
        self.values.setCursorPosition(0)
        self.look_at.setText(say(WHAT_TO_LOOK_AT[kind]))
        self._show_rows()

    def _show_rows(self) -> None:
        values = self._numbers()
        if values is None:
            self.problem.setText(say("Write the steps as numbers with semicolons between them."))
            return
        self.problem.setText("")
        self.rows.show_steps(asked_steps(self.kind.currentData(), values))

    def _numbers(self) -> tuple[float, ...] | None:
        """The steps in the field, None where that is no list of numbers."""
        words = [word.strip() for word in self.values.text().split(";") if word.strip()]
        try:
            found = tuple(float(word.replace(",", ".")) for word in words)
        except ValueError:
            return None
        sound = 0 < len(found) <= 50 and all(-1000 < value < 1000 for value in found)
        return tuple(dict.fromkeys(found)) if sound else None

    def _show_photo(self) -> None:
        picture = QPixmap()
        if self._photo and picture.loadFromData(self._photo):
            self.thumbnail.setPixmap(
                picture.scaled(
                    THUMBNAIL_PX,
                    THUMBNAIL_PX,
                    Qt.AspectRatioMode.KeepAspectRatio,
                    Qt.TransformationMode.SmoothTransformation,
                )
            )
        else:
            self.thumbnail.setText(say("No photo yet: drop one here."))
        self.no_photo.setEnabled(bool(self._photo))

    # --- what the user does
    def _typed(self, *_: object) -> None:
        self.problem.setText("")

    def _ask_photo(self) -> None:
        path = self._prompts.photo_to_open()
        if path is not None:
            self.take_photo(path)

    def take_photo(self, path: Path) -> None:
        """Keep that picture with the trial."""
        try:
            self._photo = photo_of(path)
        except ShowsideError as problem:
            self.problem.setText(str(problem))
        else:
            self._typed()
        self._show_photo()

    def _drop_photo(self) -> None:
        self._photo = b""
        self._show_photo()

    def write(self) -> None:
        """Tell of the trial, if it is one; otherwise say what is missing."""
        self._show_rows()
        if self._numbers() is None:
            return
        try:
            made = self._trial()
        except ShowsideError as problem:
            self.problem.setText(str(problem))
            return
        self.written.emit(made)
        self.close()

    def _trial(self) -> Trial:
        old, printed = self._old, self._printed
        named = (
            {name: getattr(old, name) for name in ("key", "machine", "model", "support", "pair",
                                                   "up", "spin_deg", "job")}
            if old
            else {
                "key": uuid.uuid4().hex, "machine": printed.machine, "model": printed.model,
                "support": printed.support, "pair": printed.pair, "up": printed.pose.up,
                "spin_deg": printed.pose.spin_deg, "job": printed.job,
            }
        )  # fmt: skip
        return Trial(
            **named, day=self.day.text().strip(), kind=self.kind.currentData(),
            layer_mm=self.layer.value(), steps=self.rows.results(),
            note=self.note.toPlainText().strip()[:LONGEST_NOTE], photo=self._photo,
        )  # fmt: skip

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        """Take files only."""
        if any(url.isLocalFile() for url in event.mimeData().urls()):
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        """The first file dropped is the photo."""
        paths = [Path(url.toLocalFile()) for url in event.mimeData().urls() if url.isLocalFile()]
        if paths:
            event.acceptProposedAction()
            self.take_photo(paths[0])
