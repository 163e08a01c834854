"""Draw the program's icon in every size that desktops ask for, from its one drawing.

    python packaging/make_icons.py FOLDER

FOLDER gets hicolor/SIZExSIZE/apps/org.showside.showside.png and the scalable drawing, as Linux
desktops look for them, showside.ico for Windows and showside.icns for macOS.
"""

import shutil
import sys
from pathlib import Path

from PIL import Image

ROOT = Path(__file__).resolve().parent.parent
DRAWING = ROOT / "resources" / "icons" / "showside.svg"
ID = "org.showside.showside"
SIZES_PX = (16, 22, 24, 32, 48, 64, 128, 256, 512)
WINDOWS_PX, LARGEST_PX = (16, 24, 32, 48, 64, 128, 256), 1024


def write_icons(folder: Path) -> None:
    """Write all of them."""
    hicolor = folder / "hicolor"
    scalable = hicolor / "scalable" / "apps"
    scalable.mkdir(parents=True, exist_ok=True)
    shutil.copyfile(DRAWING, scalable / f"{ID}.svg")
    for size_px in SIZES_PX:
        place = hicolor / f"{size_px}x{size_px}" / "apps"
        place.mkdir(parents=True, exist_ok=True)
        draw(size_px, place / f"{ID}.png")
    large = folder / "large.png"
    draw(LARGEST_PX, large)
    with Image.open(large) as picture:
        picture.save(folder / "showside.ico", sizes=[(px, px) for px in WINDOWS_PX])
        picture.save(folder / "showside.icns")
    large.unlink()


def draw(size_px: int, path: Path) -> None:
    """One square picture of the drawing."""
    from PySide6.QtCore import Qt
    from PySide6.QtGui import QImage, QPainter
    from PySide6.QtSvg import QSvgRenderer

    picture = QImage(size_px, size_px, QImage.Format.Format_ARGB32)
    picture.fill(Qt.GlobalColor.transparent)
    painter = QPainter(picture)
    QSvgRenderer(str(DRAWING)).render(painter)
    painter.end()
    if not picture.save(str(path)):
        raise SystemExit(f"{path} could not be written.")


if __name__ == "__main__":
    write_icons(Path(sys.argv[1]))
