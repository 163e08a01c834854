"""The pieces of the job in stage Try: name, size, time, mass and money of each, and saving them."""

from PySide6.QtCore import QEvent, QSignalBlocker, Qt, Signal
from PySide6.QtGui import QAction, QKeyEvent
from PySide6.QtWidgets import QAbstractItemView, QGridLayout, QLineEdit, QListWidget, QWidget

from viewer.document.document import Changed, Document
from viewer.document.job_piece import LONGEST_NAME, JobPiece
from viewer.live.live_pieces import LivePieces
from viewer.window.document_signals import DocumentSignals
from viewer.window.piece_words import range_text, takes_text
from viewer.window.pieces import ActionButton, column, text_label
from viewer.window.quantities import number_text, size_text, volume_text
from viewer.words import later, say

MOST_ROWS = 4  # shown without scrolling
TIP = later("Choose a piece to see it beside the part. F2: rename. Delete: take it off the list.")


class PieceBox(QWidget):
    """chosen : the piece that is chosen, or None; kept in `current`"""

    chosen = Signal(object)

    def __init__(
        self,
        document: Document,
        signals: DocumentSignals,
        numbers: LivePieces,
        actions: dict[str, QAction],
    ) -> None:
        super().__init__()
        self._document, self._numbers = document, numbers
        self.current: JobPiece | None = None
        layout = column(gap=6)
        self.setLayout(layout)
        self.none_yet = text_label(say("None yet: take a cut-out, or add a specimen."), quiet=True)
        layout.addWidget(self.none_yet)
        self.rows = PieceList(self)
        layout.addWidget(self.rows)
        self.name = QLineEdit()
        self.name.setMaxLength(LONGEST_NAME)
        self.name.setAccessibleName(say("Name of the piece"))
        self.name.setToolTip(say("Name of the piece; its file is named after it."))
        self.name.editingFinished.connect(self._rename)
        layout.addWidget(self.name)
        self.words = text_label(quiet=True)
        layout.addWidget(self.words)
        self._buttons = QWidget()
        grid = QGridLayout(self._buttons)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setSpacing(6)
        for place, (key, text) in enumerate((
            ("save_piece_3mf", "3MF …"), ("save_piece_stl", "STL …"),
            ("save_pieces_3mf", say("All 3MF …")), ("save_pieces_stl", say("All STL …")),
            ("open_piece", say("Open as part")), ("remove_piece", say("Remove")),
        )):  # fmt: skip
            made = ActionButton(actions[key], text)
            made.setObjectName(key)
            grid.addWidget(made, *divmod(place, 2))
        layout.addWidget(self._buttons)
        self.rows.currentRowChanged.connect(self._row_changed)
        signals.changed.connect(self._document_changed)
        numbers.told.connect(self._show_words)
        self._document_changed(Changed.EVERYTHING)

    def choose(self, piece: JobPiece | None) -> None:
        """Choose a piece of the job, or none."""
        pieces = self._document.state.pieces
        piece = piece if piece in pieces else None
        self.current = piece
        blocker = QSignalBlocker(self.rows)
        self.rows.setCurrentRow(-1 if piece is None else pieces.index(piece))
        blocker.unblock()
        self.name.setEnabled(piece is not None)
        name = "" if piece is None else piece.name
        if name != self.name.text():
            self.name.setText(name)
            self.name.setCursorPosition(0)
        self._show_words()
        self.chosen.emit(piece)

    def start_renaming(self) -> None:
        """Put the cursor into the name of the chosen piece."""
        if self.current is not None:
            self.name.setFocus(Qt.FocusReason.ShortcutFocusReason)
            self.name.selectAll()

    def remove(self) -> None:
        """Take the chosen piece off the list: one undo step."""
        pieces = self._document.state.pieces
        if self.current in pieces:
            place = pieces.index(self.current)
            left = (*pieces[:place], *pieces[place + 1 :])
            self._document.set_pieces(left, say("Remove the piece"))
            self.choose(left[min(place, len(left) - 1)] if left else None)

    def _rename(self) -> None:
        pieces, piece = self._document.state.pieces, self.current
        if piece not in pieces or self.name.text() == piece.name:
            return
        named = piece.renamed(self.name.text())
        if named is piece:
            self.name.setText(piece.name)
            return
        self.current = named
        changed = tuple(named if each is piece else each for each in pieces)
        self._document.set_pieces(changed, say("Rename the piece"))

    def _row_changed(self, row: int) -> None:
        pieces = self._document.state.pieces
        self.choose(pieces[row] if 0 <= row < len(pieces) else None)

    # --- the document is shown
    def _document_changed(self, what: Changed) -> None:
        if not what & (Changed.PIECES | Changed.PART):
            return
        pieces = self._document.state.pieces
        blocker = QSignalBlocker(self.rows)
        self.rows.clear()
        for piece in pieces:
            self.rows.addItem(piece.name)
        blocker.unblock()
        row_px = self.rows.sizeHintForRow(0) if pieces else 0
        rows = min(len(pieces), MOST_ROWS)
        self.rows.setFixedHeight(row_px * rows + 2 * self.rows.frameWidth() + 2)
        self.none_yet.setVisible(not pieces)
        for shown in (self.rows, self.name, self.words, self._buttons):
            shown.setVisible(bool(pieces))
        kept = self.current if self.current in pieces else None
        self.choose(kept or (pieces[-1] if pieces and what & Changed.PIECES else None))

    def _show_words(self) -> None:
        pieces = self._document.state.pieces
        if self.rows.count() != len(pieces):
            return
        for row, piece in enumerate(pieces):
            text = f"{piece.name}\n{takes_text(self._numbers.numbers_of(piece))}"
            self.rows.item(row).setText(text)
            self.rows.item(row).setToolTip(f"{text}\n{say(TIP)}")
        if pieces:
            height = self.rows.sizeHintForRow(0) * min(len(pieces), MOST_ROWS)
            self.rows.setFixedHeight(height + 2 * self.rows.frameWidth() + 2)
        self.words.setText("" if self.current is None else piece_text(self.current, self._numbers))


def piece_text(piece: JobPiece, numbers: LivePieces) -> str:
    """Size, volume, range and note of one piece."""
    known = numbers.numbers_of(piece)
    lines = [f"{size_text(tuple(piece.size_mm))}, {volume_text(piece.volume_mm3)}"]
    if range_text(known):
        lines.append(range_text(known))
    if known is not None and known.touch_a_mm2 > 0:
        area = number_text(known.touch_a_mm2)
        lines.append(say("Supports touch {area} mm² of class A.", area=area))
    if piece.note:
        lines.append(piece.note)
    return "\n".join(lines)


class PieceList(QListWidget):
    """The rows, two lines each; Delete removes, letters stay shortcuts of the window."""

    def __init__(self, box: PieceBox) -> None:
        super().__init__()
        self._box = box
        self.setAccessibleName(say("Pieces of the job"))
        self.setToolTip(say(TIP))
        self.setWordWrap(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)

    def event(self, event: QEvent) -> bool:
        """Keep Delete from shortcuts of the same name while the list has it."""
        ours = (Qt.Key.Key_F2, Qt.Key.Key_Delete)
        if event.type() == QEvent.Type.ShortcutOverride and event.key() in ours:
            event.accept()
            return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """F2 renames, Delete removes."""
        if event.key() == Qt.Key.Key_Delete:
            self._box.remove()
        elif event.key() == Qt.Key.Key_F2:
            self._box.start_renaming()
        else:
            super().keyPressEvent(event)

    def keyboardSearch(self, search: str) -> None:
        """Letters are shortcuts of the window, not a search in these few names."""
