"""Draws the direction map: colours, contours, hatches of cut directions, outline and marks."""

from dataclasses import dataclass, field
from typing import NamedTuple

import numpy as np
from PySide6.QtCore import QLineF, QPointF, QRectF, QSizeF, Qt
from PySide6.QtGui import QColor, QImage, QPainter, QPainterPath, QPen, QPolygonF

from viewer.geometry.direction_discs import (
    LEFT,
    RIGHT,
    contour,
    direction_at,
    hatch_lines,
    on_disc,
    on_discs,
    pixels_of,
)
from viewer.window.map_layers import MapLayer
from viewer.window.theme import Theme
from viewer.words import say

MARGIN_PX, GAP_PX, TOP_PX = 8, 14, 16
LEGEND_PX = 54
HATCH_GAP_PX = 10.0
# The direction of the lines of each limit's hatch; dashes tell them apart where they cross.
HATCHES = {"fits": 0.0, "stands": 90.0, "no-touch-on-a": 45.0, "no-unreachable": 135.0}
INK, LIGHT_INK, PRESENT_INK = "#141414", "#ffffff", "#0b5f96"


class MapRoom(NamedTuple):
    """Where the two discs lie in the widget."""

    centres: tuple[QPointF, QPointF]
    radius_px: float

    @classmethod
    def of(cls, size: QSizeF) -> "MapRoom":
        """As large as fits above the legend."""
        high = size.height() - TOP_PX - LEGEND_PX
        wide = size.width() - 2 * MARGIN_PX - GAP_PX
        radius = max(min(high / 2 - 2, wide / 4), 20.0)
        middle, down = size.width() / 2, TOP_PX + max(high / 2, radius)
        half = radius + GAP_PX / 2
        return cls((QPointF(middle - half, down), QPointF(middle + half, down)), radius)

    def place(self, up: np.ndarray) -> QPointF:
        """Where a direction lies."""
        disc, place = on_discs(np.asarray(up, np.float64)[None])
        return self.on(int(disc[0]), *place[0])

    def on(self, disc: int, x: float, y: float) -> QPointF:
        """Where a place of a disc lies."""
        centre = self.centres[disc]
        return QPointF(centre.x() + x * self.radius_px, centre.y() - y * self.radius_px)

    def direction_under(self, point: QPointF, within: bool = True) -> np.ndarray | None:
        """(3,) the direction under a point; `within` None off the discs, else the nearest."""
        nearer = min((LEFT, RIGHT), key=lambda k: QLineF(self.centres[k], point).length())
        centre = self.centres[nearer]
        x = (point.x() - centre.x()) / self.radius_px
        y = (centre.y() - point.y()) / self.radius_px
        if within and x * x + y * y > 1.0:
            return None
        return direction_at(nearer, x, y)


@dataclass(frozen=True, eq=False)
class MapMarks:
    """Directions (k, 3) that are marked; results in their order."""

    results: np.ndarray = field(default_factory=lambda: np.zeros((0, 3)))
    flats: np.ndarray = field(default_factory=lambda: np.zeros((0, 3)))
    kept: np.ndarray = field(default_factory=lambda: np.zeros((0, 3)))
    present: np.ndarray | None = None


@dataclass(frozen=True, eq=False)
class MapPicture:
    """What the map shows: colours, where no support touches A, what each limit cuts."""

    layer: MapLayer
    clean: np.ndarray
    cut: dict[str, np.ndarray]

    @property
    def has_outline(self) -> bool:
        """Whether supports touch class A in some directions and in others not."""
        return bool((self.clean == 1).any() and (self.clean == 0).any())


def draw_discs(painter: QPainter, shown: MapPicture, room: MapRoom, theme: Theme) -> None:
    """Everything but the marks."""
    for disc in (LEFT, RIGHT):
        rect = _square(room, disc)
        painter.drawImage(rect, _image(shown.layer, disc))
    _draw_contours(painter, shown, room)
    for key, shares in shown.cut.items():
        _draw_hatch(painter, shares, HATCHES[key], room)
    if shown.has_outline:
        ends = contour(shown.clean, 0.5)
        for colour, width in ((LIGHT_INK, 4.0), (INK, 2.0)):
            _draw_lines(painter, ends, room, QPen(QColor(colour), width))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(QPen(QColor(theme.edge), 1.2))
    for centre in room.centres:
        painter.drawEllipse(centre, room.radius_px, room.radius_px)
    _draw_axes(painter, room, theme)


def _square(room: MapRoom, disc: int) -> QRectF:
    radius, centre = room.radius_px, room.centres[disc]
    return QRectF(centre.x() - radius, centre.y() - radius, 2 * radius, 2 * radius)


def _image(layer: MapLayer, disc: int) -> QImage:
    pixels = pixels_of(disc)
    size = len(pixels.inside)
    image = np.zeros((size, size, 4), np.uint8)
    image[pixels.inside, :3] = layer.colours(pixels.blend(layer.values))
    image[pixels.inside, 3] = 255
    # Qt keeps the bytes it is given only as long as somebody else does.
    return QImage(image.tobytes(), size, size, 4 * size, QImage.Format.Format_RGBA8888).copy()


def _draw_contours(painter: QPainter, shown: MapPicture, room: MapRoom) -> None:
    pen = QPen(QColor(INK), 0.8)
    colour = pen.color()
    colour.setAlpha(130)
    pen.setColor(colour)
    for level in shown.layer.contour_levels():
        _draw_lines(painter, contour(shown.layer.values, level), room, pen)


