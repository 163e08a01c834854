"""Opening and closing again and again leaves nothing and does not grow."""

import os
import threading
from pathlib import Path

import numpy as np
import pytest
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication, QLabel
from vtkmodules.vtkRenderingCore import vtkRenderer

from tests.shapes import sphere
from tests.window.conftest import let_go, running_timers, threads, vtk_objects
from viewer.geometry.face_classes import CLASS_A

CYCLES = 12
WARM = 6  # caches of fonts, shaders and kernels fill in the first cycles
ALLOWED_MIB = 20  # over the other cycles; one window that is not let go of costs 24 MiB and more


def resident_mib() -> float:
    pages = int(Path("/proc/self/statm").read_text().split()[1])
    return pages * os.sysconf("SC_PAGE_SIZE") / 2**20


@pytest.mark.skipif(not Path("/proc/self/statm").exists(), reason="no /proc here")
def test_many_windows_do_not_grow(open_window):
    mesh = sphere(10.0, 4)
    classes = np.full(mesh.face_count, CLASS_A, np.uint8)
    sizes = []
    for _ in range(CYCLES):
        opened = open_window()
        opened.show(mesh, classes)
        opened.press_keys("Ctrl+3")
        opened.draw()
        window = opened.window
        opened.window = None
        window.prompts = opened.answers
        window.close()
        del window
        let_go()
        sizes.append(resident_mib())
    assert max(sizes[WARM:]) - sizes[WARM] < ALLOWED_MIB, [round(size) for size in sizes]


def test_closing_in_the_middle_of_everything(open_window):
    """Right after opening, with checks and measures under way, and in the middle of a drag."""
    opened = open_window()
    opened.window.open_demo()
    assert opened.window.close()
    opened = open_window()
    opened.show(sphere(10.0, 4))
    opened.document.begin_gesture("Turn the part")
    assert opened.window.close()


def test_the_leak_check_sees_what_is_left(nothing_left, qapp):
    """The check itself: each kind of thing that could be left behind is noticed."""
    before = vtk_objects()
    renderer = vtkRenderer()
    assert (vtk_objects() - before).total() == 1
    timer = QTimer()
    timer.start(10_000)
    assert timer in running_timers()
    timer.stop()
    widgets = len(QApplication.allWidgets())
    widget = QLabel("left")
    assert len(QApplication.allWidgets()) == widgets + 1
    stop = threading.Event()
    thread = threading.Thread(target=stop.wait, name="left behind")
    thread.start()
    assert "left behind" in threads()
    stop.set()
    thread.join()
    widget.deleteLater()
    del renderer, widget
