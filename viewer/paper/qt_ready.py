"""Qt's fonts and text without a window: for the command line, where nothing else starts it."""

import os
import sys

from PySide6.QtGui import QGuiApplication

_kept: list[QGuiApplication] = []  # Python would delete it, and with it all fonts


def get_qt_ready() -> None:
    """Start Qt without a display, unless an application runs already."""
    if QGuiApplication.instance() is not None:
        return
    if sys.platform.startswith("linux"):  # elsewhere fonts come from the desktop, which is there
        os.environ["QT_QPA_PLATFORM"] = "offscreen"
    _kept.append(QGuiApplication(["showside"]))
