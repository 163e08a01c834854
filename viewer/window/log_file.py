"""The log file: what the program did and when, for the user to look at and to send if they like.

Nothing of a part is in it: no geometry, no content and no name of a file. It stays on this
computer.
"""

import logging
import platform
import sys
from importlib.metadata import PackageNotFoundError, version
from logging.handlers import RotatingFileHandler
from pathlib import Path

import platformdirs
from PySide6.QtCore import QLocale, QMessageLogContext, QSysInfo, QtMsgType, qInstallMessageHandler
from PySide6.QtGui import QGuiApplication

from viewer import __version__
from viewer.window.masked_text import masked, told_error

MOST_BYTES, KEPT_FILES = 500_000, 3
TOLD_PACKAGES = ("PySide6_Essentials", "vtk", "pyvista", "numba", "numpy", "lib3mf")
LEVELS = {
    QtMsgType.QtDebugMsg: logging.DEBUG,
    QtMsgType.QtInfoMsg: logging.INFO,
    QtMsgType.QtWarningMsg: logging.WARNING,
    QtMsgType.QtCriticalMsg: logging.ERROR,
    QtMsgType.QtFatalMsg: logging.CRITICAL,
}
log = logging.getLogger("viewer")
qt_log = logging.getLogger("viewer.qt")


class MaskedFormatter(logging.Formatter):
    """Writes lines without names of files, figures and quoted words; tracebacks by place alone."""

    def format(self, record: logging.LogRecord) -> str:
        """One line, and below it the places of the code that an error came through."""
        stamp = self.formatTime(record, "%Y-%m-%d %H:%M:%S")
        text = record.getMessage()
        kept = text if getattr(record, "plain", False) else masked(text)
        line = f"{stamp} {record.levelname.lower():8} {record.name}: {kept}"
        if record.exc_info and record.exc_info[1] is not None:
            line += "\n" + told_error(record.exc_info[1])
        return line


def log_folder() -> Path:
    """Where log and error texts lie."""
    return platformdirs.user_log_path("showside", appauthor=False)


def start_log(folder: Path | None = None) -> logging.Handler | None:
    """Write what `viewer` logs and Qt reports to the log file; None where it cannot be written."""
    folder = folder or log_folder()
    try:
        folder.mkdir(parents=True, exist_ok=True)
        handler = RotatingFileHandler(
            folder / "showside.log", maxBytes=MOST_BYTES, backupCount=KEPT_FILES, encoding="utf-8"
        )
    except OSError:
        return None
    handler.setFormatter(MaskedFormatter())
    log.addHandler(handler)
    log.setLevel(logging.INFO)
    log.propagate = False
    qInstallMessageHandler(_from_qt)
    log.info("started: %s", about_computer(), extra={"plain": True})
    return handler


def stop_log(handler: logging.Handler | None) -> None:
    """Let go of the file."""
    if handler is not None:
        qInstallMessageHandler(None)
        log.removeHandler(handler)
        log.propagate = True
        handler.close()


def about_computer() -> str:
    """Version, system, packages and screen in one line; nothing of the user or of a part."""
    words = [f"Showside {__version__}", f"Python {platform.python_version()}"]
    words += ["packed"] if getattr(sys, "frozen", False) else []
    for name in TOLD_PACKAGES:
        try:
            words.append(f"{name} {version(name)}")
        except PackageNotFoundError:
            continue
    words += [QSysInfo.prettyProductName(), platform.machine(), QLocale.system().name()]
    if isinstance(QGuiApplication.instance(), QGuiApplication):
        words.append(QGuiApplication.platformName())
        for screen in QGuiApplication.screens():
            size = screen.size()
            words.append(f"{size.width()}×{size.height()} at {screen.devicePixelRatio():g}")
    return ", ".join(words)


def _from_qt(kind: QtMsgType, context: QMessageLogContext, message: str) -> None:
    qt_log.log(LEVELS.get(kind, logging.WARNING), "%s", message)
