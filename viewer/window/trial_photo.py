"""A photo of a test piece as it is kept: small, upright, and without where it was taken."""

from pathlib import Path

from PySide6.QtCore import QBuffer, QIODevice, Qt
from PySide6.QtGui import QImage, QPainter

from viewer.files.picture_reading import read_picture_safely

LONGEST_PX = 1600
_QUALITY = 85  # of JPEG, 0 to 100
PHOTO_PATTERNS = ("*.jpg", "*.jpeg", "*.png", "*.webp", "*.bmp")


def photo_of(path: Path) -> bytes:
    """The picture file as JPEG, its longer side at most LONGEST_PX.

    It is written anew, so that what a camera notes beside it (place, time, owner) stays behind.
    Raises FileProblem.
    """
    pixels = read_picture_safely(path, (LONGEST_PX, LONGEST_PX))
    height_px, width_px, _ = pixels.shape
    content = pixels.tobytes()  # which the image does not copy
    image = QImage(content, width_px, height_px, 4 * width_px, QImage.Format.Format_RGBA8888)
    plain = QImage(image.size(), QImage.Format.Format_RGB32)  # words of the file stay behind
    plain.fill(Qt.GlobalColor.white)
    painter = QPainter(plain)
    painter.drawImage(0, 0, image)
    painter.end()
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    plain.save(buffer, "JPEG", _QUALITY)
    return bytes(buffer.data())
