"""Every tool of the scene by keyboard alone: strokes, fills, standing on a face, the view."""

import numpy as np
import pytest
from PySide6.QtCore import QEvent, QPoint, Qt
from PySide6.QtGui import QCursor
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from tests.shapes import cube
from viewer.geometry.face_classes import CLASS_A
from viewer.window.keyed_pointer import FINE_PX, STEP_PX


@pytest.fixture
def pointed(opened):
    """A cube seen from the front in stage Mark; the pointer in the middle of the scene."""
    opened.show(cube())
    opened.press_keys("Ctrl+2")
    opened.press_keys("Alt+1")
    opened.canvas.setFocus()
    opened.draw()
    put(opened, opened.canvas.rect().center())
    return opened


def put(opened, place: QPoint) -> None:
    QCursor.setPos(opened.canvas.mapToGlobal(place))
    QApplication.processEvents()


def at(opened) -> QPoint:
    return opened.canvas.mapFromGlobal(QCursor.pos())


def area_a_mm2(opened) -> float:
    state = opened.state
    return float(state.part.mesh.face_areas_mm2[state.face_classes == CLASS_A].sum())


def test_arrows_move_the_pointer_and_stop_at_the_rim(pointed):
    start = at(pointed)
    for key, by in (("Right", QPoint(STEP_PX, 0)), ("Down", QPoint(0, STEP_PX))):
        before = at(pointed)
        pointed.press_keys(key)
        assert at(pointed) - before == by
    pointed.press_keys("Shift+Left")
    assert at(pointed) - start == QPoint(STEP_PX - FINE_PX, STEP_PX)
    put(pointed, QPoint(2, 2))
    pointed.press_keys("Left")
    assert at(pointed) == QPoint(0, 2)


def test_a_stroke_with_space_and_arrows_is_one_step_and_a_click_another(pointed):
    pointed.press_keys("Return")
    dab = area_a_mm2(pointed)
    # A round mark of 5 mm on a plane: π·25 mm² (CALC), as fine as its rim is cut.
    assert dab == pytest.approx(np.pi * 25.0, rel=0.03)
    QTest.keyPress(pointed.canvas, Qt.Key.Key_Space)
    for _ in range(6):
        pointed.press_keys("Right")
    assert area_a_mm2(pointed) == dab  # not before the button is let go
    QTest.keyRelease(pointed.canvas, Qt.Key.Key_Space)
    pointed.settle()
    stroke = area_a_mm2(pointed)
    assert stroke > dab + 5.0
    pointed.press_keys("Ctrl+Z")
    assert area_a_mm2(pointed) == pytest.approx(dab)
    pointed.press_keys("Ctrl+Z")
    assert area_a_mm2(pointed) == 0.0


def test_escape_takes_a_stroke_back_and_leaving_ends_it(pointed):
    QTest.keyPress(pointed.canvas, Qt.Key.Key_Space)
    pointed.press_keys("Right")
    pointed.press_keys("Escape")
    QTest.keyRelease(pointed.canvas, Qt.Key.Key_Space)
    assert area_a_mm2(pointed) == 0.0
    QTest.keyPress(pointed.canvas, Qt.Key.Key_Space)
    QApplication.sendEvent(pointed.canvas, QEvent(QEvent.Type.FocusOut))
    pointed.settle()
    assert area_a_mm2(pointed) > 50.0
    assert not pointed.window.keyed_pointer._held


def test_fills_and_patches_by_return(pointed):
    for key in ("F", "G"):
        pointed.press_keys(key)
        pointed.press_keys("Return")
        pointed.settle()
        assert area_a_mm2(pointed) == pytest.approx(400.0)  # one side of 20 × 20 mm
        pointed.press_keys("Ctrl+Z")


def test_standing_on_a_face_by_return(pointed):
    pointed.press_keys("Ctrl+3")
    pointed.press_keys("S")
    pointed.settle()
    pointed.draw()  # at the size that the stage left for it
    put(pointed, pointed.canvas.rect().center())
    pointed.press_keys("Return")
    pointed.settle()
    # The side towards −y lies down, so that the part's +y points up.
    np.testing.assert_allclose(pointed.state.pose.up, (0, 1, 0), atol=1e-6)


def test_the_view_turns_and_comes_closer(pointed):
    def camera():
        state = pointed.window.view.scene.camera_state()
        return np.subtract(state["position_mm"], state["focal_mm"])

    before = camera()
    pointed.press_keys("Ctrl+Right")
    turned = camera()
    assert np.linalg.norm(turned) == pytest.approx(np.linalg.norm(before))
    assert np.linalg.norm(turned - before) > 0.1 * np.linalg.norm(before)
    QTest.keyClick(pointed.canvas, Qt.Key.Key_Plus)
    assert np.linalg.norm(camera()) < np.linalg.norm(turned)
    QTest.keyClick(pointed.canvas, Qt.Key.Key_Minus)
    assert np.linalg.norm(camera()) == pytest.approx(np.linalg.norm(turned))
    assert pointed.state.pose.up == (0.0, 0.0, 1.0)


def test_in_a_presentation_arrows_leave_the_pointer_alone(pointed):
    pointed.press_keys("K")
    pointed.press_keys("F5")
    place = at(pointed)
    pointed.press_keys("Right")
    assert at(pointed) == place
    pointed.press_keys("Escape")
