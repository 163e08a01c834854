"""The kept poses in stage Turn: go to one, rename, note, move, remove, and write all as a table."""

from PySide6.QtCore import QEvent, QSignalBlocker, Qt
from PySide6.QtGui import QAction, QKeyEvent
from PySide6.QtWidgets import (
    QAbstractItemDelegate,
    QAbstractItemView,
    QGridLayout,
    QHBoxLayout,
    QLineEdit,
    QListWidget,
    QListWidgetItem,
    QWidget,
)

from viewer.document.document import Changed, Document
from viewer.document.kept_poses import LONGEST_NOTE, place_of
from viewer.window.document_signals import DocumentSignals
from viewer.window.pieces import ActionButton, column
from viewer.words import later, say

MOST_ROWS = 3  # shown without scrolling
GO_KEYS = (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space)
TIP = later("Click or Return: lay the part like this. F2 or double click: rename. Delete: remove.")


class KeptBox(QWidget):
    """A short list of names; the present pose is the chosen row."""

    def __init__(
        self, document: Document, signals: DocumentSignals, actions: dict[str, QAction]
    ) -> None:
        super().__init__()
        self._document = document
        layout = column(gap=6)
        self.setLayout(layout)
        self.rows = KeptList(self)
        layout.addWidget(self.rows)
        buttons = QGridLayout()
        buttons.setSpacing(6)
        buttons.addWidget(ActionButton(actions["rename_kept"], say("Rename")), 0, 0)
        buttons.addWidget(ActionButton(actions["remove_kept"], say("Remove")), 0, 1)
        layout.addLayout(buttons)
        self.note = QLineEdit()
        self.note.setMaxLength(LONGEST_NOTE)
        self.note.setPlaceholderText(say("Note"))
        self.note.setAccessibleName(say("Note on the kept pose"))
        self.note.setToolTip(actions["note_kept"].toolTip())
        self.note.editingFinished.connect(self._note)
        notes = QHBoxLayout()
        notes.setSpacing(6)
        notes.addWidget(self.note, 1)
        notes.addWidget(ActionButton(actions["export_kept"], "CSV …"))
        layout.addLayout(notes)
        self.rows.itemClicked.connect(self._go)
        self.rows.itemChanged.connect(self._rename)
        signals.changed.connect(self._show)
        self._show(Changed.EVERYTHING)

    def start_renaming(self) -> None:
        """Open the name of the present pose for typing, if the pose is kept."""
        item = self.rows.item(self._present())
        if item is not None:
            self.rows.setFocus(Qt.FocusReason.ShortcutFocusReason)
            self.rows.setCurrentItem(item)
            self.rows.editItem(item)

    def start_noting(self) -> None:
        """Put the cursor into the note on the present pose, if the pose is kept."""
        if self.note.isEnabled():
            self.note.setFocus(Qt.FocusReason.ShortcutFocusReason)
            self.note.selectAll()

    def _note(self) -> None:
        place = self._present()
        if place >= 0:
            self._document.note_kept(place, self.note.text())

    # --- what the rows ask for
    def _go(self, item: QListWidgetItem) -> None:
        self.go_to(self.rows.row(item))

    def go_to(self, place: int) -> None:
        """Lay the part like a kept pose."""
        kept = self._document.state.kept_poses
        if 0 <= place < len(kept):
            self._document.turn(kept[place].pose, say("Go to “{name}”", name=kept[place].name))

    def remove(self, place: int) -> None:
        """Forget a kept pose."""
        if 0 <= place < len(self._document.state.kept_poses):
            self._document.remove_kept(place)

    def _rename(self, item: QListWidgetItem) -> None:
        self._document.rename_kept(self.rows.row(item), item.text())
        self._show(Changed.KEPT)  # a blank or odd name is shown as it was taken

    # --- the document is shown
    def _present(self) -> int:
        state = self._document.state
        place = place_of(state.kept_poses, state.pose)
        return -1 if place is None else place

    def _show(self, what: Changed) -> None:
        names = [one.name for one in self._document.state.kept_poses]
        blocker = QSignalBlocker(self.rows)
        if names != [self.rows.item(k).text() for k in range(self.rows.count())]:
            self.rows.show_names(names)
        if what & (Changed.KEPT | Changed.POSE | Changed.PART):
            self.rows.setCurrentRow(self._present())
            self._show_notes()
        blocker.unblock()
        self.setVisible(bool(names))

    def _show_notes(self) -> None:
        kept, place = self._document.state.kept_poses, self._present()
        self.note.setEnabled(place >= 0)
        note = kept[place].note if place >= 0 else ""
        if note != self.note.text():
            self.note.setText(note)
            self.note.setCursorPosition(0)
        for row, one in enumerate(kept):
            self.rows.item(row).setToolTip("\n".join(filter(None, (one.note, say(TIP)))))


class KeptList(QListWidget):
    """The rows. Return goes there, F2 renames, Delete removes; arrows only move the choice."""

    def __init__(self, box: KeptBox) -> None:
        super().__init__()
        self._box = box
        self.setAccessibleName(say("Kept poses"))
        self.setToolTip(say(TIP))
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setEditTriggers(
            QAbstractItemView.EditTrigger.DoubleClicked
            | QAbstractItemView.EditTrigger.EditKeyPressed
        )

    def show_names(self, names: list[str]) -> None:
        """List other names; as high as they need, up to a few rows."""
        while self.count() > len(names):
            self.takeItem(self.count() - 1)
        for place, name in enumerate(names):
            if place < self.count():  # rows stay, since one of them may just have been typed into
                self.item(place).setText(name)
                continue
            item = QListWidgetItem(name)
            item.setFlags(item.flags() | Qt.ItemFlag.ItemIsEditable)
            self.addItem(item)
        row_px = self.sizeHintForRow(0) if names else 0
        self.setFixedHeight(row_px * min(len(names), MOST_ROWS) + 2 * self.frameWidth() + 2)

    def event(self, event: QEvent) -> bool:
        """Keep the keys of the rows from the shortcuts of the same name while the list has them."""
        ours = (*GO_KEYS, Qt.Key.Key_F2, Qt.Key.Key_Delete)
        if event.type() == QEvent.Type.ShortcutOverride and event.key() in ours:
            event.accept()
            return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Return goes to the row, Delete removes it."""
        if event.key() in GO_KEYS:
            self._box.go_to(self.currentRow())
        elif event.key() == Qt.Key.Key_Delete:
            self._box.remove(self.currentRow())
        else:
            super().keyPressEvent(event)

    def closeEditor(self, editor: QWidget, hint: QAbstractItemDelegate.EndEditHint) -> None:
        """Stay on the row that was named."""
        super().closeEditor(editor, QAbstractItemDelegate.EndEditHint.NoHint)

    def keyboardSearch(self, search: str) -> None:
        """Letters are shortcuts of the window, not a search in these few names."""
