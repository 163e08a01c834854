"""The legend of the present lens as a strip under the scene: scale, colours, hatches, letters."""

import numpy as np
from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QImage, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from viewer.scene.legends import Entry, Hatch, Legend, Scale
from viewer.window.quantities import number_text
from viewer.window.theme import LIGHT, Theme, scene_theme
from viewer.words import say, written

STRIP_PX, LINE_PX, PATCH_PX, SCALE_PX = 58, 25, 16, 210
LEAST_NOTE_PX = 300  # in less width a sentence would run into more lines than there are
START, MIDDLE = Qt.AlignmentFlag.AlignLeft, Qt.AlignmentFlag.AlignVCenter


class LegendStrip(QWidget):
    """Draws a `Legend`; its height never changes, so the scene keeps its size."""

    def __init__(self) -> None:
        super().__init__()
        self._legend: Legend | None = None
        self._theme = LIGHT
        self.setFixedHeight(STRIP_PX)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_legend(self, legend: Legend) -> None:
        """Draw another legend."""
        self._legend = legend
        self.setToolTip(legend.explanation)
        self.setAccessibleName(spoken(legend))
        self.update()

    def show_theme(self, theme: Theme) -> None:
        """Draw in the colours of another theme."""
        self._theme = theme
        self.update()

    def sizeHint(self) -> QSize:
        """Any width."""
        return QSize(400, STRIP_PX)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Title, then scale and entries, which run on to a second line where they must."""
        if self._legend is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        legend, metrics = self._legend, self.fontMetrics()
        painter.setPen(QColor(self._theme.text))
        bold = painter.font()
        bold.setBold(True)
        painter.setFont(bold)
        title = f"{legend.title}, {legend.unit}" if legend.unit else legend.title
        painter.drawText(QRectF(12, 6, 200, 20), MIDDLE, title)
        left = 12 + max(96, painter.fontMetrics().horizontalAdvance(title) + 24)
        painter.setFont(self.font())
        x, y = left, 6
        if legend.scale is not None:
            self._draw_scale(painter, legend.scale, x, y)
            x += SCALE_PX + 30
        for entry in legend.entries:
            width = PATCH_PX + 6 + metrics.horizontalAdvance(entry.label) + 16
            if x + width > self.width() - 4 and x > left:
                x, y = left, y + LINE_PX
            self._draw_entry(painter, entry, x, y)
            x += width
        if legend.note:
            if x > left and self.width() - x < LEAST_NOTE_PX:  # below is more room
                x, y = left + (SCALE_PX + 30 if legend.scale is not None else 0), y + LINE_PX
            room = QRectF(x, y, self.width() - x - 8, STRIP_PX - y)
            painter.drawText(room, Qt.TextFlag.TextWordWrap, legend.note)
        painter.end()

    def _draw_entry(self, painter: QPainter, entry: Entry, x: float, y: float) -> None:
        patch = QRectF(x, y + 2, PATCH_PX, PATCH_PX)
        colour = QColor.fromRgbF(*entry.colour)
        if entry.hatch is Hatch.TRANSLUCENT:  # the scene draws supports in a grey of its theme
            colour = QColor.fromRgbF(*scene_theme(self._theme).support)
            colour.setAlphaF(0.5)
        painter.setPen(QPen(QColor(self._theme.edge), 1))
        painter.setBrush(colour)
        painter.drawRect(patch)
        ink = QColor("#1e1e1e" if _lightness(entry.colour) > 0.2 else "#ffffff")
        draw_hatch(painter, patch, entry.hatch, ink)
        if entry.letter and entry.hatch is Hatch.NONE:
            painter.setPen(ink)
            painter.drawText(patch, Qt.AlignmentFlag.AlignCenter, entry.letter)
        painter.setPen(QColor(self._theme.text))
        painter.drawText(QRectF(patch.right() + 6, y, 400, 20), MIDDLE, entry.label)

    def _draw_scale(self, painter: QPainter, scale: Scale, x: float, y: float) -> None:
        bar = QRectF(x, y + 2, SCALE_PX, 14)
        stops = np.ascontiguousarray(np.round(255 * scale.stops), np.uint8).tobytes()
        count = len(scale.stops)
        image = QImage(stops, count, 1, 3 * count, QImage.Format.Format_RGB888)
        painter.drawImage(bar, image)
        painter.setPen(QPen(QColor(self._theme.edge), 1))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(bar)
        span = scale.high - scale.low
        share = (scale.mark - scale.low) / span if span > 0 else 0.0
        place, below = x + SCALE_PX * min(max(share, 0.0), 1.0), bar.bottom() + 1
        painter.setPen(QColor(self._theme.text))
        painter.setBrush(QColor(self._theme.text))
        corners = (0, 0), (-4, 6), (4, 6)
        painter.drawPolygon(QPolygonF([QPointF(place + dx, below + dy) for dx, dy in corners]))
        words = painter.fontMetrics().horizontalAdvance(scale.mark_label)
        at_end = share > 0.999
        least, most = x + 22, x + SCALE_PX - words - (0 if at_end else 34)
        start = max(min(place - words / 2, most), least)
        painter.drawText(QRectF(x, below + 7, 60, 18), START, tick_text(scale.low))
        painter.drawText(QRectF(start, below + 7, words + 8, 18), START, scale.mark_label)
        if not at_end:
            end = QRectF(x + SCALE_PX - 60, below + 7, 60, 18)
            painter.drawText(end, Qt.AlignmentFlag.AlignRight, tick_text(scale.high) + scale.above)


def tick_text(value: float) -> str:
    """A number at an end of the scale."""
    return written(value, "g") if value == round(value) else number_text(value)


def draw_hatch(painter: QPainter, patch: QRectF, hatch: Hatch, ink: QColor) -> None:
    """Draw the pattern of `hatch` over a patch."""
    painter.save()
    painter.setClipRect(patch)
    painter.setPen(QPen(ink, 1.3))
    left, top, right, bottom = patch.left(), patch.top(), patch.right(), patch.bottom()
    if hatch is Hatch.DOTS:
        painter.setBrush(ink)
        painter.setPen(Qt.PenStyle.NoPen)
        for dx in (4, 8, 12):
            for dy in (4, 8, 12):
                painter.drawEllipse(QPointF(left + dx, top + dy), 1.2, 1.2)
    elif hatch is Hatch.LEVEL:
        for k in range(2, PATCH_PX, 5):
            painter.drawLine(QPointF(left, top + k), QPointF(right, top + k))
    elif hatch in (Hatch.RISING, Hatch.FALLING):
        lean = PATCH_PX if hatch is Hatch.RISING else -PATCH_PX
        for k in range(-PATCH_PX, 2 * PATCH_PX + 1, 5):
            painter.drawLine(QPointF(left + k, bottom), QPointF(left + k + lean, top))
    painter.restore()


def _lightness(colour: tuple[float, float, float]) -> float:
    red, green, blue = colour
    return 0.2126 * red**2.2 + 0.7152 * green**2.2 + 0.0722 * blue**2.2


def _spoken_entry(entry: Entry) -> str:
    """Its label and the pattern it is known by."""
    hatched = entry.hatch is not Hatch.NONE
    return f"{entry.label} ({say(entry.hatch.value)})" if hatched else entry.label


def spoken(legend: Legend) -> str:
    """The legend in words, for screen readers."""
    words = [
        say("Legend, {title}: {explanation}", title=legend.title, explanation=legend.explanation)
    ]
    if legend.scale is not None:
        words.append(
            say(
                "Scale from {low:g} to {high:g} {unit}, line at {mark_label}.",
                low=legend.scale.low,
                high=legend.scale.high,
                unit=legend.unit,
                mark_label=legend.scale.mark_label,
            )
        )
    if legend.entries:
        words.append(", ".join(map(_spoken_entry, legend.entries)) + ".")
    words += [legend.note] if legend.note else []
    return " ".join(words)
