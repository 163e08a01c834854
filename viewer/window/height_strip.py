"""The height strip: the part against height, platform at the left, and a line that cuts it open.

The chart is drawn once into a picture; moving the line only draws the line anew.
"""

from PySide6.QtCore import QPointF, QRectF, QSize, QSizeF, Qt, Signal
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
    QWheelEvent,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from viewer.geometry.mesh_health import HealthReport
from viewer.geometry.pose_measures import PoseMeasures
from viewer.window.height_chart import Chart, chart_of
from viewer.window.height_drawing import (
    BAND_PX,
    LEFT,
    MARGIN_PX,
    MIDDLE,
    TOP_PX,
    StripRoom,
    draw_chart,
    draw_key,
    draw_line,
)
from viewer.window.pieces import button
from viewer.window.theme import LIGHT, Theme
from viewer.words import later, say

STRIP_PX = 104
PAGE = 10  # layers that Page Up and Page Down go, and a notch of the wheel with Shift
_NOTCH = 120  # eighths of a degree that one notch of a wheel counts for
WHOLE = later("Whole part")
_FAR = 1 << 40
_KEYS = {
    Qt.Key.Key_Right: 1,
    Qt.Key.Key_Up: 1,
    Qt.Key.Key_Left: -1,
    Qt.Key.Key_Down: -1,
    Qt.Key.Key_PageUp: PAGE,
    Qt.Key.Key_PageDown: -PAGE,
    Qt.Key.Key_Home: -_FAR,
    Qt.Key.Key_End: _FAR,
}


