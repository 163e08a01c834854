"""The table under the panes: a row for each number, a column for each pose; read-only."""

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QFont, QFontMetrics, QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableWidget, QTableWidgetItem

from viewer.window.compare_rows import CompareCell, CompareRow, Size
from viewer.words import say

NAME_SHARE, CELL_ROOM_PX = 0.34, 26  # of the width, for names; edges of a cell
SHOWN_ROWS, LARGE_ROWS = 7, 4
ROW_PX, LARGE_ROW_PX = 22, 38


class CompareTable(QTableWidget):
    """Shows `CompareRow`s; `large` for people who sit farther away."""

    def __init__(self) -> None:
        super().__init__()
        self._large, self._size = False, Size.FULL
        self._shown: tuple[list[str], tuple[CompareRow, ...]] = ([], ())
        self.setAccessibleName(say("Numbers of the poses side by side"))
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setTabKeyNavigation(False)
        self.setAlternatingRowColors(True)
        self.setShowGrid(False)
        self.setWordWrap(False)
        self.verticalHeader().hide()
        self.horizontalHeader().setHighlightSections(False)
        self.horizontalHeader().setDefaultAlignment(
            Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
        )
        self.set_large(False)

    def set_large(self, large: bool) -> None:
        """Large type and fewer rows at a time."""
        self._large = large
        self.setProperty("large", large)
        for widget in (self, self.horizontalHeader()):
            widget.style().unpolish(widget)
            widget.style().polish(widget)
        self.verticalHeader().setDefaultSectionSize(LARGE_ROW_PX if large else ROW_PX)
        self.verticalHeader().setMinimumSectionSize(LARGE_ROW_PX if large else ROW_PX)
        self._fit_columns()
        self._fit_height()

    def show_rows(self, titles: list[str], rows: tuple[CompareRow, ...]) -> None:
        """Write everything anew; the place where one was reading stays."""
        self._shown = (titles, rows)
        place = self.verticalScrollBar().value()
        self.setColumnCount(1 + len(titles))
        self.setRowCount(len(rows))
        self._size = self._fitting_size()
        for down, row in enumerate(rows):
            name = row.bare_name if self._size is Size.BARE else row.name
            self._write(down, 0, name, row.explanation, row.name)
            for across, (title, cell) in enumerate(zip(titles, row.cells, strict=True), 1):
                spoken = f"{row.name}, {title}: {_spoken(cell)}"
                tip = f"{row.explanation}\n{spoken}"
                self._write(down, across, cell.text(self._size), tip, spoken)
        self._fit_columns()
        self._write_titles()
        self._fit_height()
        self.verticalScrollBar().setValue(place)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """In another width there may be room for more or fewer words."""
        super().resizeEvent(event)
        if self._shown[1] and self._fitting_size() is not self._size:
            self.show_rows(*self._shown)
        self._fit_columns()
        self._write_titles()

    def _write_titles(self) -> None:
        """Heads of the columns, with three dots where a name is too long for its column."""
        bold = QFont(self.font())
        bold.setWeight(QFont.Weight.DemiBold)  # as the style sheet has it
        metrics, titles = QFontMetrics(bold), self._shown[0]
        shown = [
            metrics.elidedText(
                title, Qt.TextElideMode.ElideMiddle, self.columnWidth(across) - CELL_ROOM_PX
            )
            for across, title in enumerate(titles, 1)
        ]
        self.setHorizontalHeaderLabels(["", *shown])
        for across, title in enumerate(titles, 1):
            self.horizontalHeaderItem(across).setToolTip(title)

    # --- how much there is room for
    def _fitting_size(self) -> Size:
        """As many words as fit into the cells; numbers are never cut off."""
        titles, rows = self._shown
        for size in Size:
            room = (self._width_px() - self._name_px(size)) / max(len(titles), 1) - CELL_ROOM_PX
            texts = [cell.text(size) for row in rows for cell in row.cells]
            if max(map(self.fontMetrics().horizontalAdvance, texts), default=0) <= room:
                return size
        return Size.BARE

    def _width_px(self) -> int:
        bar = self.verticalScrollBar()
        return self.width() - (0 if self._large else bar.sizeHint().width())

    def _name_px(self, size: Size) -> int:
        """The width of the first column: that of the longest name, or what cells leave to it."""
        titles, rows = self._shown
        names = [row.bare_name if size is Size.BARE else row.name for row in rows]
        cells = [cell.text(size) for row in rows for cell in row.cells]
        needed, cell_px = (
            max(map(self.fontMetrics().horizontalAdvance, texts), default=0) + CELL_ROOM_PX
            for texts in (names, cells)
        )
        left = self._width_px() - len(titles) * cell_px
        return min(needed, max(left, round(NAME_SHARE * self._width_px())))

    def _write(self, down: int, across: int, text: str, tip: str, spoken: str) -> None:
        item = self.item(down, across)
        if item is None:
            item = QTableWidgetItem()
            self.setItem(down, across, item)
        item.setText(text)
        item.setToolTip(tip)
        item.setData(Qt.ItemDataRole.AccessibleTextRole, spoken)

    def _fit_columns(self) -> None:
        header = self.horizontalHeader()
        header.setSectionResizeMode(QHeaderView.ResizeMode.Stretch)
        if self.columnCount():
            header.setSectionResizeMode(0, QHeaderView.ResizeMode.Fixed)
            self.setColumnWidth(0, self._name_px(self._size))

    def _fit_height(self) -> None:
        self.setFixedHeight(self.sizeHint().height())

    def sizeHint(self) -> QSize:
        """As many rows as fit beside the panes; the others are scrolled to."""
        most, row_px = (LARGE_ROWS, LARGE_ROW_PX) if self._large else (SHOWN_ROWS, ROW_PX)
        rows = min(self.rowCount(), most) or most  # room for what is still measured
        return QSize(400, self.horizontalHeader().sizeHint().height() + rows * row_px + 4)


def _spoken(cell: CompareCell) -> str:
    """A number with its error, and how it differs, in words."""
    told = cell.value
    if cell.error and not cell.error.startswith("±"):  # a range
        told += f", {cell.error}"
    elif cell.error:
        told += say(", standard error {error}", error=cell.error.removeprefix("±"))
    if cell.difference:
        told += say(", {difference} to the first", difference=cell.difference)
    return f"{told}, {say(cell.verdict)}" if cell.verdict else told
