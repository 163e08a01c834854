"""The document's changes as a Qt signal, so that a widget's death ends its listening."""

from PySide6.QtCore import QObject, Signal

from viewer.document.document import Document


class DocumentSignals(QObject):
    """Emits `changed(Changed)` after every swap of the document's state."""

    changed = Signal(object)

    def __init__(self, document: Document, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._stop_listening = document.listen(self.changed.emit)

    def close(self) -> None:
        """Stop listening to the document."""
        self._stop_listening()
