"""The height strip: what it draws as numbers, and the cut it makes in the real window."""

import numpy as np
import pytest
from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QMouseEvent, QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from tests.shapes import box, cube, post_and_cap, without_faces
from viewer.geometry.mesh_health import Fault
from viewer.scene.fault_looks import look_of
from viewer.window.height_chart import bands_of, round_step, steps


class Report:
    def __init__(self, *faults):
        self.faults = faults


def fault(kind, layers):
    return Fault(kind, 1, 0.0, 1.0, tuple(layers), "", np.zeros(1, np.int32))


def test_neighbouring_layers_of_a_fault_are_one_band_and_none_lies_beyond_the_top():
    report = Report(fault("open_edges", [3, 4, 5, 9]), fault("inward_shells", [98, 99, 100, 101]))
    bands = bands_of(report, 100)
    assert [(b.first, b.last) for b in bands] == [(3, 5), (9, 9), (98, 99)]
    assert bands[0].look is look_of("open_edges")
    assert bands_of(report, 0) == ()
    assert bands_of(None, 100) == ()


def test_no_peak_is_lost_when_layers_are_narrower_than_pixels():
    values = np.zeros(2000)
    values[777] = 5.0
    assert steps(values, 300).max() == 5.0
    assert np.argmax(steps(values, 300)) == 777 * 300 // 2000
    assert steps(np.array([1.0, 2.0]), 4).tolist() == [1, 1, 2, 2]


@pytest.mark.parametrize(("least", "step"), [(0.3, 0.5), (1.0, 1.0), (1.01, 2.0), (70.0, 100.0)])
def test_heights_are_marked_in_round_steps(least, step):
    assert round_step(least) == pytest.approx(step)


def press(strip, x, event=QEvent.Type.MouseButtonPress):
    held = Qt.MouseButton.LeftButton
    moved = event == QEvent.Type.MouseMove
    place = QPointF(x, 60.0)
    button = Qt.MouseButton.NoButton if moved else held
    buttons = held if event != QEvent.Type.MouseButtonRelease else Qt.MouseButton.NoButton
    made = QMouseEvent(event, place, QPointF(strip.mapToGlobal(place.toPoint())), button, buttons,
                       Qt.KeyboardModifier.NoModifier)  # fmt: skip
    QApplication.sendEvent(strip, made)
    QApplication.processEvents()


def test_dragging_the_line_cuts_the_part_open_and_escape_closes_it(opened):
    opened.show(cube(20.0))
    strip, scene = opened.window.strip, opened.window.view.scene
    assert strip.isVisible()
    assert strip.chart.layer_count == 100
    assert strip.chart.curves[0].values == pytest.approx(400.0)
    press(strip, strip.place_of(10).x())
    assert strip.layer == 10
    assert scene.cut_height_mm == pytest.approx(2.1)  # CALC: (10 + ½) · 0.2
    press(strip, strip.place_of(60).x(), QEvent.Type.MouseMove)
    press(strip, strip.place_of(60).x(), QEvent.Type.MouseButtonRelease)
    assert strip.layer == 60
    assert scene.cut_height_mm == pytest.approx(12.1)
    assert "layer 61 of 100" in " ".join(strip.chart.layer_words(60))
    opened.press_keys("Esc")
    assert strip.layer is None
    assert scene.cut_height_mm is None


def test_keys_go_from_layer_to_layer_and_the_button_shows_the_whole_part(opened):
    opened.show(cube(20.0))
    strip, scene = opened.window.strip, opened.window.view.scene
    strip.setFocus()
    QTest.keyClick(strip, Qt.Key.Key_Right)
    assert strip.layer == 0
    QTest.keyClick(strip, Qt.Key.Key_PageUp)
    assert strip.layer == 10
    QTest.keyClick(strip, Qt.Key.Key_End)
    assert strip.layer == 99
    QTest.keyClick(strip, Qt.Key.Key_Left)
    assert strip.layer == 98
    opened.press(strip._whole)
    assert scene.cut_height_mm is None


def turn_wheel(strip, eighths, held=Qt.KeyboardModifier.NoModifier):
    place = strip.rect().center()
    there = QPointF(strip.mapToGlobal(place))
    none, phase = Qt.MouseButton.NoButton, Qt.ScrollPhase.NoScrollPhase
    turned = QPoint(0, eighths)
    made = QWheelEvent(QPointF(place), there, QPoint(), turned, none, held, phase, False)
    QApplication.sendEvent(strip, made)
    QApplication.processEvents()


def test_the_wheel_goes_through_the_layers_and_smooth_wheels_add_up(opened):
    opened.show(cube(20.0))
    strip, scene = opened.window.strip, opened.window.view.scene
    turn_wheel(strip, 120)
    assert strip.layer == 0
    turn_wheel(strip, 360)
    assert strip.layer == 3
    assert scene.cut_height_mm == pytest.approx(0.7)  # CALC: (3 + ½) · 0.2
    turn_wheel(strip, 240, Qt.KeyboardModifier.ShiftModifier)
    assert strip.layer == 23
    for _ in range(4):
        turn_wheel(strip, -30)
    assert strip.layer == 22
    turn_wheel(strip, -60)
    turn_wheel(strip, 60)  # half a notch there and back
    assert strip.layer == 22
    turn_wheel(strip, -12_000)
    assert strip.layer == 0
    opened.press_keys("Esc")
    turn_wheel(strip, -120)
    assert strip.layer == 99  # downwards the line comes in at the top


def test_the_cut_stays_at_its_height_while_the_part_turns(opened):
    opened.show(box((0, 0, 0), (10, 20, 40)))
    strip, scene = opened.window.strip, opened.window.view.scene
    opened.press_keys("Ctrl+3")
    strip.choose(20)
    opened.press_keys("X")
    opened.settle()
    assert scene.cut_height_mm == pytest.approx(4.1)
    assert strip.chart.layer_count == 100  # CALC: 20 mm high now
    strip.choose(99)
    opened.press_keys("Y")
    opened.settle()
    assert strip.chart.layer_count == 50  # CALC: 10 mm high
    assert strip.layer == 49
    assert scene.cut_height_mm == pytest.approx(9.9)


def test_gaps_in_the_outline_are_told(opened):
    whole = cube(20.0)
    opened.show(without_faces(whole, np.flatnonzero(whole.face_normals[:, 0] > 0.9)))
    strip = opened.window.strip
    strip.choose(50)
    assert strip.remark == "! the outline stops at 2 places"
    assert "stops at 2 places" in strip.accessibleDescription()


def test_the_tip_tells_faults_and_support_of_the_layer(opened):
    opened.show(post_and_cap())
    strip = opened.window.strip
    words = " ".join(strip.chart.layer_words(10))
    assert "area 100 mm²" in words  # CALC: the post is 10 × 10
    assert "support 800 mm²" in words  # CALC: 30 × 30 less the post
    press(strip, strip.place_of(10).x(), QEvent.Type.MouseMove)
    assert strip.layer is None  # no button is held
    assert strip.toolTip().splitlines()[:2] == ["2.10 mm", "layer 11 of 125"]


def test_hiding_the_strip_closes_the_cut(opened):
    opened.show(cube(20.0))
    window = opened.window
    window.strip.choose(10)
    opened.press_keys("H")
    assert not window.strip.isVisible()
    assert window.view.scene.cut_height_mm is None
    opened.press_keys("Ctrl+3")
    assert not window.strip.isVisible()  # the same in every stage, so the scene keeps its size
    opened.press_keys("H")
    assert window.strip.isVisible()
