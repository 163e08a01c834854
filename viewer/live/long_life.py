"""What a window that stays open for days needs, against habits of the libraries below it."""

import ctypes
import platform
import sys

M_ARENA_MAX, HEAPS = -8, 2  # as malloc.h has it


def live_long() -> None:
    """To be called once, and early: heaps that are there already stay."""
    make_constants_last()
    take_memory_from_few_heaps()


def make_constants_last() -> None:
    """Keep True, False and None alive under libraries that give them back once too often.

    `Signal.emit` of PySide6 6.12 returns True without a reference of its own, and each job of a
    thread pool takes one of None: before Python 3.12, which no longer counts references to these
    (PEP 683), that ends the program after some ten thousand signals, a few minutes of turning.
    """
    if sys.implementation.name == "cpython" and sys.version_info < (3, 12):
        for constant in (True, False, None):
            ctypes.c_ssize_t.from_address(id(constant)).value += 1 << 40


def take_memory_from_few_heaps() -> None:
    """Let threads share what each of them gave back.

    The C library of Linux gives nearly every thread a heap of its own, which keeps what large
    arrays left behind in it: after hours of work these hold more than the program itself.
    Source: mallopt(3), M_ARENA_MAX. Nothing is done where memory is not that library's.
    """
    if platform.libc_ver()[0] == "glibc":
        ctypes.CDLL(None).mallopt(M_ARENA_MAX, HEAPS)
