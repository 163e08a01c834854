"""Finished prints against their estimates: points, the fitted curve, and its range."""

import math

import numpy as np
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QWidget

from viewer.shop.calibrate import Calibration, fit_curve
from viewer.window.quantities import number_text
from viewer.words import say

_LEFT_PX, _BOTTOM_PX, _TOP_PX, _RIGHT_PX = 58, 36, 10, 12
_STEPS = 60


class CalibrationChart(QWidget):
    """Both axes logarithmic and alike: the dotted diagonal is a perfect estimate."""

    def __init__(self) -> None:
        super().__init__()
        self.setMinimumSize(320, 260)
        self._calibration = Calibration()
        self._estimated, self._real = np.zeros(0), np.zeros(0)
        self._unit, self._scale = "", 1.0

    def show_prints(
        self,
        estimated: np.ndarray,
        real: np.ndarray,
        calibration: Calibration,
        unit: str,
        scale: float = 1.0,
    ) -> None:
        """(n,) float64 estimated and real values in `unit`, and what was fitted to them.

        scale : what the calibration counts in one `unit`, such as 3600 s in an hour
        """
        self._estimated, self._real = np.asarray(estimated, float), np.asarray(real, float)
        self._calibration, self._unit, self._scale = calibration, unit, scale
        self.setAccessibleName(
            say("Chart: {count} finished prints against their estimates", count=len(estimated))
        )
        self.update()

    def span(self) -> tuple[float, float]:
        """Least and greatest value of both axes."""
        values = np.concatenate([self._estimated, self._real])
        if not len(values):
            return 1.0, 10.0
        return float(values.min()) / 1.5, float(values.max()) * 1.5

    def place_of(self, estimated: float, real: float) -> QPointF:
        """Where a pair of values is drawn."""
        low, high = (math.log(value) for value in self.span())
        box = self._box()
        across, up = ((math.log(value) - low) / (high - low) for value in (estimated, real))
        return QPointF(box.left() + across * box.width(), box.bottom() - up * box.height())

    def _box(self) -> QRectF:
        width, height = self.width(), self.height()
        return QRectF(_LEFT_PX, _TOP_PX, width - _LEFT_PX - _RIGHT_PX,
                      height - _TOP_PX - _BOTTOM_PX)  # fmt: skip

    def paintEvent(self, event: QPaintEvent) -> None:
        """Range, curve, diagonal, points, axes."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        palette = self.palette()
        ink, accent = palette.windowText().color(), palette.highlight().color()
        self._paint_axes(painter, ink)
        if self._calibration.prints:
            self._paint_curve(painter, accent)
        painter.setPen(QPen(ink, 1.5))
        painter.setBrush(palette.window())
        for estimated, real in zip(self._estimated, self._real, strict=True):
            painter.drawEllipse(self.place_of(estimated, real), 4.0, 4.0)
        painter.end()

    def _paint_curve(self, painter: QPainter, accent: QColor) -> None:
        low, high = self.span()
        at = np.geomspace(low, high, _STEPS)
        curves = fit_curve(self._calibration, at * self._scale)
        lows, likely, highs = (curve / self._scale for curve in curves)
        painter.save()
        painter.setClipRect(self._box())
        band = [self.place_of(x, y) for x, y in zip(at, highs, strict=True)]
        band += [self.place_of(x, y) for x, y in zip(at[::-1], lows[::-1], strict=True)]
        soft = QColor(accent)
        soft.setAlpha(60)
        painter.setPen(QPen(accent, 1.0, Qt.PenStyle.DashLine))
        painter.setBrush(soft)
        painter.drawPolygon(QPolygonF(band))
        painter.setPen(QPen(accent, 2.0))
        painter.drawPolyline([self.place_of(x, y) for x, y in zip(at, likely, strict=True)])
        painter.restore()

    def _paint_axes(self, painter: QPainter, ink: QColor) -> None:
        box, (low, high) = self._box(), self.span()
        painter.setPen(QPen(ink, 1.0))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(box)
        painter.setPen(QPen(ink, 1.0, Qt.PenStyle.DotLine))
        painter.drawLine(self.place_of(low, low), self.place_of(high, high))
        painter.setPen(QPen(ink, 1.0))
        for value in np.geomspace(low * 1.2, high / 1.2, 3):
            words = number_text(float(value))
            place = self.place_of(value, value)
            below = QRectF(place.x() - 40, box.bottom() + 2, 80, 16)
            painter.drawText(below, Qt.AlignmentFlag.AlignHCenter, words)
            beside = QRectF(0, place.y() - 8, _LEFT_PX - 5, 16)
            painter.drawText(beside, Qt.AlignmentFlag.AlignRight, words)
        name = say("estimated, {unit} (upright: real)", unit=self._unit)
        under = QRectF(box.left(), box.bottom() + 17, box.width(), 17)
        painter.drawText(under, Qt.AlignmentFlag.AlignHCenter, name)
