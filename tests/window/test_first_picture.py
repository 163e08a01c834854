"""The demo is drawn before numba is loaded, which takes as long as all the rest, or pyplot."""

import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
STARTED = """
import os, sys
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication
import viewer.app

viewer.app.DRAWN_WITHIN_MS = 600_000  # however busy the machine is

def watch():
    window = next(w for w in QApplication.topLevelWidgets() if hasattr(w, "document"))
    def drawn(*_):
        if window.document.state.part is not None and "first" not in seen:
            seen["first"] = [name in sys.modules for name in ("numba", "matplotlib.figure")]
    def look():
        if "first" in seen and "numba" in sys.modules:  # what measures has come afterwards
            print(*seen["first"], flush=True)
            os._exit(0)
    window.view.interactor.render_window.AddObserver("EndEvent", drawn)
    looking.timeout.connect(look)
    looking.start()

seen, begin, looking = {}, QApplication.exec, QTimer(interval=50)
QApplication.exec = lambda *_: (QTimer.singleShot(0, watch), begin())[1]
viewer.app.main(["demo"])
"""


def test_the_first_picture_waits_for_no_kernel(tmp_path):
    own = {f"XDG_{name}_HOME": str(tmp_path) for name in ("CONFIG", "STATE", "DATA")}
    own["SHOWSIDE_DATA"] = str(tmp_path / "data")
    told = subprocess.run(
        [sys.executable, "-c", STARTED],
        cwd=ROOT,
        env={**os.environ, **own},  # nobody's settings, and no other window to hand over to
        capture_output=True,
        text=True,
        timeout=240,
        check=True,
    )
    assert told.stdout.split() == ["False", "False"]
