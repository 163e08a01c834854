"""How long the window answered nobody in a trial, and where everything stood in that moment."""

import contextlib
import sys
import threading
import time
import traceback
from collections import Counter
from dataclasses import dataclass, field
from pathlib import Path

MOST_FROZEN_S = 1.0


@dataclass
class Trial:
    """What happened."""

    done: Counter = field(default_factory=Counter)
    problems: list[str] = field(default_factory=list)
    longest_s: float = 0.0
    longest_of: str = ""
    longest_at: str = ""
    undone: int = 0
    memory_bytes: list[int] = field(default_factory=list)


class Lookout:
    """Writes down where each thread is once the window has answered nobody for so long."""

    def __init__(self) -> None:
        self._window = threading.get_ident()
        self._begun_s, self.seen = None, ""
        self._over = threading.Event()
        self._thread = threading.Thread(target=self._watch, daemon=True)
        self._thread.start()

    def close(self) -> None:
        """Look no more."""
        self._over.set()
        self._thread.join()

    @contextlib.contextmanager
    def over(self):
        """Watch what is done within."""
        self.seen, self._begun_s = "", time.perf_counter()
        yield
        self._begun_s = None

    def _watch(self) -> None:
        while not self._over.wait(0.1):
            begun_s = self._begun_s
            if begun_s is None or self.seen or time.perf_counter() - begun_s < MOST_FROZEN_S:
                continue
            self.seen = self._stacks()

    def _stacks(self) -> str:
        """In a function of its own: a frame that is looked at keeps alive whatever stood in it."""
        frames = sys._current_frames()
        first = frames.pop(self._window, None)
        frames.pop(threading.get_ident(), None)
        stacks = ["".join(traceback.format_stack(each)[-8:]) for each in frames.values()]
        seen = "window:\n" + "".join(traceback.format_stack(first)[-24:])
        return seen + "".join(f"beside it:\n{stack}" for stack in stacks)


class Stopwatch:
    """How long the window answered nobody, less what the system let it wait for a processor.

    That is taken off for this thread, for the one that waited longest of those that draw and reckon
    for it, and for the X server it draws on (Linux says so; elsewhere nothing is taken off).
    """

    def __init__(self, trial: Trial, screen_process: int) -> None:
        self._trial, self._screen = trial, screen_process
        self._own = threading.get_native_id()
        self.lookout = Lookout()

    def _waited_s(self) -> dict[str, float]:
        found = {}
        for process in ("self", str(self._screen)):
            for path in Path(f"/proc/{process}/task").glob("*/schedstat"):
                with contextlib.suppress(OSError, IndexError):
                    found[f"{process} {path.parent.name}"] = 1e-9 * int(path.read_text().split()[1])
        return found

    def take(self, what: str, work) -> None:
        """Do something the user would wait for."""
        before, begun_s = self._waited_s(), time.perf_counter()
        with self.lookout.over():
            work()
        took_s = time.perf_counter() - begun_s
        if took_s <= self._trial.longest_s:
            return
        waited = {key: now_s - before.get(key, 0.0) for key, now_s in self._waited_s().items()}
        own_s = waited.pop(f"self {self._own}", 0.0)
        screen_s = max((s for key, s in waited.items() if not key.startswith("self")), default=0.0)
        others_s = max((s for key, s in waited.items() if key.startswith("self")), default=0.0)
        took_s -= own_s + screen_s + others_s
        if took_s > self._trial.longest_s:
            self._trial.longest_s, self._trial.longest_of = took_s, what
            self._trial.longest_at = self.lookout.seen
