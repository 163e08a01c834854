"""A line of numbers that changes under the pointer without moving what stands above it."""

from PySide6.QtCore import QEvent, QSize, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QLabel

LINES = 2


class NumbersLine(QLabel):
    """Two lines high, or as high as the longest of its texts was at this width and font."""

    def __init__(self) -> None:
        super().__init__()
        self.setWordWrap(True)
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setProperty("quiet", True)
        self.setAlignment(Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignLeft)
        self._most_px = 0
        self._keep_room()

    def minimumSizeHint(self) -> QSize:
        """Any width will do."""
        return QSize(1, self._most_px)

    def setText(self, text: str) -> None:
        """Other numbers."""
        super().setText(text)
        self._keep_room()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Another width wraps elsewhere."""
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            self._most_px = 0
            self._keep_room()

    def changeEvent(self, event: QEvent) -> None:
        """Another font is higher or lower."""
        super().changeEvent(event)
        if event.type() in (QEvent.Type.FontChange, QEvent.Type.StyleChange):
            self._most_px = 0
            self._keep_room()

    def _keep_room(self) -> None:
        least_px = LINES * self.fontMetrics().lineSpacing() + 2
        wrapped_px = self.heightForWidth(self.width()) if self.width() > 1 else 0
        self._most_px = max(self._most_px, least_px, wrapped_px)
        self.setFixedHeight(self._most_px)
