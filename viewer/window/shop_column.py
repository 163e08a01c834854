"""The fold "Shop" below the numbers: its head always shows time and cost, inside is the rest."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QAction, QResizeEvent
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QLabel, QSizePolicy, QToolButton, QWidget

from viewer.document.document import Document
from viewer.live.live_measures import LiveMeasures
from viewer.live.live_shop import LiveShop
from viewer.shop.copies import CopiesPlan
from viewer.shop.job_numbers import JobNumbers
from viewer.window.document_signals import DocumentSignals
from viewer.window.number_rows import Cell
from viewer.window.panels.numbers_panel import NumberCell
from viewer.window.pieces import ActionButton, column, rule, text_label
from viewer.window.risk_box import RiskBox
from viewer.window.shop_chooser import ShopChooser
from viewer.window.shop_rows import price_texts, shop_rows
from viewer.window.shop_words import (
    caution_lines,
    fit_sentences,
    pair_sentences,
    room_sentence,
)
from viewer.window.side_panels import ColumnScroll
from viewer.words import later, say

HEAD_TIP = later("What this pose takes on the chosen machine; a click shows the rest.")


class RangeCell(NumberCell):
    """A number whose small letters are its range from low to high."""

    def show_cell(self, cell: Cell, unit: str) -> None:
        """Write the number; screen readers get it in one line with its unit and its range."""
        super().show_cell(cell, unit)
        spoken = f"{self._name}: {cell.value} {unit}".strip()
        if cell.error:
            spoken += f", {cell.error}"
        if cell.difference:
            spoken += say(", against the pinned pose {difference}", difference=cell.difference)
        self.setAccessibleName(spoken)


class ShopColumn(QWidget):
    """opened_changed : the fold was opened or closed by hand."""

    opened_changed = Signal(bool)

    def __init__(
        self,
        document: Document,
        signals: DocumentSignals,
        live_measures: LiveMeasures,
        live_shop: LiveShop,
        actions: dict[str, QAction],
    ) -> None:
        super().__init__()
        self._live = live_shop
        self._names: dict[str, QLabel] = {}
        self._cells: dict[str, RangeCell] = {}
        self._prices: tuple[str, ...] = ("–",)
        layout = column()
        layout.setSpacing(0)
        self.setLayout(layout)
        layout.addWidget(rule())
        self.head, self.price = QToolButton(), QLabel()
        layout.addLayout(self._head_line())
        self.chooser = ShopChooser(document, signals)
        inside = self._inside(actions)
        self.scroll = ColumnScroll(inside)
        layout.addWidget(self.scroll, 1)
        self.head.toggled.connect(self._show_opened)
        self._show_opened(False)
        live_shop.told.connect(self._show)
        live_shop.pinned_told.connect(self._show)
        live_shop.shop_changed.connect(self._shop_changed)
        live_measures.pending.connect(self._show_pending)
        self._shop_changed()
        self._show()

    @property
    def is_open(self) -> bool:
        """Whether all of it is shown."""
        return self.head.isChecked()

    def set_open(self, wanted: bool) -> None:
        """Open or close the fold."""
        self.head.setChecked(wanted)

    def show_plan(self, plan: CopiesPlan | None, outside: list[str]) -> None:
        """How many copies find room, whether those that are wanted do, and what sticks out."""
        self.chooser.show_room("" if plan is None else room_sentence(plan))
        self._outside.setText("\n".join(outside))
        self._outside.setVisible(bool(outside))

    def value_text(self, key: str) -> str:
        """The number shown in a row, as it is read on the screen."""
        return self._cells[key].value_text

    # --- building
    def _head_line(self) -> QHBoxLayout:
        self.head.setText(say("Shop"))
        self.head.setToolTip(say(HEAD_TIP))
        self.head.setCheckable(True)
        self.head.setProperty("fold", True)
        self.head.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        self.price.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self.price.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        line = QHBoxLayout()
        line.setContentsMargins(6, 4, 10, 4)
        line.setSpacing(4)
        line.addWidget(self.head)
        line.addWidget(self.price, 1)
        return line

    def _inside(self, actions: dict[str, QAction]) -> QWidget:
        inside = QWidget()
        layout = column(margins=(10, 2, 4, 10), gap=5)
        inside.setLayout(layout)
        self._grid = QGridLayout()
        self._grid.setVerticalSpacing(3)
        self._grid.setColumnStretch(0, 1)
        self._fit, self._dominates = text_label(), text_label(quiet=True)
        self._outside = text_label()
        self._outside.setToolTip(say("Outlined and hatched in the scene (M)."))
        self._outside.hide()
        self.risks, self._pair = RiskBox(), text_label()
        self._cautions, self._problems = text_label(), text_label()
        self._fit.setToolTip(
            say("Whether part and supports lie within what each nozzle reaches, at some place.")
        )
        self._turn = ActionButton(actions["turn_to_fit"], say("Turn to fit"))
        layout.addWidget(self.chooser)
        layout.addLayout(self._grid)
        layout.addWidget(self._dominates)
        layout.addWidget(self._fit)
        layout.addWidget(self._outside)
        layout.addWidget(self._turn)
        self._headed: list[tuple[QLabel, QWidget]] = []
        for title, body in (
            (say("Risks"), self.risks),
            (say("What is known of the pair"), self._pair),
            (say("Cautions"), self._cautions),
            (say("Left aside"), self._problems),
        ):
            heading = text_label(title, heading=True)
            self._headed.append((heading, body))
            layout.addWidget(heading)
            layout.addWidget(body)
        self._headed[0][0].setToolTip(
            say("What may go wrong in this pose; limits are common practice.")
        )
        layout.addWidget(rule())
        for key in ("shop_things", "compare_machines", "finished_prints"):
            layout.addWidget(ActionButton(actions[key]))
        layout.addStretch(1)
        return inside

    # --- opening
    def _show_opened(self, opened: bool) -> None:
        self.head.setArrowType(Qt.ArrowType.DownArrow if opened else Qt.ArrowType.RightArrow)
        self.scroll.setVisible(opened)
        self.opened_changed.emit(opened)
        self._name_head()

    def _name_head(self) -> None:
        state = say("open") if self.is_open else say("closed")
        self.head.setAccessibleName(f"{self.head.text()}, {self._prices[0]}, {state}")

    def resizeEvent(self, event: QResizeEvent) -> None:
        """The longest words for time and cost that have room."""
        super().resizeEvent(event)
        self._show_price()

    def _show_price(self) -> None:
        room = self.width() - self.head.sizeHint().width() - 20
        metrics = self.price.fontMetrics()
        fitting = (text for text in self._prices if metrics.horizontalAdvance(text) <= room)
        self.price.setText(next(fitting, self._prices[-1]))

    # --- what live tells
    def _shop_changed(self, _shop: object = None) -> None:
        self.chooser.show_shop(self._live.shop)

    def _show_pending(self, pending: bool) -> None:
        for label in (self.price, *self._cells.values()):
            label.setProperty("quiet", pending)
            label.style().unpolish(label)
            label.style().polish(label)

    def _show(self, _numbers: JobNumbers | None = None) -> None:
        numbers = self._live.latest
        self._prices = price_texts(numbers)
        self.price.setToolTip(self._price_tip(numbers))
        self.price.setAccessibleName(self._prices[0])
        self._name_head()
        self._show_price()
        if numbers is None:
            for cell in self._cells.values():
                cell.show_nothing()
            if not self._cells:
                self._turn.hide()
                for pair in self._headed:
                    for label in pair:
                        label.hide()
            return
        self._show_rows(numbers)
        fit = numbers.fits[numbers.chosen.machine.name]
        self._turn.setVisible(fit.fits and bool(fit.why))
        for label, text in (
            (self._dominates, numbers.estimate.dominates if numbers.estimate else numbers.problem),
            (self._fit, "\n".join(fit_sentences(numbers))),
            (self._pair, "\n".join(pair_sentences(numbers.chosen.pair))),
            (self._cautions, "\n".join(caution_lines(numbers.cautions))),
            (self._problems, "\n".join(numbers.shop_problems)),
        ):
            label.setText(text)
        self.risks.show_risks(numbers.risks)
        for heading, body in self._headed:
            told = bool(numbers.risks) if body is self.risks else bool(body.text())
            heading.setVisible(told)
            body.setVisible(told)

    def _price_tip(self, numbers: JobNumbers | None) -> str:
        if numbers is None:
            return say("Known when the part lies still and is measured.")
        fit = numbers.fits[numbers.chosen.machine.name]
        said = (numbers.problem, fit.why, numbers.estimate and numbers.estimate.dominates)
        return "\n".join(text for text in said if text)

    def _show_rows(self, numbers: JobNumbers) -> None:
        rows = {row.key: row for row in shop_rows(numbers, self._live.pinned)}
        for row in rows.values():
            if row.key not in self._cells:
                self._add_row(row.key, row.name)
            name, cell = self._names[row.key], self._cells[row.key]
            name.setText(f"{row.name}, {row.unit}" if row.unit else row.name)
            for label in (name, cell):
                label.setToolTip(row.explanation)
            cell.show_cell(row.cells["whole"], row.unit)
        for key, cell in self._cells.items():
            shown = key in rows and rows[key].shown
            cell.setVisible(shown)
            self._names[key].setVisible(shown)

    def _add_row(self, key: str, name: str) -> None:
        line = self._grid.rowCount()
        label = self._names[key] = text_label()
        cell = self._cells[key] = RangeCell(name, wide=True)
        self._grid.addWidget(label, line, 0, Qt.AlignmentFlag.AlignTop)
        self._grid.addWidget(cell, line, 1)
