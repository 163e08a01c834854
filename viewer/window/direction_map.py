"""The direction map: every build direction at once; hover, click, drag or walk with the keys.

It draws what it is given and tells where the pointer is; it turns nothing by itself.
"""

import numpy as np
from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, QSizeF, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QFocusEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QPixmap,
    QResizeEvent,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from viewer.geometry.direction_discs import direction_at, on_discs
from viewer.window.map_drawing import (
    PRESENT_INK,
    MapMarks,
    MapPicture,
    MapRoom,
    draw_discs,
    draw_marks,
    draw_sign,
)
from viewer.window.map_legend import draw_legend
from viewer.window.theme import LIGHT, Theme
from viewer.words import later, say

STEP_DEG = 4.0  # one press of an arrow; about the distance of neighbours in the spread
FINE_STEP_DEG = 1.0  # with Shift
DRAG_PX = 4  # less is a click
GO_KEYS = (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space)
ARROWS = {
    Qt.Key.Key_Right: (1, 0),
    Qt.Key.Key_Left: (-1, 0),
    Qt.Key.Key_Up: (0, 1),
    Qt.Key.Key_Down: (0, -1),
}
HELP = later(
    "Every build direction: hover to see its numbers, click to turn the part there, drag to walk. "
    "Arrow keys walk, with Shift in fine steps; Return turns the part there."
)


