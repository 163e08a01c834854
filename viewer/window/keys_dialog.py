"""Keys and shortcuts: every action with its keys, to look up, to change and to set back."""

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import (
    QAbstractItemView,
    QDialog,
    QHBoxLayout,
    QHeaderView,
    QKeySequenceEdit,
    QLabel,
    QLineEdit,
    QTableWidget,
    QTableWidgetItem,
    QWidget,
)

from viewer.window.kept_keys import (
    GIVEN,
    NATIVE,
    PORTABLE,
    all_keys,
    forget_all_keys,
    keep_keys,
    plain_name,
    why_not,
)
from viewer.window.page_text import page_text
from viewer.window.pieces import button, column
from viewer.words import say

NAME, WHERE, KEYS = range(3)
SIZE_PX, NAME_PX, KEYS_PX = (760, 620), 300, 150


class KeysDialog(QDialog):
    """A table that can be searched; below it the keys of the chosen action."""

    def __init__(self, parent: QWidget, actions: dict[str, QAction]) -> None:
        super().__init__(parent)
        self.setWindowTitle(say("Keys and shortcuts"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.resize(*SIZE_PX)
        self._actions, self._present = actions, all_keys()
        self.words = QLineEdit()
        self.words.setPlaceholderText(say("Name, menu or keys"))
        self.words.setAccessibleName(say("Find an action"))
        self.words.setToolTip(say("Shows the actions that have all these words"))
        self.words.setClearButtonEnabled(True)
        self.words.textChanged.connect(self._search)
        self.table = self._make_table()
        self.edit = QKeySequenceEdit()
        self.edit.setMaximumSequenceLength(2)
        self.edit.setClearButtonEnabled(True)
        self.edit.setAccessibleName(say("New keys"))
        self.edit.setToolTip(say("Click here and press the keys; up to two strokes after another"))
        self.edit.installEventFilter(self)
        self.take = button(say("Take these keys"), self._take, say("Give them to the action"))
        self.back = button(
            say("Set back"), self._set_back, say("Give the action the keys it came with")
        )
        self.all_back = button(
            say("Set all back"), self._set_all_back, say("Give every action the keys it came with")
        )
        self.said = page_text()
        self._lay_out()
        self._fill()
        self.table.selectRow(0)
        self.words.setFocus()

    def _make_table(self) -> QTableWidget:
        table = QTableWidget(0, 3)
        table.setAccessibleName(say("Actions and their keys"))
        table.setToolTip(say("Changed keys are in bold"))
        table.setHorizontalHeaderLabels([say("Action"), say("Menu"), say("Keys")])
        table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        table.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        table.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        table.setTabKeyNavigation(False)
        table.setShowGrid(False)
        table.setAlternatingRowColors(True)
        table.verticalHeader().hide()
        head = table.horizontalHeader()
        head.setSectionResizeMode(WHERE, QHeaderView.ResizeMode.Stretch)
        table.setColumnWidth(NAME, NAME_PX)
        table.setColumnWidth(KEYS, KEYS_PX)
        table.itemSelectionChanged.connect(self._choose)
        return table

    def _lay_out(self) -> None:
        layout = column(gap=8, margins=(12, 12, 12, 12))
        self.setLayout(layout)
        layout.addWidget(self.words)
        layout.addWidget(self.table, 1)
        line = QHBoxLayout()
        label = QLabel(say("New keys:"))
        label.setBuddy(self.edit)
        line.addWidget(label)
        line.addWidget(self.edit, 1)
        for made in (self.take, self.back):
            made.setAutoDefault(False)
            line.addWidget(made)
        layout.addLayout(line)
        layout.addWidget(self.said)
        last = QHBoxLayout()
        close = button(say("Close"), self.close, say("Close this page"))
        self.all_back.setAutoDefault(False)
        close.setAutoDefault(False)
        last.addWidget(self.all_back)
        last.addStretch(1)
        last.addWidget(close)
        layout.addLayout(last)

    # --- the table
    def _fill(self) -> None:
        self.table.setRowCount(len(GIVEN))
        for row, key in enumerate(GIVEN):
            cells = (plain_name(key), self._actions[key].data(), "")
            for place, text in enumerate(cells):
                item = QTableWidgetItem(text)
                item.setData(Qt.ItemDataRole.UserRole, key)
                item.setToolTip(self._actions[key].toolTip())
                self.table.setItem(row, place, item)
            self._show_keys(row)

    def _show_keys(self, row: int) -> None:
        key = self.key_of(row)
        item = self.table.item(row, KEYS)
        item.setText(self._present[key].toString(NATIVE))
        font = item.font()
        font.setBold(self._present[key] != QKeySequence(GIVEN[key], PORTABLE))
        item.setFont(font)

    def key_of(self, row: int) -> str:
        """Which action a row is of."""
        return self.table.item(row, NAME).data(Qt.ItemDataRole.UserRole)

    def _search(self, text: str) -> None:
        wanted = text.lower().split()
        for row in range(self.table.rowCount()):
            words = " ".join(self.table.item(row, k).text() for k in range(3)).lower()
            self.table.setRowHidden(row, not all(word in words for word in wanted))

    def _chosen(self) -> int | None:
        rows = self.table.selectionModel().selectedRows()
        return rows[0].row() if rows else None

    def _choose(self) -> None:
        row = self._chosen()
        for control in (self.edit, self.take, self.back):
            control.setEnabled(row is not None)
        if row is not None:
            self.edit.setKeySequence(self._present[self.key_of(row)])
            self.said.setText("")

    # --- changing
    def _take(self) -> None:
        row = self._chosen()
        key, wanted = self.key_of(row), self.edit.keySequence()
        sentence = why_not(key, wanted, self._present)
        if sentence:
            self.said.setText("! " + sentence)
            return
        self._give(row, wanted)
        name, keys = plain_name(key), wanted.toString(NATIVE)
        if keys:
            self.said.setText(say("“{name}” now has the keys {keys}.", name=name, keys=keys))
        else:
            self.said.setText(say("“{name}” has no keys now.", name=name))

    def _set_back(self) -> None:
        self.edit.setKeySequence(QKeySequence(GIVEN[self.key_of(self._chosen())], PORTABLE))
        self._take()

    def _set_all_back(self) -> None:
        forget_all_keys()
        self._present = all_keys()
        for row in range(self.table.rowCount()):
            key = self.key_of(row)
            self._actions[key].setShortcut(self._present[key])
            self._show_keys(row)
        self._choose()
        self.said.setText(say("All actions have the keys they came with."))

    def _give(self, row: int, wanted: QKeySequence) -> None:
        key = self.key_of(row)
        keep_keys(key, wanted)
        self._present[key] = wanted
        self._actions[key].setShortcut(wanted)
        self._show_keys(row)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Let the field have keys that are shortcuts of the window, Tab and Escape excepted."""
        if event.type() == QEvent.Type.ShortcutOverride:
            event.accept()
            return True
        if event.type() == QEvent.Type.KeyPress and event.key() in (
            Qt.Key.Key_Tab, Qt.Key.Key_Backtab, Qt.Key.Key_Escape,
        ):  # fmt: skip
            if event.key() == Qt.Key.Key_Escape:
                self.close()
            else:
                self.focusNextPrevChild(event.key() == Qt.Key.Key_Tab)
            return True
        return super().eventFilter(watched, event)
