"""How many cases a test tries: a few after every change, all of them with --long."""

import os
from typing import TypeVar

SETTING = "SHOWSIDE_LONG_TESTS"  # what --long sets, for worker processes as well
T = TypeVar("T")


def few(some: T, all_of_them: T) -> T:
    """The first where every second counts, the second where pytest was started with --long."""
    return all_of_them if os.environ.get(SETTING) else some