class DirectionMap(QWidget):
    """Two discs with the present direction on them.

    hovered : unit direction under the pointer or the keys' cross, None for none
    chosen : turn the part there; walked : the same again and again between walk_began and
    walk_ended; walk_cancelled : back to where the walk began
    """

    hovered = Signal(object)
    chosen = Signal(object)
    walk_began = Signal()
    walked = Signal(object)
    walk_ended = Signal()
    walk_cancelled = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMinimumSize(260, 150)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        self.setCursor(Qt.CursorShape.CrossCursor)
        self.setAccessibleName(say("Direction map"))
        self.setAccessibleDescription(say(HELP))
        self._theme, self._faded = LIGHT, False
        self._shown: MapPicture | None = None
        self._picture: QPixmap | None = None
        self._marks = MapMarks()
        self._pressed: QPointF | None = None
        self._walking = False
        self.cross: np.ndarray | None = None

    # --- for whoever fills it
    def show_picture(self, shown: MapPicture | None, faded: bool = False) -> None:
        """Other colours; `faded` while they are older than the marks. None: nothing is known."""
        self._shown, self._faded, self._picture = shown, faded, None
        self.update()

    def show_marks(self, marks: MapMarks) -> None:
        """Mark other directions."""
        self._marks = marks
        self.update()

    def show_theme(self, theme: Theme) -> None:
        """Draw in the colours of another theme."""
        self._theme, self._picture = theme, None
        self.update()

    def place_of(self, up: np.ndarray) -> QPointF:
        """Where a direction lies in the widget."""
        return self._room().place(up)

    def sizeHint(self) -> QSize:
        """Any size."""
        return QSize(440, 260)

    # --- drawing
    def _room(self) -> MapRoom:
        return MapRoom.of(QSizeF(self.size()))

    def resizeEvent(self, event: QResizeEvent) -> None:
        """The discs follow the size."""
        self._picture = None
        super().resizeEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        """The discs from their picture, then what moves."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        room = self._room()
        if self._shown is None:
            painter.setPen(QPen(QColor(self._theme.edge), 1.2, Qt.PenStyle.DashLine))
            for centre in room.centres:
                painter.drawEllipse(centre, room.radius_px, room.radius_px)
        else:
            painter.setOpacity(0.45 if self._faded else 1.0)
            painter.drawPixmap(0, 0, self._drawn(room))
            painter.setOpacity(1.0)
            draw_legend(painter, self._shown, QSizeF(self.size()), self._theme)
        draw_marks(painter, self._marks, room, QColor(PRESENT_INK))
        if self.cross is not None:
            draw_sign(painter, "cross", room.place(self.cross))
        if self.hasFocus():
            painter.setPen(QPen(QColor(self._theme.accent), 1.5))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRoundedRect(QRectF(self.rect()).adjusted(1, 1, -1, -1), 4, 4)
        painter.end()

    def _drawn(self, room: MapRoom) -> QPixmap:
        if self._picture is None:
            scale = self.devicePixelRatioF()
            self._picture = QPixmap(self.size() * scale)
            self._picture.setDevicePixelRatio(scale)
            self._picture.fill(Qt.GlobalColor.transparent)
            painter = QPainter(self._picture)
            painter.setRenderHints(
                QPainter.RenderHint.Antialiasing | QPainter.RenderHint.SmoothPixmapTransform
            )
            painter.setFont(self.font())
            draw_discs(painter, self._shown, room, self._theme)
            painter.end()
        return self._picture

    # --- the mouse
    def _tell(self, up: np.ndarray | None) -> None:
        self.hovered.emit(up)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """A click or the beginning of a walk."""
        if event.button() != Qt.MouseButton.LeftButton:
            super().mousePressEvent(event)
        elif self._room().direction_under(event.position()) is not None:
            self._pressed = event.position()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Hover, or walk with the button held."""
        room, where = self._room(), event.position()
        if self._pressed is None:
            self._set_cross(None)
            self._tell(room.direction_under(where))
            return
        if not self._walking and (where - self._pressed).manhattanLength() > DRAG_PX:
            self._walking = True
            self._tell(None)
            self.walk_began.emit()
        if self._walking:
            self.walked.emit(room.direction_under(where, within=False))

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """The end of a walk, or a click."""
        if event.button() != Qt.MouseButton.LeftButton or self._pressed is None:
            return
        pressed, self._pressed = self._pressed, None
        if self._walking:
            self._walking = False
            self.walk_ended.emit()
        else:
            self.chosen.emit(self._room().direction_under(pressed))

    def leaveEvent(self, event: QEvent) -> None:
        """Nothing is hovered any more."""
        if self._pressed is None and self.cross is None:
            self._tell(None)
        super().leaveEvent(event)

    # --- the keys
    def event(self, event: QEvent) -> bool:
        """Keep our keys from the shortcuts of the same name while the map has them."""
        ours = (*GO_KEYS, *ARROWS, Qt.Key.Key_Home)
        if event.type() == QEvent.Type.ShortcutOverride and event.key() in ours:
            event.accept()
            return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Arrows walk a cross, Home brings it to the present direction, Return turns there."""
        key = Qt.Key(event.key())
        if key == Qt.Key.Key_Escape and self.put_away():
            return
        if key in ARROWS:
            fine = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
            start = self.cross if self.cross is not None else self._start()
            self._set_cross(stepped(start, *ARROWS[key], FINE_STEP_DEG if fine else STEP_DEG))
            self._tell(self.cross)
        elif key == Qt.Key.Key_Home:
            self._set_cross(self._start())
            self._tell(self.cross)
        elif key in GO_KEYS and self.cross is not None:
            self.chosen.emit(self.cross)
        else:
            super().keyPressEvent(event)

    def put_away(self) -> bool:
        """Escape: break off the walk, or take the cross away; False if there was neither."""
        if self._walking:
            self._walking, self._pressed = False, None
            self.walk_cancelled.emit()
            return True
        if self.cross is None:
            return False
        self._set_cross(None)
        self._tell(None)
        return True

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Show that the keys work here."""
        self.update()
        super().focusInEvent(event)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """The cross goes with the keys."""
        if self.cross is not None:
            self._set_cross(None)
            self._tell(None)
        self.update()
        super().focusOutEvent(event)

    def _start(self) -> np.ndarray:
        present = self._marks.present
        return np.array([0.0, 0.0, 1.0]) if present is None else np.asarray(present, np.float64)

    def _set_cross(self, up: np.ndarray | None) -> None:
        if up is not None or self.cross is not None:
            self.cross = up
            self.update()


def stepped(up: np.ndarray, right: int, upward: int, angle_deg: float) -> np.ndarray:
    """(3,) the direction an angle away from `up`, towards the right or the top of its disc."""
    disc, place = on_discs(np.asarray(up, np.float64)[None])
    x, y = place[0]
    # Looked at backwards where a small step outwards would leave the disc.
    sign = -1.0 if x * right + y * upward > 0 else 1.0
    step = 1e-4 * sign
    along = (direction_at(int(disc[0]), x + step * right, y + step * upward) - up) * sign
    along -= up * float(along @ up)
    along /= np.linalg.norm(along)
    angle = np.radians(angle_deg)
    found = np.cos(angle) * np.asarray(up, np.float64) + np.sin(angle) * along
    return found / np.linalg.norm(found)