def _draw_lines(painter: QPainter, ends: np.ndarray, room: MapRoom, pen: QPen) -> None:
    """Lines over the sphere, (s, 2, 3) unit ends, each on the disc that its middle lies on."""
    if not len(ends):
        return
    disc, _ = on_discs(ends.mean(axis=1))
    painter.save()
    painter.setPen(pen)
    for which in (LEFT, RIGHT):
        some = ends[disc == which]
        _clip(painter, room, which)
        places = on_disc(some.reshape(-1, 3), which).reshape(-1, 2, 2)
        painter.drawLines(_lines(places, room, which))
    painter.restore()


def _lines(places: np.ndarray, room: MapRoom, disc: int) -> list[QLineF]:
    centre, radius = room.centres[disc], room.radius_px
    x = centre.x() + places[:, :, 0] * radius
    y = centre.y() - places[:, :, 1] * radius
    rows = np.stack([x[:, 0], y[:, 0], x[:, 1], y[:, 1]], axis=1).tolist()
    return [QLineF(*row) for row in rows]


def _clip(painter: QPainter, room: MapRoom, disc: int) -> None:
    path = QPainterPath()
    path.addEllipse(room.centres[disc], room.radius_px, room.radius_px)
    painter.setClipPath(path)


def _draw_hatch(painter: QPainter, shares: np.ndarray, angle_deg: float, room: MapRoom) -> None:
    painter.save()
    for disc in (LEFT, RIGHT):
        pixels = pixels_of(disc)
        inside = np.zeros_like(pixels.inside)
        inside[pixels.inside] = pixels.blend(shares) > 0.5
        places = hatch_lines(inside, angle_deg, HATCH_GAP_PX / room.radius_px)
        lines = _lines(places, room, disc)
        for colour, alpha, width in ((LIGHT_INK, 70, 2.2), (INK, 150, 0.9)):
            ink = QColor(colour)
            ink.setAlpha(alpha)
            painter.setPen(QPen(ink, width))
            painter.drawLines(lines)
    painter.restore()


def _draw_axes(painter: QPainter, room: MapRoom, theme: Theme) -> None:
    """What the middle of each disc means, and axes of the part along the rims."""
    painter.setPen(QColor(theme.quiet_text))
    radius = room.radius_px
    titles = (say("Up as in the file"), say("Upside down"))
    for disc, (centre, title) in enumerate(zip(room.centres, titles, strict=True)):
        line = QRectF(centre.x() - radius, centre.y() - radius - TOP_PX, 2 * radius, TOP_PX)
        painter.drawText(line, Qt.AlignmentFlag.AlignCenter, title)
        right = 1 if disc == LEFT else -1
        sides = {"+X": (right, 0), "−X": (-right, 0), "+Y": (0, 1), "−Y": (0, -1)}
        painter.save()
        for name, (x, y) in sides.items():
            # Beside the axis, where a box stands flat and has its marks.
            at = room.on(disc, 0.85 * x, 0.88 * y) + QPointF(16.0 * abs(y), -12.0 * abs(x))
            box = QRectF(at.x() - 11, at.y() - 8, 22, 16)
            path = QPainterPath()
            metrics = painter.fontMetrics()
            left = at.x() - metrics.horizontalAdvance(name) / 2
            path.addText(QPointF(left, box.bottom() - 4), painter.font(), name)
            painter.strokePath(path, QPen(QColor(LIGHT_INK), 3))
            painter.fillPath(path, QColor(INK))
        painter.restore()


def draw_marks(painter: QPainter, marks: MapMarks, room: MapRoom, accent: QColor) -> None:
    """Flat-standing poses, kept ones, results with their numbers, and the present direction."""
    for up in marks.flats:
        draw_sign(painter, "flat", room.place(up))
    for up in marks.kept:
        draw_sign(painter, "kept", room.place(up))
    for place in range(len(marks.results) - 1, -1, -1):  # the best lies on top
        draw_sign(painter, "result", room.place(marks.results[place]), str(place + 1))
    if marks.present is not None:
        draw_sign(painter, "present", room.place(marks.present), accent=accent)


def draw_sign(
    painter: QPainter, kind: str, at: QPointF, text: str = "", accent: QColor | None = None
) -> None:
    """One sign; each kind has a form of its own."""
    painter.save()
    painter.setPen(QPen(QColor(INK), 1.3))
    painter.setBrush(QColor(LIGHT_INK))
    if kind == "flat":
        painter.drawRect(QRectF(at.x() - 3.5, at.y() - 3.5, 7, 7))
    elif kind == "kept":
        corners = ((0, -6), (6, 0), (0, 6), (-6, 0))
        painter.drawPolygon(QPolygonF([at + QPointF(x, y) for x, y in corners]))
    elif kind == "result":
        painter.drawEllipse(at, 8, 8)
        font = painter.font()
        font.setBold(True)
        font.setPixelSize(11)
        painter.setFont(font)
        painter.drawText(QRectF(at.x() - 9, at.y() - 9, 18, 18), Qt.AlignmentFlag.AlignCenter, text)
    else:
        _draw_cross(painter, at, 11.0 if kind == "present" else 8.0, accent or QColor(INK))
    painter.restore()


def _draw_cross(painter: QPainter, at: QPointF, reach: float, colour: QColor) -> None:
    """A ring with four strokes for the present direction, in its light halo."""
    painter.setBrush(Qt.BrushStyle.NoBrush)
    strokes = [
        QLineF(at + QPointF(x * 4, y * 4), at + QPointF(x * reach, y * reach))
        for x, y in ((1, 0), (-1, 0), (0, 1), (0, -1))
    ]
    for ink, width in ((QColor(LIGHT_INK), 4.0), (colour, 1.8)):
        painter.setPen(QPen(ink, width))
        painter.drawEllipse(at, 6.5, 6.5)
        painter.drawLines(strokes)
