"""Find an action by name: type a few letters of its words, press Enter."""

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QAction, QKeyEvent
from PySide6.QtWidgets import QFrame, QLineEdit, QListWidget, QListWidgetItem, QVBoxLayout, QWidget

WIDTH_PX, HEIGHT_PX = 420, 320


class ActionFinder(QFrame):
    """A small popup over the window, gone when it loses the focus."""

    def __init__(self, actions: dict[str, QAction], parent: QWidget) -> None:
        super().__init__(parent, Qt.WindowType.Popup)
        self._actions = list(actions.values())
        self.setAccessibleName("Find an action")
        self.setProperty("popup", True)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(8, 8, 8, 8)
        self.words = QLineEdit()
        self.words.setPlaceholderText("What do you want to do?")
        self.words.setAccessibleName("Name of the action")
        self.words.setClearButtonEnabled(True)
        self.found = QListWidget()
        self.found.setAccessibleName("Actions found")
        self.found.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        layout.addWidget(self.words)
        layout.addWidget(self.found)
        self.resize(WIDTH_PX, HEIGHT_PX)
        self.words.textChanged.connect(self._search)
        self.words.returnPressed.connect(self._do)
        self.found.itemClicked.connect(self._do)
        self.words.installEventFilter(self)

    def open_over(self, window: QWidget) -> None:
        """Show the popup near the top of a window, ready to type."""
        corner = window.mapToGlobal(window.rect().topLeft())
        self.move(corner.x() + (window.width() - self.width()) // 2, corner.y() + 60)
        self.words.clear()
        self._search("")
        self.show()
        self.words.setFocus()

    def _search(self, text: str) -> None:
        wanted = text.lower().split()
        self.found.clear()
        for action in self._actions:
            name, where = action.text().replace("&", ""), action.data()
            words = f"{name} {where} {action.toolTip()}".lower()
            if not all(word in words for word in wanted):
                continue
            key = action.shortcut().toString()
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
