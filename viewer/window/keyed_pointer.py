"""The pointer by keyboard, so that every tool of the scene can be used without a mouse.

While the scene has the focus, the arrows move the pointer (with Shift a pixel at a time), Space
holds the left button down, Return clicks. Ctrl and the arrows turn the view, + and - come closer
and go farther. Tools get the very same events as from a mouse.
"""

from PySide6.QtCore import QEvent, QObject, QPoint, QPointF, Qt
from PySide6.QtGui import QCursor, QKeyEvent, QMouseEvent, QWheelEvent
from PySide6.QtWidgets import QApplication

from viewer.window.choices import Choices
from viewer.window.part_view import PartView

STEP_PX, FINE_PX, TURN_PX = 8, 1, 30
NOTCH = 120  # of a wheel, as Qt counts it
ARROWS = {
    Qt.Key.Key_Left: QPoint(-1, 0),
    Qt.Key.Key_Right: QPoint(1, 0),
    Qt.Key.Key_Up: QPoint(0, -1),
    Qt.Key.Key_Down: QPoint(0, 1),
}
ZOOM = {Qt.Key.Key_Plus: NOTCH, Qt.Key.Key_Minus: -NOTCH}
CLICK = (Qt.Key.Key_Return, Qt.Key.Key_Enter)
LEFT, RIGHT, NONE = Qt.MouseButton.LeftButton, Qt.MouseButton.RightButton, Qt.MouseButton.NoButton
CTRL, SHIFT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier
BARE = Qt.KeyboardModifier.NoModifier


class KeyedPointer(QObject):
    """Turns keys of the scene into events of the mouse; in a presentation arrows show poses."""

    def __init__(self, view: PartView, choices: Choices) -> None:
        super().__init__(view)
        self._canvas, self._choices = view.interactor, choices
        self._held = False
        self._canvas.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Take the keys of the pointer, and leave all others to the window."""
        kind = event.type()
        if kind == QEvent.Type.FocusOut:
            self._let_go()
        if self._choices.presenting or not isinstance(event, QKeyEvent):
            return False
        if event.key() == Qt.Key.Key_Space and not event.modifiers() & CTRL:
            if not event.isAutoRepeat():
                self._hold() if kind == QEvent.Type.KeyPress else self._let_go()
            return True
        return kind == QEvent.Type.KeyPress and self._take(event.key(), event.modifiers())

    def _take(self, key: int, held: Qt.KeyboardModifier) -> bool:
        if key in ARROWS and held & CTRL and not self._held:
            self._turn_view(ARROWS[key] * TURN_PX)
        elif key in ARROWS:
            self._move(ARROWS[key] * (FINE_PX if held & SHIFT else STEP_PX), held & CTRL)
        elif key in ZOOM:
            self._zoom(ZOOM[key])
        elif key in CLICK:
            self._hold()
            self._let_go()
        else:
            return False
        return True

    # --- what a mouse would do
    def place(self) -> QPoint:
        """Where the pointer is; in the middle of the scene if it is elsewhere."""
        place = self._canvas.mapFromGlobal(QCursor.pos())
        return place if self._canvas.rect().contains(place) else self._canvas.rect().center()

    def _move(self, by_px: QPoint, held: Qt.KeyboardModifier) -> None:
        inside = self._canvas.rect()
        place = self.place() + by_px
        place.setX(min(max(place.x(), inside.left()), inside.right()))
        place.setY(min(max(place.y(), inside.top()), inside.bottom()))
        QCursor.setPos(self._canvas.mapToGlobal(place))
        self._send(QEvent.Type.MouseMove, place, NONE, LEFT if self._held else NONE, held)

    def _hold(self) -> None:
        if not self._held:
            self._held = True
            place = self.place()
            QCursor.setPos(self._canvas.mapToGlobal(place))
            self._send(QEvent.Type.MouseMove, place, NONE, NONE)
            self._send(QEvent.Type.MouseButtonPress, place, LEFT, LEFT)

    def _let_go(self) -> None:
        if self._held:
            self._held = False
            self._send(QEvent.Type.MouseButtonRelease, self.place(), LEFT, NONE)

    def _turn_view(self, by_px: QPoint) -> None:
        place = self.place()
        self._send(QEvent.Type.MouseButtonPress, place, RIGHT, RIGHT)
        self._send(QEvent.Type.MouseMove, place + by_px, NONE, RIGHT)
        self._send(QEvent.Type.MouseButtonRelease, place + by_px, RIGHT, NONE)

    def _zoom(self, notches: int) -> None:
        place = QPointF(self.place())
        everywhere = QPointF(self._canvas.mapToGlobal(place))
        turn = QPoint(0, notches)
        phase = Qt.ScrollPhase.NoScrollPhase
        event = QWheelEvent(place, everywhere, QPoint(), turn, NONE, BARE, phase, False)
        QApplication.sendEvent(self._canvas, event)

    def _send(
        self,
        kind: QEvent.Type,
        place: QPoint,
        button: Qt.MouseButton,
        buttons: Qt.MouseButton,
        held: Qt.KeyboardModifier = BARE,
    ) -> None:
        where = QPointF(place)
        everywhere = QPointF(self._canvas.mapToGlobal(place))
        QApplication.sendEvent(
            self._canvas, QMouseEvent(kind, where, everywhere, button, buttons, held)
        )
