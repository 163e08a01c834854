"""A progress token: the caller makes it, the algorithm reports to it and asks whether to go on.

Grain: an algorithm calls `check` at least every 50 ms of its own work, and `report` as often as
it likes. A kernel cannot raise, so a long one gets `stop_flag`, looks at it every few thousand
faces and returns early with whatever it has; its caller calls `check` before using any of it. A
token serves one job; make a new one for the next. It knows no Qt: `live` passes a listener that
crosses to the window's thread by itself.
"""

from collections.abc import Callable

import numpy as np

from viewer.errors import Cancelled
from viewer.words import say


class Progress:
    """Progress of one long job, and the wish to stop it."""

    def __init__(self, listener: Callable[[float, str], None] | None = None) -> None:
        self._listener = listener
        self.stop_flag = np.zeros(1, np.uint8)
        """shape (1,), uint8: not 0 once the job is to stop; shared with every `part`."""

    def report(self, fraction: float, doing: str = "") -> None:
        """Tell the listener how far the job is (0 to 1) and what it is doing, then `check`."""
        if self._listener is not None:
            self._listener(min(max(fraction, 0.0), 1.0), doing)
        self.check()

    def check(self) -> None:
        """Raise `Cancelled` if the job is to stop."""
        if self.cancelled:
            raise Cancelled(say("Stopped; nothing was changed."))

    def cancel(self) -> None:
        """Ask the job to stop at its next `check`; safe from any thread."""
        self.stop_flag[0] = 1

    @property
    def cancelled(self) -> bool:
        """Whether somebody asked the job to stop."""
        return bool(self.stop_flag[0])

    def part(self, start: float, end: float) -> "Progress":
        """A token for a sub-job that covers `start`..`end` of this one and shares its cancel."""
        part = Progress(
            lambda fraction, doing: self.report(start + fraction * (end - start), doing)
        )
        part.stop_flag = self.stop_flag
        return part
