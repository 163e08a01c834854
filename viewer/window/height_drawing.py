"""Draws the chart of the height strip; what it draws is in `height_chart`, where in `StripRoom`."""

from typing import NamedTuple

import numpy as np
from PySide6.QtCore import QPointF, QRectF, QSizeF, Qt
from PySide6.QtGui import QColor, QFontMetrics, QPainter, QPen, QPolygonF

from viewer.scene.fault_looks import FaultLook
from viewer.window.height_chart import Band, Chart, Curve, Style, round_step, steps
from viewer.window.legend_strip import draw_hatch
from viewer.window.quantities import number_text
from viewer.window.theme import Theme
from viewer.words import say

MARGIN_PX = 14
TOP_PX, BAND_PX, AXIS_PX = 26, 9, 17  # room for the words, the bands of faults, the heights
LEFT, RIGHT = Qt.AlignmentFlag.AlignLeft, Qt.AlignmentFlag.AlignRight
MIDDLE = Qt.AlignmentFlag.AlignVCenter
HATCH_PX, TICK_PX = 5, 4


class StripRoom(NamedTuple):
    """Where the curves stand, and how wide one layer is."""

    rect: QRectF
    layer_px: float

    @classmethod
    def of(cls, size: QSizeF, layer_count: int) -> "StripRoom":
        """The room in a strip of this size."""
        high = size.height() - TOP_PX - BAND_PX - AXIS_PX
        rect = QRectF(MARGIN_PX, TOP_PX, max(size.width() - 2 * MARGIN_PX, 1.0), high)
        return cls(rect, rect.width() / max(layer_count, 1))

    def place_of(self, layer: int) -> QPointF:
        """Where the middle of a layer lies."""
        return QPointF(self.rect.left() + (layer + 0.5) * self.layer_px, self.rect.center().y())

    def layer_at(self, x_px: float, layer_count: int) -> int:
        """The layer under a place."""
        layer = int((x_px - self.rect.left()) / self.layer_px)
        return min(max(layer, 0), layer_count - 1)


def draw_chart(painter: QPainter, chart: Chart, room: StripRoom, theme: Theme) -> None:
    """Curves, axis, faults, islands and heights."""
    rect = room.rect
    for curve in chart.curves:
        _draw_curve(painter, curve, rect, theme)
    painter.setPen(QPen(QColor(theme.edge), 1))
    painter.drawLine(rect.bottomLeft(), rect.bottomRight())
    for band in chart.bands:
        _draw_band(painter, band, room)
    _draw_islands(painter, chart, room, theme)
    if chart.curves:
        _draw_heights(painter, chart, room, theme)


def _draw_curve(painter: QPainter, curve: Curve, rect: QRectF, theme: Theme) -> None:
    if not curve.highest > 0:
        return
    count = max(int(rect.width()), 1)
    rises = steps(curve.values, count) * (rect.height() / curve.highest)
    across = rect.left() + np.repeat(np.arange(count + 1), 2)[1:-1] * rect.width() / count
    down = rect.bottom() - np.repeat(rises, 2)
    # Of a level stretch its two ends say all.
    level = np.zeros(len(down), bool)
    level[1:-1] = (down[1:-1] == down[:-2]) & (down[1:-1] == down[2:])
    corners = [
        QPointF(x, y) for x, y in zip(across[~level].tolist(), down[~level].tolist(), strict=True)
    ]
    points = QPolygonF(corners)
    body = QPolygonF([rect.bottomLeft(), *corners, rect.bottomRight()])
    painter.setPen(Qt.PenStyle.NoPen)
    if curve.style is Style.BODY:
        painter.setBrush(_soft(theme))
        painter.drawPolygon(body)
        painter.setPen(QPen(QColor(theme.accent), 1.2))
    elif curve.style is Style.HATCHED:
        painter.setBrush(Qt.BrushStyle.BDiagPattern)
        brush = painter.brush()
        brush.setColor(QColor(theme.edge))
        painter.setBrush(brush)
        painter.drawPolygon(body)
        painter.setPen(QPen(QColor(theme.quiet_text), 1.0))
    else:
        painter.setPen(QPen(QColor(theme.text), 1.2, Qt.PenStyle.DashLine))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawPolyline(points)


def _soft(theme: Theme) -> QColor:
    colour = QColor(theme.accent)
    colour.setAlpha(60)
    return colour


def _draw_band(painter: QPainter, band: Band, room: StripRoom) -> None:
    left = room.rect.left() + band.first * room.layer_px
    wide = max((band.last + 1 - band.first) * room.layer_px, 3.0)
    colour = QColor.fromRgbF(*band.look.colour)
    veil = QColor(colour)
    veil.setAlpha(38)
    painter.fillRect(QRectF(left, room.rect.top(), wide, room.rect.height()), veil)
    bar = QRectF(left, room.rect.bottom() + 1, wide, BAND_PX - 2)
    painter.fillRect(bar, colour)
    if wide > 6:
        _draw_long_hatch(painter, bar, band.look)


