"""Our own line icons, tinted with a colour of the theme."""

from PySide6.QtCore import QByteArray, QRectF, Qt
from PySide6.QtGui import QIcon, QPainter, QPixmap
from PySide6.QtSvg import QSvgRenderer

from viewer.resource_files import resource_file

SIZES_PX = (16, 20, 24, 32, 48)


def icon(name: str, colour: str, disabled_colour: str) -> QIcon:
    """The icon `icons/<name>.svg` with `currentColor` replaced, at all sizes Qt may ask for."""
    drawing = resource_file(f"icons/{name}.svg").read_text(encoding="utf-8")
    made = QIcon()
    for mode, tint in ((QIcon.Mode.Normal, colour), (QIcon.Mode.Disabled, disabled_colour)):
        svg = QSvgRenderer(QByteArray(drawing.replace("currentColor", tint).encode()))
        for side in SIZES_PX:
            pixmap = QPixmap(side, side)
            pixmap.fill(Qt.GlobalColor.transparent)
            painter = QPainter(pixmap)
            svg.render(painter, QRectF(0, 0, side, side))
            painter.end()
            made.addPixmap(pixmap, mode)
    return made
