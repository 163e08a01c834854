"""The quiet bar over the scene: one sentence, no question, gone when it is dismissed."""

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QFrame, QHBoxLayout, QSizePolicy

from viewer.window.pieces import bar_label, button
from viewer.words import say

SHOWN_FOR_MS = 30_000


class NoticeBar(QFrame):
    """Shows the latest problem until it is dismissed, replaced, or old."""

    def __init__(self) -> None:
        super().__init__()
        self.setProperty("notice", True)
        self.setAccessibleName(say("Notice"))
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(12, 6, 8, 6)
        self._label = bar_label()
        layout.addWidget(self._label, 1)
        self.dismiss = button(say("Dismiss"), self.hide, say("Hide this notice"))
        layout.addWidget(self.dismiss)
        self._clock = QTimer(self, singleShot=True, interval=SHOWN_FOR_MS)
        self._clock.timeout.connect(self.hide)
        self.hide()

    @property
    def sentence(self) -> str:
        """What is shown, "" when nothing is."""
        return self._label.text() if not self.isHidden() else ""

    def say(self, sentence: str) -> None:
        """Show a sentence."""
        self._label.setText("! " + sentence)
        self.setAccessibleDescription(sentence)
        self._clock.start()
        self.show()
