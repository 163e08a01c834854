"""A larger mouse pointer, for tired eyes and for showing things to others on a call."""

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QColor, QCursor, QPainter, QPen, QPixmap, QPolygonF
from PySide6.QtWidgets import QWidget

from viewer.window.kept_choices import POINTERS_PX

# An arrow in a square of side 1, its tip at the corner.
OUTLINE = ((0, 0), (0, 0.86), (0.22, 0.66), (0.37, 1), (0.52, 0.93), (0.37, 0.61), (0.66, 0.61))


def arrow(size_px: int, ratio: float) -> QCursor:
    """A dark arrow with a light edge, seen on light and dark alike."""
    edge_px = max(size_px / 16, 2.0)
    picture = QPixmap(round(size_px * ratio), round(size_px * ratio))
    picture.setDevicePixelRatio(ratio)
    picture.fill(Qt.GlobalColor.transparent)
    painter = QPainter(picture)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(QColor("white"), edge_px))
    painter.setBrush(QColor("black"))
    inside_px = size_px - 2 * edge_px
    corners = [QPointF(edge_px + x * inside_px, edge_px + y * inside_px) for x, y in OUTLINE]
    painter.drawPolygon(QPolygonF(corners))
    painter.end()
    return QCursor(picture, round(edge_px), round(edge_px))


def show_pointer(window: QWidget, canvas: QWidget, choice: str) -> None:
    """Give window and scene the pointer of a size, a key of POINTERS_PX."""
    size_px = POINTERS_PX[choice]
    for widget in (window, canvas):
        if size_px:
            widget.setCursor(arrow(size_px, window.devicePixelRatioF()))
        else:
            widget.unsetCursor()
