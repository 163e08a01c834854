"""Processor time of a piece of work, and a row of the table made of two of them."""

import time
from collections.abc import Callable
from typing import Any


def seconds(work: Callable[[], Any], times: int = 3) -> float:
    """Least processor time of `times` runs."""
    spent = []
    for _ in range(times):
        start = time.process_time()
        work()
        spent.append(time.process_time() - start)
    return max(min(spent), 1e-9)


def row(measure: str, faces: int, ours_s: float, against: str, theirs_s: float, goal: float):
    """One line of the table."""
    return {
        "measure": measure, "faces": faces, "ours_s": ours_s, "against": against,
        "theirs_s": theirs_s, "ratio": theirs_s / ours_s, "goal": goal,
    }  # fmt: skip
