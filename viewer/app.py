"""Start here: choose between a command and the window, and wire the rooms together."""

import ctypes
import gc
import multiprocessing
import os
import sys
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from viewer.document.document import Changed
    from viewer.live.jobs import Jobs
    from viewer.window.one_instance import OneInstance

COMMANDS = (
    "demo", "check", "measure", "pose", "mend", "rank", "sheet", "pack", "piece", "specimen"
)  # fmt: skip


DRAWN_WITHIN_MS = 5_000  # unless nobody sees the window


def main(words: list[str] | None = None) -> int:
    """Run `showside` with the given words (default: those of the command line)."""
    multiprocessing.freeze_support()  # a packed program's child processes start here as well
    words = list(sys.argv[1:] if words is None else words)
    collects = gc.isenabled()
    gc.disable()  # until all is loaded: what is made meanwhile stays
    if words and (words[0] in COMMANDS or words[0].startswith("-")):
        return _command(words, collects)
    if len(words) > 1:
        print("Name one file to open, or a command; see: showside --help", file=sys.stderr)
        return 2
    if not has_display():
        print("There is no display to open a window on; see: showside --help", file=sys.stderr)
        return 1
    return _window(Path(words[0]) if words else None)


def has_display() -> bool:
    """Whether a window can be opened here: Windows and macOS yes, elsewhere if an X server answers.

    Asked before Qt starts, because Qt ends the whole process when it finds no server.
    """
    if sys.platform in ("win32", "darwin"):
        return True
    if os.environ.get("QT_QPA_PLATFORM", "xcb").split(":")[0] not in ("xcb", ""):
        return False  # the 3D view needs an X server; other platform plug-ins crash in it
    if not os.environ.get("DISPLAY"):
        return False
    try:
        xcb = ctypes.CDLL("libxcb.so.1")
    except OSError:
        return False
    xcb.xcb_connect.restype = ctypes.c_void_p
    for name in ("xcb_connection_has_error", "xcb_disconnect"):
        getattr(xcb, name).argtypes = [ctypes.c_void_p]
    connection = xcb.xcb_connect(None, None)
    answers = xcb.xcb_connection_has_error(connection) == 0
    xcb.xcb_disconnect(connection)
    return answers


def _command(words: list[str], collects: bool) -> int:
    from viewer.command.line import parser, run_command
    from viewer.command.options import with_minus_signs

    asked = parser().parse_args(with_minus_signs(words))
    if asked.command == "demo" and asked.out is None and has_display():
        return _window(None, demo=True)
    if collects:
        gc.enable()
    if asked.command != "demo":
        return run_command(asked)
    from viewer.command.demo import run_demo
    from viewer.errors import ShowsideError

    try:
        return run_demo(asked.out)
    except ShowsideError as problem:
        print(problem, file=sys.stderr)
        return 1


def compile_kernels() -> None:
    """What the first start of an installed program does in a process beside the window."""
    from viewer.command.warm_up import warm_up_side_by_side

    warm_up_side_by_side(left_free=1)  # for the window


def _window(path: Path | None, demo: bool = False) -> int:
    if sys.platform.startswith("linux"):
        # On a Wayland desktop Qt would choose its own plug-in, in which the 3D view cannot draw.
        os.environ.setdefault("QT_QPA_PLATFORM", "xcb")
    from viewer.window.one_instance import OneInstance

    claim = OneInstance()
    if claim.hand_over(path, demo):
        return 0
    return _first_window(claim, path, demo)


def _draw_first(jobs: "Jobs", what: "Changed") -> None:
    """Let the first part be drawn before numba, which takes a second and more, is loaded."""
    from viewer.document.document import Changed
    from viewer.geometry.compiled import kernels_at_hand

    if what & Changed.PART and not kernels_at_hand():
        jobs.hold(DRAWN_WITHIN_MS)  # the frame that follows releases it


def _first_window(claim: "OneInstance", path: Path | None, demo: bool) -> int:
    """Open the window; what this needs is loaded only once no other start has taken the file."""
    from viewer.scene.light_start import leave_pyplot_for_later

    leave_pyplot_for_later()
    from PySide6.QtWidgets import QApplication

    from viewer.document.document import Document
    from viewer.live.garbage_here import GarbageHere
    from viewer.live.jobs import Jobs
    from viewer.live.kernel_warm_up import KernelWarmUp
    from viewer.live.live_check import LiveCheck
    from viewer.live.live_measures import LiveMeasures
    from viewer.live.long_life import live_long
    from viewer.window.error_text import ErrorKeeper
    from viewer.window.language import speak_as_chosen
    from viewer.window.layout import show_within_screen
    from viewer.window.log_file import start_log, stop_log
    from viewer.window.main_window import MainWindow
    from viewer.window.type_size import set_type_size

    application = QApplication.instance() or QApplication(sys.argv[:1])
    application.setApplicationName("showside")
    application.setApplicationDisplayName("Showside")
    application.setDesktopFileName("org.showside.showside")
    log = start_log()
    speak_as_chosen(application)
    set_type_size(application)
    live_long()
    document, jobs, kernels = Document(), Jobs(), KernelWarmUp(compile_kernels)
    document.listen(partial(_draw_first, jobs))
    measures = LiveMeasures(document, jobs, kernels)
    check = LiveCheck(document, jobs, kernels)
    window = MainWindow(document, jobs, measures, check)
    window.view.drawn.connect(jobs.release)
    errors = ErrorKeeper(window.manners.error_kept.emit)
    claim.listen(window.manners.another_start)
    if window.manners.restore():
        window.show()
    else:
        show_within_screen(window)
    window.safety.look_for_lost()
    if demo:
        window.open_demo()
    elif path is not None:
        window.open_path(path)
    else:
        window.open_last_job()
    window.manners.offer_error()
    garbage = GarbageHere()
    try:
        return application.exec()
    finally:
        garbage.close()
        claim.close()
        errors.close()
        stop_log(log)
