"""The size of type, for the whole program."""

from PySide6.QtWidgets import QApplication

from viewer.window.kept_choices import type_percent


def set_type_size(application: QApplication) -> None:
    """Take the desktop's type at the chosen percentage; to be called before a window is made."""
    font = application.font()
    if font.pointSizeF() > 0:
        font.setPointSizeF(font.pointSizeF() * type_percent() / 100)
    else:
        font.setPixelSize(round(font.pixelSize() * type_percent() / 100))
    application.setFont(font)
