"""The legend under the direction map: scale with its unit, and every sign and hatch in words."""

import numpy as np
from PySide6.QtCore import QPointF, QRectF, QSizeF, Qt
from PySide6.QtGui import QColor, QImage, QPainter, QPen

from viewer.scene.palettes import direction_table
from viewer.window.map_drawing import (
    HATCHES,
    INK,
    LEGEND_PX,
    LIGHT_INK,
    MARGIN_PX,
    PRESENT_INK,
    MapPicture,
    draw_sign,
)
from viewer.window.map_layers import MapLayer
from viewer.window.theme import Theme
from viewer.words import later, say

SCALE_PX, ROW_PX, SIGN_PX = 110, 16, 24
SIGNS = (
    ("result", later("best")),
    ("flat", later("stands flat")),
    ("kept", later("kept")),
    ("present", later("now")),
)
# Short names of what a hatch means, by the limit that cuts.
CUT_WORDS = {
    "fits": later("too large"),
    "stands": later("falls over"),
    "no-touch-on-a": later("touches A"),
    "no-unreachable": later("unreachable"),
}


def draw_legend(painter: QPainter, shown: MapPicture, size: QSizeF, theme: Theme) -> None:
    """Scale at the left, words at the right of it."""
    top = size.height() - LEGEND_PX + 6
    left = MARGIN_PX + _draw_scale(painter, shown.layer, top, theme) + 18
    entries = [("sign", kind, say(word)) for kind, word in SIGNS]
    entries += [("cut", key, say(CUT_WORDS[key])) for key in shown.cut]
    if shown.has_outline:
        entries.append(("line", "", say("outline: A untouched")))
    x, y = left, top
    for what, key, word in entries:
        wide = SIGN_PX + painter.fontMetrics().horizontalAdvance(word) + 12
        if x + wide > size.width() - 4 and x > left:
            x, y = left, y + ROW_PX
        _draw_entry(painter, what, key, QPointF(x + 9, y + ROW_PX / 2))
        painter.setPen(QColor(theme.text))
        line = QRectF(x + SIGN_PX, y, wide, ROW_PX)
        painter.drawText(line, Qt.AlignmentFlag.AlignVCenter, word)
        x += wide


def scale_ends(layer: MapLayer) -> tuple[tuple[str, str], tuple[str, str]]:
    """What stands under the ends of the scale, worst and then best: the value, and the word."""
    low, high = layer.value_text(layer.low), layer.value_text(layer.high)
    worst, best = (low, high) if layer.measure.more_is_better else (high, low)
    return (worst, say("worst")), (best, say("best, pale"))


def _draw_scale(painter: QPainter, layer: MapLayer, top: float, theme: Theme) -> float:
    """Colours from the worst to the best; returns how wide it is."""
    metrics, ends = painter.fontMetrics(), scale_ends(layer)
    rows = zip(*ends, strict=True)
    wide = max(SCALE_PX, *(12 + sum(map(metrics.horizontalAdvance, row)) for row in rows))
    bar = QRectF(MARGIN_PX, top + 2, wide, 12)
    row = np.ascontiguousarray(np.round(255 * direction_table()).astype(np.uint8)).tobytes()
    painter.drawImage(bar, QImage(row, 256, 1, 768, QImage.Format.Format_RGB888).copy())
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(QPen(QColor(theme.edge), 1))
    painter.drawRect(bar)
    sides = (Qt.AlignmentFlag.AlignLeft, Qt.AlignmentFlag.AlignRight)
    for texts, side in zip(ends, sides, strict=True):
        inks = ((theme.text, 15), (theme.quiet_text, 30))
        for text, (colour, down) in zip(texts, inks, strict=True):
            painter.setPen(QColor(colour))
            painter.drawText(QRectF(MARGIN_PX, top + down, wide, ROW_PX), side, text)
    return wide


def _draw_entry(painter: QPainter, what: str, key: str, at: QPointF) -> None:
    painter.save()
    if what == "sign":
        painter.translate(at)
        painter.scale(0.75, 0.75)
        accent = QColor(PRESENT_INK) if key == "present" else None
        draw_sign(painter, key, QPointF(0, 0), "1" if key == "result" else "", accent)
    else:
        patch = QRectF(at.x() - 8, at.y() - 7, 16, 14)
        painter.fillRect(patch, QColor("#c9c3d2"))
        painter.setClipRect(patch)
        if what == "line":
            for colour, width in ((LIGHT_INK, 4.0), (INK, 2.0)):
                painter.setPen(QPen(QColor(colour), width))
                painter.drawLine(patch.bottomLeft(), patch.topRight())
        else:
            painter.setPen(QPen(QColor(INK), 1.1))
            painter.translate(at)
            painter.rotate(-HATCHES[key])
            for offset in (-10, -5, 0, 5, 10):
                painter.drawLine(QPointF(-14, offset), QPointF(14, offset))
    painter.restore()
