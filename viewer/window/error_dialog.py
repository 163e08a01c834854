"""The text of the last unexpected error: to read, to copy, to keep elsewhere or to throw away."""

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QDialog, QHBoxLayout, QPlainTextEdit, QWidget

from viewer.window.page_text import page_text
from viewer.window.pieces import button, column
from viewer.words import say

SIZE_PX = (700, 460)


class ErrorDialog(QDialog):
    """Shows the text as it lies on the disk; nothing is sent anywhere."""

    def __init__(
        self,
        parent: QWidget,
        text: str,
        show_folder: Callable[[], object],
        forget: Callable[[], object],
    ) -> None:
        """`show_folder` opens the folder of the text, `forget` deletes it."""
        super().__init__(parent)
        self.setWindowTitle(say("Text of the last error"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.resize(*SIZE_PX)
        self._forget = forget
        self.text = QPlainTextEdit(text)
        self.text.setReadOnly(True)
        self.text.setTabChangesFocus(True)
        self.text.setAccessibleName(self.windowTitle())
        copy = button(say("Copy"), self._copy, say("Put the text onto the clipboard"), leading=True)
        folder = button(say("Show the folder"), show_folder, say("Where log and text lie"))
        away = button(say("Throw away"), self._throw_away, say("Delete the text"))
        close = button(say("Close"), self.close, say("Keep the text for later"))
        line = QHBoxLayout()
        for made in (copy, folder, away):
            line.addWidget(made)
        line.addStretch(1)
        line.addWidget(close)
        for made in (copy, folder, away, close):
            made.setAutoDefault(False)
        self.copy, self.away = copy, away
        layout = column(gap=10, margins=(14, 14, 14, 14))
        self.setLayout(layout)
        layout.addWidget(
            page_text(
                say(
                    "This says where in the program something unexpected happened. It holds "
                    "nothing of your parts: no geometry, no names of files, no figures. It stays "
                    "on this computer unless you pass it on, for instance to whoever gave you "
                    "Showside."
                )
            )
        )
        layout.addWidget(self.text, 1)
        layout.addLayout(line)

    def _copy(self) -> None:
        QGuiApplication.clipboard().setText(self.text.toPlainText())

    def _throw_away(self) -> None:
        self._forget()
        self.close()