class HeightStrip(QWidget):
    """Chart of all layers with a line to drag.

    layer_chosen : number of the layer to cut at, from 0, or None for the whole part
    """

    layer_chosen = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self.setFixedHeight(STRIP_PX)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.SplitHCursor)
        self.setMouseTracking(True)
        self.setAccessibleName(say("Height strip"))
        self.chart = Chart()
        self._measures: PoseMeasures | None = None
        self._report: HealthReport | None = None
        self._theme, self._outdated = LIGHT, False
        self._picture: QPixmap | None = None
        self._held, self._scrolled = False, 0
        self.layer: int | None = None
        self.remark = ""
        self._whole = button(say(WHOLE), self.put_away, say("Close the cut (Esc)."))
        self._whole.setParent(self)
        self._whole.setCursor(Qt.CursorShape.ArrowCursor)
        self._whole.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._whole.hide()
        self._describe()

    # --- for the window
    def show_measures(self, measures: PoseMeasures | None) -> None:
        """Draw the profile of a pose at rest; numbers without one only dim what is there."""
        if measures is not None and measures.profile is None:
            self._set_outdated(True)
            return
        self._measures = measures
        self._set_outdated(False)
        self._draw_anew()

    def show_faults(self, report: HealthReport | None) -> None:
        """Draw the faults of a report; None for none."""
        self._report = report
        self._draw_anew()

    def show_theme(self, theme: Theme) -> None:
        """Draw in the colours of another theme."""
        self._theme = theme
        self._draw_anew()

    def show_remark(self, remark: str) -> None:
        """More about the layer under the line, such as gaps in its outline."""
        self.remark = remark
        self._describe()
        self.update()

    def choose(self, layer: int | None) -> None:
        """Put the line on a layer, or take it away."""
        if layer == self.layer:
            return
        self.layer, self.remark = layer, ""
        self._whole.setVisible(layer is not None)
        self._describe()
        self.update()
        self.layer_chosen.emit(layer)

    def put_away(self) -> bool:
        """Show the whole part again; False when it already is."""
        if self.layer is None:
            return False
        self._held = False
        self.choose(None)
        return True

    def place_of(self, layer: int) -> QPointF:
        """Where the middle of a layer lies in the strip."""
        return self._room().place_of(layer)

    # --- words
    def tip(self, x_px: float) -> str:
        """What lies under the pointer, one thing a line."""
        if not self.chart.layer_count:
            return say("A chart of the part against height comes with a part.")
        layer = self._room().layer_at(x_px, self.chart.layer_count)
        faults = [f"! {words}" for words in self.chart.fault_words(layer)]
        how = say("Drag, or turn the wheel, to cut the part open; Esc closes it.")
        return "\n".join([*self.chart.layer_words(layer), *faults, how])

    def _describe(self) -> None:
        if self.layer is None:
            words = say("The part against height, platform at the left. ")
            words += say("Arrow keys cut it open layer by layer.")
        else:
            here = ", ".join(self.chart.layer_words(self.layer))
            words = say(
                "Cut open at {here}. {remark} Esc closes it.", here=here, remark=self.remark
            )
        self.setAccessibleDescription(words)

    # --- drawing
    def sizeHint(self) -> QSize:
        """Any width."""
        return QSize(400, STRIP_PX)

    def _room(self) -> StripRoom:
        return StripRoom.of(QSizeF(self.size()), self.chart.layer_count)

    def _draw_anew(self) -> None:
        measures = self._measures
        if measures is None:
            self.chart = Chart()
        else:
            self.chart = chart_of(measures.profile, measures.height_mm, self._report)
        self._picture = None
        if self.layer is not None:  # a line beyond the new top goes to the top
            count = self.chart.layer_count
            self.choose(min(self.layer, count - 1) if count else None)
        self._describe()
        self.update()

    def _set_outdated(self, outdated: bool) -> None:
        if outdated != self._outdated:
            self._outdated = outdated
            self.update()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """The chart follows the width."""
        self._picture = None
        self._whole.adjustSize()
        self._whole.move(self.width() - MARGIN_PX - self._whole.width(), 1)
        super().resizeEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Show that the keys work here."""
        self.update()
        super().focusInEvent(event)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Show that the keys no longer work here."""
        self.update()
        super().focusOutEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        """The chart, then words and line."""
        room = self._room()
        if self._picture is None:
            scale = self.devicePixelRatioF()
            self._picture = QPixmap(self.size() * scale)
            self._picture.setDevicePixelRatio(scale)
            self._picture.fill(Qt.GlobalColor.transparent)
            painter = QPainter(self._picture)
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setFont(self.font())
            draw_chart(painter, self.chart, room, self._theme)
            painter.end()
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setOpacity(0.45 if self._outdated else 1.0)
        painter.drawPixmap(0, 0, self._picture)
        painter.setOpacity(1.0)
        self._draw_words(painter)
        if self.layer is not None:
            foot_px = room.rect.bottom() + BAND_PX
            draw_line(painter, room.place_of(self.layer), foot_px, self._theme)
        if self.hasFocus():
            painter.setPen(QPen(QColor(self._theme.accent), 1.5))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRoundedRect(QRectF(self.rect()).adjusted(2, 2, -2, -2), 4, 4)
        painter.end()

    def _draw_words(self, painter: QPainter) -> None:
        line = QRectF(MARGIN_PX, 3, self.width() - 2 * MARGIN_PX, TOP_PX - 6)
        bold = painter.font()
        bold.setBold(True)
        painter.setFont(bold)
        painter.setPen(QColor(self._theme.text))
        painter.drawText(line, LEFT | MIDDLE, say("Height"))
        line.setLeft(MARGIN_PX + painter.fontMetrics().horizontalAdvance(say("Height")) + 14)
        painter.setFont(self.font())
        if self.layer is not None:
            line.setRight(self._whole.x() - 8)
            words = [*self.chart.layer_words(self.layer), *([self.remark] if self.remark else [])]
            text = " · ".join(words)
            metrics = painter.fontMetrics()
            text = metrics.elidedText(text, Qt.TextElideMode.ElideRight, int(line.width()))
            painter.drawText(line, LEFT | MIDDLE, text)
        elif self.chart.curves:
            draw_key(painter, self.chart, line, self._theme)
        else:
            painter.setPen(QColor(self._theme.quiet_text))
            painter.drawText(line, LEFT | MIDDLE, say("Area of every layer, from the platform up"))

    # --- mouse and keys
    def _choose_at(self, x_px: float) -> None:
        self.choose(self._room().layer_at(x_px, self.chart.layer_count))

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Cut where the pointer is."""
        if event.button() != Qt.MouseButton.LeftButton or not self.chart.layer_count:
            super().mousePressEvent(event)
            return
        self._held = True
        self._choose_at(event.position().x())

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """The line follows the pointer while the button is held; the tip tells of its layer."""
        self.setToolTip(self.tip(event.position().x()))
        if self._held:
            self._choose_at(event.position().x())

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """The line stays where it was left."""
        if event.button() == Qt.MouseButton.LeftButton:
            self._held = False

    def wheelEvent(self, event: QWheelEvent) -> None:
        """A notch goes a layer up or down, with Shift ten; smooth wheels add up to notches."""
        turned = event.angleDelta()
        self._scrolled += turned.y() or turned.x()  # with Shift some systems turn it sideways
        notches = int(self._scrolled / _NOTCH)  # towards 0 in both directions
        self._scrolled -= notches * _NOTCH
        if notches and self.chart.layer_count:
            fast = event.modifiers() & Qt.KeyboardModifier.ShiftModifier
            self._go(notches * (PAGE if fast else 1))
        event.accept()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Arrows go by layers, Page Up and Down by ten, Home and End to the ends."""
        key, count = Qt.Key(event.key()), self.chart.layer_count
        if key == Qt.Key.Key_Escape and self.put_away():
            return
        step = _KEYS.get(key)
        if step is None or not count:
            super().keyPressEvent(event)
            return
        self._go(step)

    def _go(self, step: int) -> None:
        count = self.chart.layer_count
        start = self.layer if self.layer is not None else (-1 if step > 0 else count)
        self.choose(min(max(start + step, 0), count - 1))
