"""A window open for days: its constants last, and its threads take memory from few heaps."""

import platform
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent.parent
MANY = """
import ctypes
from PySide6.QtCore import QObject, Signal
from viewer.live.long_life import make_constants_last
class Teller(QObject):
    told = Signal(object)
make_constants_last()
teller = Teller()
for _ in range(50_000):
    teller.told.emit(None)
for constant in (True, False, None):
    for _ in range(100_000):
        ctypes.pythonapi.Py_DecRef(ctypes.py_object(constant))
print("alive", bool(1))
"""


def test_many_signals_do_not_end_the_program():
    ran = subprocess.run(
        [sys.executable, "-c", MANY], cwd=ROOT, capture_output=True, text=True, timeout=120
    )
    assert ran.stdout.strip() == "alive True", ran.stderr


# Eight threads that hold memory at the same time; the C library then tells of each heap.
HEAPS = """
import ctypes, sys, threading
from viewer.live.long_life import take_memory_from_few_heaps
if sys.argv[1] == "few":
    take_memory_from_few_heaps()
library = ctypes.CDLL(None)
library.malloc.restype = ctypes.c_void_p
together = threading.Barrier(8)
def hold():
    together.wait()
    assert library.malloc(ctypes.c_size_t(50_000))
    together.wait()
threads = [threading.Thread(target=hold) for _ in range(8)]
for each in threads: each.start()
for each in threads: each.join()
library.malloc_stats()
"""


@pytest.mark.skipif(platform.libc_ver()[0] != "glibc", reason="a habit of glibc")
def test_threads_take_memory_from_few_heaps():
    """What is counted is what glibc itself tells, by malloc_stats(3)."""
    heaps = {}
    for how in ("few", "many"):
        told = subprocess.run(
            [sys.executable, "-c", HEAPS, how], cwd=ROOT, capture_output=True, text=True, timeout=60
        )
        assert told.returncode == 0, told.stderr
        heaps[how] = told.stderr.count("Arena ")
    assert heaps["few"] <= 2 < heaps["many"]
