"""pyplot is loaded with its first use, and not by opening a window."""

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
SCRIPT = """
import sys
from viewer.scene.light_start import leave_pyplot_for_later
leave_pyplot_for_later()
import viewer.window.main_window
import matplotlib.pyplot as plt
print("matplotlib.figure" in sys.modules)
import matplotlib
matplotlib.use("Agg")
print(type(plt.figure()).__name__, "matplotlib.figure" in sys.modules)
print(sys.modules["matplotlib.pyplot"].figure is plt.figure)
leave_pyplot_for_later()
import pyvista
print(pyvista.Color("red").hex_rgb)
"""


def test_pyplot_is_loaded_only_when_it_is_used():
    ran = subprocess.run(
        [sys.executable, "-c", SCRIPT], cwd=ROOT, capture_output=True, text=True, timeout=300
    )
    assert ran.stdout.split() == ["False", "Figure", "True", "True", "#ff0000"], ran.stderr
