"""Find an action by name: type a few letters of its words, press Enter."""

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QAction, QKeyEvent, QKeySequence
from PySide6.QtWidgets import QFrame, QLineEdit, QListWidget, QListWidgetItem, QVBoxLayout, QWidget

from viewer.words import say

LEAST_PX, HEIGHT_PX, BESIDE_PX = 420, 320, 48  # the last for edges and the scroll bar


class ActionFinder(QFrame):
    """A small popup over the window, gone when it loses the focus."""

    def __init__(self, actions: dict[str, QAction], parent: QWidget) -> None:
        super().__init__(parent, Qt.WindowType.Popup)
        self._actions = list(actions.values())
        self.setAccessibleName(say("Find an action"))
        self.setProperty("popup", True)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(8, 8, 8, 8)
        self.words = QLineEdit()
        self.words.setPlaceholderText(say("What do you want to do?"))
        self.words.setAccessibleName(say("Name of the action"))
        self.words.setClearButtonEnabled(True)
        self.found = QListWidget()
        self.found.setAccessibleName(say("Actions found"))
        self.found.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        layout.addWidget(self.words)
        layout.addWidget(self.found)
        self.resize(LEAST_PX, HEIGHT_PX)
        self.words.textChanged.connect(self._search)
        self.words.returnPressed.connect(self._do)
        self.found.itemClicked.connect(self._do)
        self.words.installEventFilter(self)

    def open_over(self, window: QWidget) -> None:
        """Show the popup near the top of a window, ready to type."""
        self.words.clear()
        self._search("")
        longest = self.found.sizeHintForColumn(0) + BESIDE_PX
        self.resize(min(max(longest, LEAST_PX), window.width()), HEIGHT_PX)
        corner = window.mapToGlobal(window.rect().topLeft())
        self.move(corner.x() + (window.width() - self.width()) // 2, corner.y() + 60)
        self.show()
        self.words.setFocus()

    def _search(self, text: str) -> None:
        wanted = text.lower().split()
        self.found.clear()
        # What is called so comes before what only has the words somewhere.
        named = sorted(self._actions, key=lambda action: not _name(action).startswith(text.lower()))
        for action in named:
            name, where = action.text().replace("&", ""), action.data()
            words = f"{name} {where} {action.toolTip()}".lower()
            if not all(word in words for word in wanted):
                continue
            key = action.shortcut().toString(QKeySequence.SequenceFormat.NativeText)
            item = QListWidgetItem(f"{name}   ·   {where}   ·   {key}")
            item.setToolTip(action.toolTip())
            item.setData(Qt.ItemDataRole.UserRole, action.objectName())
            if not action.isEnabled():
                item.setFlags(Qt.ItemFlag.NoItemFlags)
            self.found.addItem(item)
        for row in range(self.found.count()):
            if self.found.item(row).flags() & Qt.ItemFlag.ItemIsEnabled:
                self.found.setCurrentRow(row)
                break

    def _do(self) -> None:
        item = self.found.currentItem()
        self.hide()
        if item is None or not item.flags() & Qt.ItemFlag.ItemIsEnabled:
            return
        key = item.data(Qt.ItemDataRole.UserRole)
        next(action for action in self._actions if action.objectName() == key).trigger()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Up and Down move through the list while the letters keep the focus."""
        if event.type() == QEvent.Type.KeyPress and isinstance(event, QKeyEvent):
            step = {Qt.Key.Key_Down: 1, Qt.Key.Key_Up: -1}.get(event.key())
            if step is not None and self.found.count():
                row = self.found.currentRow() + step
                self.found.setCurrentRow(min(max(row, 0), self.found.count() - 1))
                return True
        return super().eventFilter(watched, event)


def _name(action: QAction) -> str:
    return action.text().replace("&", "").lower()
