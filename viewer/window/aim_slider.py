"""A slider whose every way of being moved is one step to undo: a drag, a key held, a click."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QFocusEvent, QHideEvent, QKeyEvent, QMouseEvent, QWheelEvent
from PySide6.QtWidgets import QSlider

STEP, PAGE = 5, 25
KEYS = (
    Qt.Key.Key_Left, Qt.Key.Key_Right, Qt.Key.Key_Up, Qt.Key.Key_Down,
    Qt.Key.Key_PageUp, Qt.Key.Key_PageDown, Qt.Key.Key_Home, Qt.Key.Key_End,
)  # fmt: skip


class AimSlider(QSlider):
    """began, ended : round everything that is one movement"""

    began = Signal()
    ended = Signal()

    def __init__(self) -> None:
        super().__init__(Qt.Orientation.Horizontal)
        self.setRange(0, 100)
        self.setSingleStep(STEP)
        self.setPageStep(PAGE)
        self.setMinimumWidth(70)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self._key_held: int | None = None
        self._pressed = False

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take hold of it, or let it come nearer while the button is held beside it."""
        if event.button() == Qt.MouseButton.LeftButton:
            self._let_go()
            self._pressed = True
            self.began.emit()
        super().mousePressEvent(event)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """The end of the step."""
        super().mouseReleaseEvent(event)
        if event.button() == Qt.MouseButton.LeftButton:
            self._let_go()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """A key that is held moves on in the same step."""
        if event.key() in KEYS and self._key_held is None and not self._pressed:
            self._key_held = event.key()
            self.began.emit()
        super().keyPressEvent(event)

    def keyReleaseEvent(self, event: QKeyEvent) -> None:
        """The end of the step."""
        super().keyReleaseEvent(event)
        if event.key() == self._key_held and not event.isAutoRepeat():
            self._let_go()

    def _let_go(self) -> None:
        if self._key_held is not None or self._pressed:
            self._key_held, self._pressed = None, False
            self.ended.emit()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """The key is let go elsewhere."""
        if not self._pressed:
            self._let_go()
        super().focusOutEvent(event)

    def hideEvent(self, event: QHideEvent) -> None:
        """Nobody can let go of what is not seen any more."""
        self.setSliderDown(False)
        self._let_go()
        super().hideEvent(event)

    def wheelEvent(self, event: QWheelEvent) -> None:
        """The wheel scrolls the page; it moves no slider that it happens to pass over."""
        event.ignore()
