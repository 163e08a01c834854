"""How long a test waits for what comes sooner or later.

Far longer than it takes on a busy machine that compiles kernels for the first time, so that a test
fails because something did not come, never because it came late.
"""

import time
from collections.abc import Callable
from pathlib import Path

LONG_MS = 120_000


def until(condition: Callable[[], bool]) -> None:
    """Wait for something that happens outside this process."""
    last_s = time.monotonic() + LONG_MS / 1000
    while not condition():
        assert time.monotonic() < last_s, "did not come"
        time.sleep(0.02)


def runs(process: int) -> bool:
    """Whether a process of this Linux runs, and is not merely waited for."""
    try:
        state = Path(f"/proc/{process}/stat").read_text().rpartition(")")[2].split()[0]
    except (FileNotFoundError, ProcessLookupError):
        return False
    return state != "Z"
