"""The wheel scrolls a page; numbers and lists that it passes over stay as they are."""

from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from tests.shapes import c_bracket
from viewer.window.pieces import ChoiceBox, NumberField


def turn_wheel(widget, notches=-3):
    """Send what a mouse sends; whether the widget kept it for itself."""
    at = QPointF(widget.rect().center())
    event = QWheelEvent(
        at, QPointF(widget.mapToGlobal(at.toPoint())), QPoint(), QPoint(0, 120 * notches),
        Qt.MouseButton.NoButton, Qt.KeyboardModifier.NoModifier,
        Qt.ScrollPhase.NoScrollPhase, False,
    )  # fmt: skip
    QApplication.sendEvent(widget, event)
    return event.isAccepted()


def test_what_the_wheel_passes_over_stays_as_it_is(opened):
    opened.show(c_bracket())
    opened.press_keys("F3")
    passed = 0
    for stage in "12345":
        opened.press_keys(f"Ctrl+{stage}")
        opened.settle()
        fields = [f for f in opened.window.findChildren(NumberField) if f.isVisible()]
        lists = [f for f in opened.window.findChildren(ChoiceBox) if f.isVisible()]
        before = [f.value() for f in fields], [f.currentIndex() for f in lists], opened.state
        for one in (*fields, *lists):
            if not one.hasFocus():
                assert not turn_wheel(one)
                assert not one.hasFocus()
                passed += 1
        assert before == ([f.value() for f in fields], [f.currentIndex() for f in lists],
                          opened.state)  # fmt: skip
    assert passed > 10


def test_the_wheel_changes_the_number_that_one_is_about_to_type(opened):
    opened.show(c_bracket())
    opened.press_keys("Ctrl+3")
    opened.settle()
    field = next(f for f in opened.window.findChildren(NumberField) if f.isVisible())
    QTest.mouseClick(field.lineEdit(), Qt.MouseButton.LeftButton)
    before = field.value()
    assert turn_wheel(field, 1)
    assert field.value() > before
