"""The program outlives more signals than PySide6 lets Python's True survive, and the like of it."""

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
MANY = """
import ctypes
from PySide6.QtCore import QObject, Signal
from viewer.app import make_constants_last
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
