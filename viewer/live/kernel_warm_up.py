"""Compile the kernels beside the window, once for each installation, in a process of its own.

Compiling takes some minutes and would hold the interpreter lock for half a second at a time.
Until it is done, plain numbers are shown (`viewer.geometry.plain_measures`). If the process fails,
the kernels are compiled in this one as they are called, which is slow but works.
"""

import logging
import multiprocessing
import os
from collections.abc import Callable

from PySide6.QtCore import QObject, QTimer, Signal

from viewer.geometry.kernel_cache import kernels_kept_but_not_ready
from viewer.own_process import end_with_parent
from viewer.words import later

log = logging.getLogger(__name__)
LOOK_BITS_MS = 100
NICENESS = 5  # the window goes first
END_WAIT_S = 5.0
BEGINS_LATER = later(
    "Begins when the measuring code is ready (once for each installation, some minutes)."
)


class KernelWarmUp(QObject):
    """Starts the warm-up if the kernels are not there yet.

    ready : whether the kernels can be called without waiting for a compiler
    became_ready : the warm-up has ended, however it ended
    """

    became_ready = Signal()

    def __init__(self, warm_up: Callable[[], None]) -> None:
        """`warm_up` is a function of a module, so that another process can find it."""
        super().__init__()
        self._process: multiprocessing.process.BaseProcess | None = None
        self._look = QTimer(self, interval=LOOK_BITS_MS)
        self._look.timeout.connect(self._see_whether_ended)
        # Where no code can be kept, another process could not hand it over.
        self.ready = not kernels_kept_but_not_ready()
        if not self.ready:
            self._start(warm_up)

    def close(self) -> None:
        """End the process; what it has compiled so far is kept."""
        self._look.stop()
        process, self._process = self._process, None
        if process is None:
            return
        process.terminate()
        process.join(END_WAIT_S)
        if process.is_alive():
            process.kill()
            process.join()
        process.close()

    def _start(self, warm_up: Callable[[], None]) -> None:
        # A fresh interpreter everywhere: a fork of a process with threads and a display may hang.
        context = multiprocessing.get_context("spawn")
        self._process = context.Process(target=_run_behind, args=(warm_up,), daemon=True)
        try:
            self._process.start()
        except (OSError, ValueError) as problem:
            log.warning("no process for compiling (%s); compiling in this one", problem)
            self._process, self.ready = None, True
            return
        self._look.start()

    def _see_whether_ended(self) -> None:
        if self._process is None or self._process.is_alive():
            return
        self._look.stop()
        if self._process.exitcode != 0:
            log.warning(
                "compiling beside the window failed (exit code %s); compiling in this process",
                self._process.exitcode,
            )
        self._process.close()
        self._process, self.ready = None, True
        self.became_ready.emit()


def _run_behind(warm_up: Callable[[], None]) -> None:
    """What the process does; it may share the work with others, which end with it."""
    end_with_parent()
    multiprocessing.current_process().daemon = False  # those have no children
    if hasattr(os, "nice"):
        os.nice(NICENESS)
    warm_up()
