"""The text of an unexpected error, kept on this computer and offered when the program starts anew.

It tells where in the code the error arose and on what computer, and nothing of the part: no values
of variables, of the error's own words only those that `masked` leaves, of paths the file's name.
"""

import faulthandler
import sys
import threading
from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from types import TracebackType

from viewer.window.log_file import about_computer, log, log_folder
from viewer.window.masked_text import short_path, told_error

ERROR_FILE, NATIVE_FILE = "last-error.txt", "last-native-error.txt"
MOST_ERRORS = 5  # in one text; one error often brings the same again and again


class ErrorKeeper:
    """Catches what nobody caught, keeps its text, and tells the window."""

    def __init__(self, tell: Callable[[], object], folder: Path | None = None) -> None:
        """`tell()` is called on the thread of the error once its text is kept."""
        self._tell, self._folder = tell, folder or log_folder()
        self._count = 0
        self._native = None
        self._hooks = (sys.excepthook, threading.excepthook)
        sys.excepthook = self._take
        threading.excepthook = self._take_from_thread
        take_native_text(self._folder)
        try:
            self._folder.mkdir(parents=True, exist_ok=True)
            self._native = (self._folder / NATIVE_FILE).open("w", encoding="utf-8")
            faulthandler.enable(self._native)
        except OSError:
            log.warning("no file for crashes of native code")

    def close(self) -> None:
        """Catch nothing any more; an end without a crash leaves no file."""
        sys.excepthook, threading.excepthook = self._hooks
        if self._native is not None:
            faulthandler.disable()
            self._native.close()
            self._native = None
            (self._folder / NATIVE_FILE).unlink(missing_ok=True)

    def _take(
        self, kind: type[BaseException], error: BaseException, trace: TracebackType | None
    ) -> None:
        if issubclass(kind, KeyboardInterrupt):
            self._hooks[0](kind, error, trace)
            return
        log.error("an error that nobody caught", exc_info=(kind, error, trace))
        self._keep(error)

    def _take_from_thread(self, told: threading.ExceptHookArgs) -> None:
        if told.exc_value is not None and not isinstance(told.exc_value, SystemExit):
            log.error("an error in a thread", exc_info=told.exc_value)
            self._keep(told.exc_value)

    def _keep(self, error: BaseException) -> None:
        self._count += 1
        if self._count > MOST_ERRORS:
            return
        try:
            with (self._folder / ERROR_FILE).open("a", encoding="utf-8") as file:
                file.write(f"{_head()}\n{told_error(error)}\n\n")
        except OSError:
            log.warning("the text of the error could not be written")
            return
        self._tell()


def _head() -> str:
    return f"{datetime.now().astimezone():%Y-%m-%d %H:%M:%S %z}\n{about_computer()}"


def kept_error(folder: Path | None = None) -> str:
    """The text kept of unexpected errors, "" if there is none."""
    folder = folder or log_folder()
    try:
        return (folder / ERROR_FILE).read_text(encoding="utf-8", errors="replace").strip()
    except OSError:
        return ""


def take_native_text(folder: Path | None = None) -> None:
    """Move what native code left at its crash to the other errors, before a new file is begun."""
    folder = folder or log_folder()
    native = folder / NATIVE_FILE
    try:
        text = native.read_text(encoding="utf-8", errors="replace").strip()
        if text:
            with (folder / ERROR_FILE).open("a", encoding="utf-8") as file:
                file.write(f"{_head()}\n{_without_paths(text)}\n\n")
            native.unlink()
    except OSError:
        return


def forget_error(folder: Path | None = None) -> None:
    """Throw the text away."""
    ((folder or log_folder()) / ERROR_FILE).unlink(missing_ok=True)


def _without_paths(text: str) -> str:
    """Lines of the interpreter's own crash text with short names of files."""
    lines = []
    for line in text.splitlines():
        before, quote, rest = line.partition('File "')
        path, end, after = rest.partition('"')
        lines.append(f"{before}{short_path(path)}{after}" if quote and end else line)
    return "\n".join(lines)
