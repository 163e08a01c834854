"""What the left button marks, previewed and marked by keys alone: fills, patches, loops, bands."""

import numpy as np
import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from tests.shapes import ringed_tube, sphere
from tests.waiting import LONG_MS
from tests.window.test_keyed_pointer import put
from tests.window.test_mark_ways import area, message, one_step, previewed, wait
from viewer.geometry.face_classes import CLASS_A, CLASS_B
from viewer.window.choices import Extent


def start(opened, mesh, keys):
    """The scene has the keys, its pointer is in the middle, and a way to mark is chosen."""
    opened.show(mesh)
    opened.press_keys("Ctrl+2")
    for key in keys:
        opened.press_keys(key)
    opened.draw()
    surface = opened.window.tools.surface
    opened.qtbot.waitUntil(lambda: surface.ready, timeout=LONG_MS)
    opened.canvas.setFocus(Qt.FocusReason.TabFocusReason)
    put(opened, opened.canvas.rect().center())
    return opened.state.face_classes


def press(opened, key, times=1):
    for _ in range(times):
        QTest.keyClick(opened.canvas, key)


@pytest.mark.parametrize("key", ["F", "G"])
def test_a_fill_and_a_whole_patch_mark_what_they_previewed(opened, key):
    mesh = ringed_tube()
    before = start(opened, mesh, [key])
    press(opened, Qt.Key.Key_Up)
    shown = previewed(opened)
    assert f"A click marks {shown:,} faces" in message(opened)
    press(opened, Qt.Key.Key_Return)
    marked = opened.state.face_classes == CLASS_A
    assert np.count_nonzero(marked) == shown
    # CALC: the wall or an end, whichever is in the middle, up to the sharp edges of the tube.
    rise = mesh.face_normals[:, 2]
    kinds = (np.abs(rise) < 0.5, rise > 0.5, rise < -0.5)
    assert any(np.array_equal(marked, kind) for kind in kinds)
    one_step(opened, before, "Fill as class A")


def test_a_loop_is_previewed_and_drawn_by_keys(opened):
    before = start(opened, sphere(10.0, 5), ["B", "L"])
    assert opened.window.choices.extent is Extent.LASSO
    QTest.keyPress(opened.canvas, Qt.Key.Key_Space)
    for key in (Qt.Key.Key_Right, Qt.Key.Key_Up, Qt.Key.Key_Left):
        press(opened, key, 8)
    wait(opened)
    wait(opened)
    shown = previewed(opened)
    assert shown > 0
    assert not opened.state.face_classes.any()
    QTest.keyRelease(opened.canvas, Qt.Key.Key_Space)
    wait(opened)
    assert np.count_nonzero(opened.state.face_classes) == shown
    one_step(opened, before, "Lasso as class B")


def test_a_band_is_previewed_and_drawn_by_keys(opened):
    before = start(opened, sphere(10.0, 5), ["B", "J"])
    QTest.keyPress(opened.canvas, Qt.Key.Key_Space)
    press(opened, Qt.Key.Key_Up, 5)
    wait(opened)
    wait(opened)
    shown = previewed(opened)
    assert shown > 0
    assert not opened.state.face_classes.any()
    QTest.keyRelease(opened.canvas, Qt.Key.Key_Space)
    wait(opened)
    assert np.count_nonzero(opened.state.face_classes) == shown
    assert area(opened, CLASS_B) > 0.0
    one_step(opened, before, "Band as class B")
