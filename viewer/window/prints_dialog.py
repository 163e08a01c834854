"""Finished prints: what they really took, which corrects the estimates and narrows the range."""

import numpy as np
from PySide6.QtCore import QDate, Qt, Signal
from PySide6.QtWidgets import (
    QAbstractItemView,
    QDialog,
    QGridLayout,
    QHBoxLayout,
    QHeaderView,
    QLineEdit,
    QTableWidget,
    QTableWidgetItem,
    QWidget,
)

from viewer.document.document import Document
from viewer.errors import ShowsideError
from viewer.files.shop_folder import note_finished_print, write_finished_prints
from viewer.live.live_shop import LiveShop
from viewer.shop.calibrate import FinishedPrint, calibrate_prints, finished_print
from viewer.window.calibration_chart import CalibrationChart
from viewer.window.pieces import ChoiceBox, Fields, NumberField, button, column, text_label
from viewer.window.quantities import number_text
from viewer.window.shop_rows import duration_text
from viewer.words import later, say

HEADS = (
    later("Day"), later("Job"), later("Machine"), later("Pair"), later("Estimated"),
    later("Real"), later("Estimated, g"), later("Real, g"),
)  # fmt: skip


class PrintsDialog(QDialog):
    """noted : the list of finished prints is another one."""

    noted = Signal()

    def __init__(self, parent: QWidget, document: Document, live: LiveShop) -> None:
        super().__init__(parent)
        self.setWindowTitle(say("Finished prints"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.resize(980, 660)
        self._document, self._live = document, live
        self._before: tuple[FinishedPrint, ...] | None = None
        layout = QGridLayout(self)
        layout.setColumnStretch(0, 1)
        layout.addLayout(self._entry(), 0, 0)
        layout.addLayout(self._fit(), 0, 1)
        layout.addLayout(self._list(), 1, 0, 1, 2)
        layout.setRowStretch(1, 1)
        live.told.connect(self._show_estimate)
        live.shop_changed.connect(self._show_prints)
        self._show_estimate()
        self._show_prints()

    # --- building
    def _entry(self):
        made = column(gap=6)
        made.addWidget(text_label(say("Note a finished print"), heading=True))
        self.estimate = text_label(quiet=True)
        self.estimate.setToolTip(say("What was estimated, before finished prints corrected it."))
        self.job, self.day = QLineEdit(), QLineEdit()
        self.job.setAccessibleName(say("Job"))
        self.day.setAccessibleName(say("Day"))
        self.hours = NumberField(
            say("Real hours"), "h", 0, 10_000, 0, 1, self._typed, say("Of the whole print.")
        )
        self.minutes = NumberField(
            say("and minutes"), "min", 0, 59, 0, 1, self._typed, say("Beyond the whole hours.")
        )
        self.mass = NumberField(
            say("Real mass"), "g", 0, 1e6, 1, 1, self._typed,
            say("Of everything fed: part, supports, purge. 0 where it was not weighed."),
        )  # fmt: skip
        fields = Fields()
        for name, field in (
            (say("Job"), self.job), (say("Day"), self.day), (say("Real hours"), self.hours),
            (say("and minutes"), self.minutes), (say("Real mass"), self.mass),
        ):  # fmt: skip
            fields.add(name, field, field.toolTip())
        self.problem = text_label(heading=True)
        self.note = button(say("Note it"), self._note, say("Add it to the list"), leading=True)
        self.note.setAutoDefault(False)
        for piece in (self.estimate, fields, self.problem, self.note):
            made.addWidget(piece)
        made.addStretch(1)
        return made

    def _fit(self):
        made = column(gap=6)
        self.what, self.chart, self.told = ChoiceBox(), CalibrationChart(), text_label()
        self.what.setAccessibleName(say("What the chart shows"))
        self.what.setToolTip(say("What the chart shows"))
        for title in (say("Time of this machine"), say("Mass of this machine")):
            self.what.addItem(title)
        self.what.currentIndexChanged.connect(self._show_fit)
        self.told.setToolTip(say("By regression on the logarithms, from the prints of it alone."))
        for piece in (self.what, self.chart, self.told):
            made.addWidget(piece)
        return made

    def _list(self):
        made = column(gap=6)
        self.rows = QTableWidget(0, len(HEADS))
        self.rows.setAccessibleName(say("Finished prints"))
        self.rows.setHorizontalHeaderLabels([say(head) for head in HEADS])
        self.rows.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.rows.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.rows.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.rows.setTabKeyNavigation(False)
        self.rows.verticalHeader().hide()
        self.rows.horizontalHeader().setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        self.rows.itemSelectionChanged.connect(self._show_buttons)
        self.remove = button(say("Remove"), self._remove, say("Take the chosen print off the list"))
        self.back = button(say("Bring back"), self._bring_back, say("Undo the removal"))
        self.close_button = button(say("Close"), self.close)
        line = QHBoxLayout()
        for piece in (self.remove, self.back):
            line.addWidget(piece)
        line.addStretch(1)
        line.addWidget(self.close_button)
        for piece in (self.remove, self.back, self.close_button):
            piece.setAutoDefault(False)
        made.addWidget(self.rows, 1)
        made.addLayout(line)
        return made

    # --- what is shown
    def _show_estimate(self, *_: object) -> None:
        numbers = self._live.latest
        made = numbers.estimate if numbers is not None else None
        if made is None:
            self.estimate.setText(say("Nothing is estimated now: open the part of the print."))
        else:
            self.estimate.setText(
                say(
                    "On “{machine}” in {pair}, {copies} at once: {time} and {grams} g, "
                    "before correction.",
                    machine=say(made.machine), pair=say(made.pair), copies=made.copies,
                    time=duration_text(made.estimated_s), grams=number_text(made.estimated_g),
                )
            )  # fmt: skip
        part = self._document.state.part
        if not self.job.isModified():
            self.job.setText(part.name if part is not None else "")
        if not self.day.isModified():
            self.day.setText(QDate.currentDate().toString(Qt.DateFormat.ISODate))
        self.note.setEnabled(made is not None)
        self._show_fit()

    def _show_prints(self, *_: object) -> None:
        self.rows.setRowCount(len(self._live.prints))
        for down, each in enumerate(self._live.prints):
            grams = (number_text(g) if g else "–" for g in (each.estimated_g, each.mass_g))
            times = (duration_text(s) if s else "–" for s in (each.estimated_s, each.time_s))
            cells = (each.day, each.job, say(each.machine), say(each.pair), *times, *grams)
            for across, text in enumerate(cells):
                self.rows.setItem(down, across, QTableWidgetItem(text))
        self._show_buttons()
        self._show_fit()

    def _show_buttons(self) -> None:
        self.remove.setEnabled(self.rows.currentRow() >= 0 and self.rows.rowCount() > 0)
        self.back.setEnabled(self._before is not None)

    def _show_fit(self, *_: object) -> None:
        numbers = self._live.latest
        machine = numbers.chosen.machine.name if numbers is not None else ""
        known = calibrate_prints(self._live.prints, machine)
        own = [p for p in self._live.prints if not machine or p.machine == machine]
        if self.what.currentIndex() == 0:
            calibration, unit = known.time, "h"
            pairs = [(p.estimated_s / 3600, p.time_s / 3600) for p in own if p.time_s]
            now = numbers.estimate.estimated_s if numbers and numbers.estimate else 0.0
        else:
            calibration, unit = known.mass, "g"
            pairs = [(p.estimated_g, p.mass_g) for p in own if p.mass_g]
            now = numbers.estimate.estimated_g if numbers and numbers.estimate else 0.0
        pairs = [(a, b) for a, b in pairs if a > 0 and b > 0]
        estimated, real = np.array(pairs, float).reshape(-1, 2).T
        scale = 3600.0 if unit == "h" else 1.0
        self.chart.show_prints(estimated, real, calibration, unit, scale)
        self.told.setText(_factor_sentence(calibration, now or calibration.middle))

    # --- what the user does
    def _typed(self, _value: float) -> None:
        self.problem.setText("")

    def _note(self) -> None:
        numbers = self._live.latest
        if numbers is None or numbers.estimate is None:
            return
        seconds = 3600.0 * self.hours.value() + 60.0 * self.minutes.value()
        words = {"job": self.job.text().strip(), "day": self.day.text().strip()}
        if self._try(
            lambda: note_finished_print(
                finished_print(numbers.estimate, seconds, self.mass.value(), **words)
            )
        ):
            for field in (self.hours, self.minutes, self.mass):
                field.setValue(0)
            self._changed()

    def _remove(self) -> None:
        prints, row = self._live.prints, self.rows.currentRow()
        if not 0 <= row < len(prints):
            return
        if self._try(lambda: write_finished_prints((*prints[:row], *prints[row + 1 :]))):
            self._before = prints
            self._changed()

    def _bring_back(self) -> None:
        before = self._before
        if before is not None and self._try(lambda: write_finished_prints(before)):
            self._before = None
            self._changed()

    def _changed(self) -> None:
        self.noted.emit()
        self._show_buttons()

    def _try(self, step) -> bool:
        try:
            step()
        except ShowsideError as problem:
            self.problem.setText(str(problem))
            return False
        self.problem.setText("")
        return True


def _factor_sentence(calibration, at: float) -> str:
    if not calibration.prints:
        return say("No finished print of this machine yet: the range is that of the assumptions.")
    low, likely, high = calibration.factor(at)
    return say(
        "A print of this size takes {likely:.2f} times the estimate, {low:.2f} to {high:.2f} in "
        "nine of ten; told by {count} prints.",
        likely=likely, low=low, high=high, count=calibration.prints,
    )  # fmt: skip
