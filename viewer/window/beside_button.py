"""Which of the job's test pieces stand on the platform beside the part: a button with a menu."""

from dataclasses import replace

from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMenu, QPushButton

from viewer.document.beside_pieces import pieces_beside
from viewer.document.document import Changed, Document
from viewer.window.document_signals import DocumentSignals
from viewer.words import say


class BesideButton(QPushButton):
    """Each piece is an entry with a tick; every change is one undo step of the document."""

    def __init__(self, document: Document, signals: DocumentSignals) -> None:
        super().__init__()
        self._document = document
        self.menu_of_pieces = QMenu(self)
        self.menu_of_pieces.setToolTipsVisible(True)
        self.menu_of_pieces.triggered.connect(self._chosen)
        self.clicked.connect(self.open_menu)
        signals.changed.connect(self._document_changed)
        self._show()

    def open_menu(self) -> None:
        """List the pieces below the button."""
        if self.isEnabled():
            self._fill()
            self.menu_of_pieces.popup(self.mapToGlobal(self.rect().bottomLeft()))

    def _fill(self) -> None:
        self.menu_of_pieces.clear()
        beside = self._document.state.shop_choice.beside
        for piece in self._document.state.pieces:
            made = self.menu_of_pieces.addAction(piece.name.replace("&", "&&"))
            made.setCheckable(True)
            made.setChecked(piece.name in beside)
            made.setData(piece.name)
            made.setToolTip(piece.note or piece.name)

    def _chosen(self, action: QAction) -> None:
        choice, name = self._document.state.shop_choice, action.data()
        beside = [each for each in choice.beside if each != name]
        if action.isChecked():
            beside.append(name)
        self._document.choose_shop(replace(choice, beside=tuple(beside)))

    def _document_changed(self, what: Changed) -> None:
        if what & (Changed.SHOP | Changed.PIECES | Changed.PART):
            self._show()

    def _show(self) -> None:
        state = self._document.state
        beside, made = len(pieces_beside(state)), len(state.pieces)
        self.setEnabled(made > 0)
        self.setText(
            say("Test pieces: {beside} of {made} …", beside=beside, made=made)
            if made
            else say("Test pieces: none yet")
        )
        self.setAccessibleName(self.text())
        self.setToolTip(
            say("Which of the job's test pieces stand on the platform beside the part; time, "
                "material and money of the job hold them.")
            if made
            else say("Make a test piece first, in the stage Try.")
        )  # fmt: skip
