"""The bar at the top of a pane that makes it higher or lower: drag it, or arrow keys."""

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QColor, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPalette
from PySide6.QtWidgets import QWidget

from viewer.words import say

GRIP_PX, STEP_PX = 8, 20
SHARE = 0.6  # of the window that a pane takes at most; the scene stays visible


class PaneGrip(QWidget):
    """Sets the fixed height of its pane."""

    def __init__(self, pane: QWidget, least_px: int) -> None:
        super().__init__(pane)
        self._pane, self._least_px = pane, least_px
        self._from: tuple[float, int] | None = None
        self._by_hand = False
        self.setFixedHeight(GRIP_PX)
        self.setCursor(Qt.CursorShape.SplitVCursor)
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.setAccessibleName(say("Height of the direction map"))
        self.setToolTip(say("Drag, or press the arrow keys up and down, to make room."))

    def set_wanted(self, share: float) -> None:
        """A share of the window's height, until the user makes it higher or lower."""
        if not self._by_hand:
            self.set_pane_px(round(share * self.window().height()))

    def set_pane_px(self, height_px: int) -> None:
        """Give the pane a height, within what the window has room for."""
        most = max(round(SHARE * self.window().height()), self._least_px)
        self._pane.setFixedHeight(min(max(height_px, self._least_px), most))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Three dots, and the focus."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        palette, middle = self.palette(), QPointF(self.rect().center()) + QPointF(0.5, 0.5)
        ink = palette.color(
            QPalette.ColorRole.Highlight if self.hasFocus() else QPalette.ColorRole.Dark
        )
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(ink))
        for across in (-10, 0, 10):
            painter.drawEllipse(middle + QPointF(across, 0), 1.7, 1.7)
        painter.end()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take hold."""
        if event.button() == Qt.MouseButton.LeftButton:
            self._from = (event.globalPosition().y(), self._pane.height())

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Follow the pointer."""
        if self._from is not None:
            start, height = self._from
            self._by_hand = True
            self.set_pane_px(round(height + start - event.globalPosition().y()))

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Let go."""
        self._from = None

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Up makes the pane higher, Down lower."""
        steps = {Qt.Key.Key_Up: STEP_PX, Qt.Key.Key_Down: -STEP_PX}
        if event.key() in steps:
            self._by_hand = True
            self.set_pane_px(self._pane.height() + steps[event.key()])
        else:
            super().keyPressEvent(event)