def _draw_long_hatch(painter: QPainter, bar: QRectF, look: FaultLook) -> None:
    """The hatch of a legend's patch, repeated along a bar."""
    ink = QColor("#1e1e1e")
    ink.setAlpha(150)
    x = bar.left()
    while x < bar.right():
        patch = QRectF(x, bar.top(), min(16.0, bar.right() - x), bar.height())
        draw_hatch(painter, patch, look.hatch, ink)
        x += 16.0


def _draw_islands(painter: QPainter, chart: Chart, room: StripRoom, theme: Theme) -> None:
    """A small triangle over the axis where islands start, one for each pixel at most."""
    painter.setPen(QPen(QColor(theme.window), 1))
    painter.setBrush(QColor(theme.text))
    last_px = -2.0 * TICK_PX
    for layer in np.flatnonzero(chart.islands).tolist():
        x, y = room.place_of(layer).x(), room.rect.bottom()
        if x - last_px < 2:
            continue
        last_px = x
        corners = (QPointF(x, y - 9), QPointF(x - TICK_PX, y - 1), QPointF(x + TICK_PX, y - 1))
        painter.drawPolygon(QPolygonF(corners))


def _draw_heights(painter: QPainter, chart: Chart, room: StripRoom, theme: Theme) -> None:
    """Round heights along the axis, from the platform's end to the top's."""
    rect, words = room.rect, QFontMetrics(painter.font())
    whole_mm = chart.layer_count * chart.layer_mm
    step_mm = round_step(whole_mm * 90.0 / rect.width())
    top = rect.bottom() + BAND_PX
    painter.setPen(QColor(theme.quiet_text))
    last = f"{number_text(chart.height_mm, 1)} mm"
    painter.drawText(QRectF(rect.right() - 90, top, 90, AXIS_PX), RIGHT | MIDDLE, last)
    free = rect.right() - words.horizontalAdvance(last) - 12
    for number in range(int(whole_mm / step_mm) + 1):
        x = rect.left() + number * step_mm / whole_mm * rect.width()
        text = f"{number * step_mm:g}"
        wide = words.horizontalAdvance(text)
        start = x if number == 0 else x - wide / 2
        if start + wide > free:
            break
        painter.drawLine(QPointF(x, rect.bottom()), QPointF(x, rect.bottom() + 3))
        painter.drawText(QRectF(start, top, wide + 4, AXIS_PX), LEFT | MIDDLE, text)


def draw_key(painter: QPainter, chart: Chart, line: QRectF, theme: Theme) -> None:
    """What the curves are and how far up they reach, as far as there is room."""
    words, x = painter.fontMetrics(), line.left()
    for curve in chart.curves:
        if not curve.highest > 0:
            continue
        text = say(
            "{name} up to {highest} {unit}",
            name=curve.name,
            highest=number_text(curve.highest),
            unit=curve.unit,
        )
        if x + 22 + words.horizontalAdvance(text) > line.right():
            return
        _draw_sign(painter, curve, QRectF(x, line.center().y() - 4, 16, 8), theme)
        painter.setPen(QColor(theme.quiet_text))
        painter.drawText(QRectF(x + 22, line.top(), 300, line.height()), LEFT | MIDDLE, text)
        x += 22 + words.horizontalAdvance(text) + 18
    if np.any(chart.islands) and x + 80 < line.right():
        y = line.center().y()
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(theme.text))
        corners = (QPointF(x + 4, y - 4), QPointF(x, y + 4), QPointF(x + 8, y + 4))
        painter.drawPolygon(QPolygonF(corners))
        painter.setPen(QColor(theme.quiet_text))
        painter.drawText(
            QRectF(x + 14, line.top(), 90, line.height()), LEFT | MIDDLE, say("island")
        )


def _draw_sign(painter: QPainter, curve: Curve, sign: QRectF, theme: Theme) -> None:
    if curve.style is Style.BODY:
        painter.fillRect(sign, _soft(theme))
        painter.fillRect(QRectF(sign.left(), sign.top(), 16, 1.5), QColor(theme.accent))
    elif curve.style is Style.HATCHED:
        painter.setPen(QPen(QColor(theme.quiet_text), 1.0))
        painter.drawLine(sign.topLeft(), sign.topRight())
        for k in range(0, 16, HATCH_PX):
            painter.drawLine(
                QPointF(sign.left() + k, sign.bottom()), QPointF(sign.left() + k + 5, sign.top())
            )
    else:
        painter.setPen(QPen(QColor(theme.text), 1.2, Qt.PenStyle.DashLine))
        painter.drawLine(QPointF(sign.left(), sign.center().y()),
                         QPointF(sign.right(), sign.center().y()))  # fmt: skip


def draw_line(painter: QPainter, place: QPointF, foot_px: float, theme: Theme) -> None:
    """The line at which the part is cut open, with a knob to take it by."""
    top, foot = QPointF(place.x(), TOP_PX - 2), QPointF(place.x(), foot_px)
    for colour, wide in ((theme.window, 4), (theme.accent, 2)):
        painter.setPen(QPen(QColor(colour), wide))
        painter.drawLine(top, foot)
    painter.setBrush(QColor(theme.accent))
    painter.drawEllipse(QPointF(place.x(), TOP_PX), 4.5, 4.5)
