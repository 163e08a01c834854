"""The numbers of the pose, by class: value, error, difference to the pinned pose; never blank."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QLabel, QWidget

from viewer.geometry.pose_measures import PoseMeasures
from viewer.live.live_measures import LiveMeasures
from viewer.window.fold import Fold
from viewer.window.number_rows import COLUMNS, Cell, Row, number_rows
from viewer.window.pieces import column, rule, text_label
from viewer.words import later, say

COLUMN_WIDTHS_PX = {"A": 38, "B": 38, "unmarked": 54, "total": 46}
COLUMN_TIPS = {
    "A": later("Class A: faces always in view."),
    "B": later("Class B: faces seen in use."),
    "unmarked": later("Unmarked: hidden faces."),
    "total": later("All faces together."),
}
# Looked at more rarely: folded where the column would scroll.
MORE = (
    "cusp_mean_mm",
    "ra_ideal_um",
    "ra_estimate_um",
    "platform_contact_mm2",
    "landing_platform",
    "first_layer_mm2",
    "tip_angle_supported_deg",
    "tip_angle_worst_mm",
)


class NumberCell(QLabel):
    """One number: value, and below it in smaller letters error and difference."""

    def __init__(self, name: str, wide: bool = False) -> None:
        """`wide`: there is room for error and difference side by side."""
        super().__init__("–")
        self._wide = wide
        self.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignTop)
        self.setTextFormat(Qt.TextFormat.RichText)
        self._name = name
        self.value_text = "–"

    def show_cell(self, cell: Cell, unit: str) -> None:
        """Write the number; screen readers get it in one line with its unit."""
        self.value_text = cell.value
        small = [words for words in (cell.error, cell.difference) if words]
        if self._wide:
            small = ["&nbsp; ".join(small)] if small else []
        self.setText("<br>".join([cell.value, *(f"<small>{words}</small>" for words in small)]))
        spoken = f"{self._name}: {cell.value} {unit}"
        if cell.error:
            spoken += say(", standard error {error}", error=cell.error.removeprefix("±"))
        if cell.difference:
            spoken += say(", against the pinned pose {difference}", difference=cell.difference)
        self.setAccessibleName(spoken)

    def show_pending(self, pending: bool) -> None:
        """Quieter while the number is older than the pose."""
        self.setProperty("quiet", pending)
        self.style().unpolish(self)
        self.style().polish(self)

    def show_nothing(self) -> None:
        """No part, so no number."""
        self.value_text = "–"
        self.setText("–")
        self.setAccessibleName(say("{name}: none", name=self._name))


class NumbersPanel(QWidget):
    """All measures of the pose; old numbers are shown as pending until new ones are there."""

    def __init__(self, live_measures: LiveMeasures) -> None:
        super().__init__()
        self._measures: PoseMeasures | None = None
        self._pinned: PoseMeasures | None = None
        self._cells: dict[tuple[str, str], NumberCell] = {}
        self._names: dict[str, QLabel] = {}
        self._blocks: dict[str, QWidget] = {}
        self._body = column(gap=3)
        self._more = Fold(
            say("More numbers"), say("Surface, foot and steadiness in detail; opens with room.")
        )
        self._more.setVisible(False)
        self._state = text_label(quiet=True)
        self._notes = text_label(quiet=True)
        layout = column(margins=(10, 10, 4, 10), gap=5)
        self.setLayout(layout)
        head = QHBoxLayout()
        head.addWidget(text_label(say("Numbers"), heading=True), 1)
        self._state.setAlignment(Qt.AlignmentFlag.AlignRight)
        head.addWidget(self._state, 1)
        layout.addLayout(head)
        layout.addLayout(_heads())
        layout.addWidget(rule())
        layout.addLayout(self._body)
        layout.addWidget(self._more)
        layout.addWidget(self._notes)
        layout.addStretch(1)
        live_measures.measured.connect(self._measured)
        live_measures.pinned_measured.connect(self._pinned_measured)
        live_measures.pending.connect(self._show_pending)
        self.pending = False
        self._pinned = live_measures.pinned
        self._measured(live_measures.latest)

    def value_text(self, key: str, column_name: str = "whole") -> str:
        """The number shown for a measure and a class, as it is read on the screen."""
        return self._cells[key, column_name].value_text

    # --- what live tells
    def _measured(self, measures: PoseMeasures | None) -> None:
        self._measures = measures
        self._show()

    def _pinned_measured(self, pinned: PoseMeasures | None) -> None:
        self._pinned = pinned
        self._show()

    def _show_pending(self, pending: bool) -> None:
        if pending != self.pending:
            self.pending = pending
            for cell in self._cells.values():
                cell.show_pending(pending)
        self._say_state()
        if self._measures is None:
            self._show()

    def _say_state(self) -> None:
        if self._measures is None:
            self._state.setText(say("measuring …") if self.pending else "")
        elif self.pending:
            self._state.setText(say("≈ coarse …"))
        else:
            self._state.setText(say("✓ at rest"))
        self._state.setToolTip(
            say(
                "While the part turns the numbers come from a coarse grid; at rest they are exact "
                "or carry their standard error after ±."
            )
        )

    # --- showing
    def _show(self) -> None:
        self._say_state()
        if self._measures is None:
            for cell in self._cells.values():
                cell.show_nothing()
            waiting = (
                say("Measuring the part …")
                if self.pending
                else say("Open a part to see its numbers.")
            )
            self._notes.setText(waiting if not self._cells else "")
            return
        rows = number_rows(self._measures, self._pinned)
        if not self._cells:
            self._build(rows)
        for row in rows:
            space = "\u00a0" if row.unit == "°" else " "  # alone on a line it would be lost
            named = f"{row.name},{space}{row.unit}" if row.unit else row.name
            self._names[row.key].setText(named)
            if row.key in self._blocks:
                self._blocks[row.key].setVisible(row.shown)
            elif row.cells["whole"].value:
                self._names[row.key].setVisible(row.shown)
                self._cells[row.key, "whole"].setVisible(row.shown)
            for name, cell in row.cells.items():
                if cell.value:
                    self._cells[row.key, name].show_cell(cell, row.unit)
        self._notes.setText("\n".join(self._measures.notes))
        self._notes.setVisible(bool(self._measures.notes))
        self._more.relay()
        self._make_room()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Another size may have room for what was folded, or none any more."""
        super().resizeEvent(event)
        self._make_room()

    def _make_room(self) -> None:
        """Fold what is looked at more rarely when the column would scroll otherwise."""
        viewport = self.parentWidget()
        if viewport is not None and self._cells:
            open_px = self.layout().totalHeightForWidth(self.width())
            if not self._more.is_open:
                open_px += self._more.inner_height_px(self.width() - 14)
            self._more.set_wanted(open_px <= viewport.height())

    def _build(self, rows: tuple[Row, ...]) -> None:
        """Rows of the same kind share a grid; those of `MORE` stand in the fold."""
        whole, more = QGridLayout(), QGridLayout()
        for grid in (whole, more):
            grid.setVerticalSpacing(3)
            grid.setColumnStretch(0, 1)
        for row in rows:
            folded = row.key in MORE
            if "whole" in row.cells:
                self._build_whole(more if folded else whole, row)
            else:
                block = self._build_by_class(row)
                if folded:
                    self._more.add(block)
                else:
                    self._body.addWidget(block)
        self._body.addWidget(rule())
        self._body.addLayout(whole)
        self._more.add_layout(more)
        self._more.setVisible(True)

    def _build_by_class(self, row: Row) -> QWidget:
        block = self._blocks[row.key] = QWidget()
        grid = QGridLayout(block)
        grid.setContentsMargins(0, 0, 0, 2)
        grid.setVerticalSpacing(2)
        grid.addWidget(self._name_label(row), 0, 0, 1, len(COLUMNS))
        grid.setHorizontalSpacing(3)
        for place, name_of_class in enumerate(COLUMNS):
            cell = NumberCell(f"{row.name}, {say(name_of_class)}")
            cell.setToolTip(f"{row.explanation}\n{say(COLUMN_TIPS[name_of_class])}")
            cell.setMinimumWidth(1)
            grid.addWidget(cell, 1, place)
            grid.setColumnStretch(place, COLUMN_WIDTHS_PX[name_of_class])
            grid.setColumnMinimumWidth(place, COLUMN_WIDTHS_PX[name_of_class])
            self._cells[row.key, name_of_class] = cell
        return block

    def _name_label(self, row: Row) -> QLabel:
        name = self._names[row.key] = text_label()
        name.setToolTip(row.explanation)
        return name

    def _build_whole(self, grid: QGridLayout, row: Row) -> None:
        line = grid.rowCount()
        name = self._name_label(row)
        cell = NumberCell(row.name, wide=True)
        cell.setToolTip(row.explanation)
        grid.addWidget(name, line, 0, Qt.AlignmentFlag.AlignTop)
        grid.addWidget(cell, line, 1)
        self._cells[row.key, "whole"] = cell


def _heads() -> QGridLayout:
    heads = QGridLayout()
    heads.setHorizontalSpacing(3)
    for place, name in enumerate(COLUMNS):
        shown = say(name)
        label = QLabel(f"<small>{shown}</small>" if len(shown) > 5 else shown)
        label.setProperty("quiet", True)
        label.setAlignment(Qt.AlignmentFlag.AlignRight)
        label.setToolTip(say(COLUMN_TIPS[name]))
        label.setAccessibleName(shown)
        heads.addWidget(label, 0, place)
        heads.setColumnStretch(place, COLUMN_WIDTHS_PX[name])
        heads.setColumnMinimumWidth(place, COLUMN_WIDTHS_PX[name])
    return heads
