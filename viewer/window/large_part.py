"""Says of a part of many millions of facets what to expect, and offers to reduce it."""

from typing import Protocol

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QFrame, QHBoxLayout, QSizePolicy

from viewer.document.document import Changed, Document
from viewer.geometry import known_of_mesh
from viewer.geometry.reduce_part import REDUCED_FACES, WITHIN_MM
from viewer.window.document_signals import DocumentSignals
from viewer.window.file_work import FileWork
from viewer.window.pieces import bar_label, button
from viewer.words import say


class LargePartWindow(Protocol):
    """What is needed of the window."""

    document: Document
    signals: DocumentSignals
    files: FileWork


class LargePart(QObject):
    """A bar over the scene with one sentence and its two answers."""

    def __init__(self, window: LargePartWindow) -> None:
        super().__init__()
        self._window = window
        self.bar = QFrame()
        self.bar.setProperty("notice", True)
        self.bar.setAccessibleName(say("A very large part"))
        self.bar.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        layout = QHBoxLayout(self.bar)
        layout.setContentsMargins(12, 6, 8, 6)
        self.sentence = bar_label()
        layout.addWidget(self.sentence, 1)
        self.reduce = button(
            say("Reduce it"), window.files.reduce, say("One step, which undo takes back"), True
        )
        self.leave = button(say("Leave it"), self.bar.hide, say("Go on with all facets"))
        for answer in (self.reduce, self.leave):
            layout.addWidget(answer)
        self.bar.hide()
        window.signals.changed.connect(self._changed)

    def _changed(self, what: Changed) -> None:
        if not what & Changed.PART:
            return
        part = self._window.document.state.part
        count = 0 if part is None else part.file_mesh.face_count
        self.bar.setVisible(count >= known_of_mesh.VAST_FACES)
        sentence = say(
            "This part has {count:,} facets. It is drawn coarser than it is; its numbers are "
            "exact, but take longer. With about {fewer:,} facets all goes quicker, and no place of "
            "its surface moves by more than {within_mm:.2f} mm.",
            count=count,
            fewer=REDUCED_FACES,
            within_mm=WITHIN_MM,
        )
        self.sentence.setText(sentence)
        self.bar.setAccessibleDescription(sentence)
