"""Finished prints: noted, listed, removed; the estimate follows and the range narrows."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from tests.shapes import c_bracket
from tests.waiting import LONG_MS
from tests.window.test_shop_column import own_shop, told  # noqa: F401
from tests.window.test_window_layout import nameless_in
from viewer.files.shop_folder import read_finished_prints


@pytest.fixture
def prints(opened):
    opened.show(c_bracket(), name="bracket")
    told(opened)
    opened.press_keys("F9")
    dialog = opened.window.shop.prints
    opened.qtbot.waitUntil(dialog.isVisible, timeout=LONG_MS)
    yield opened, dialog
    dialog.close()


def type_number(field, value):
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, str(value))
    QTest.keyClick(field, Qt.Key.Key_Tab)
    QApplication.processEvents()


def note(opened, dialog, seconds, grams=0):
    hours, rest = divmod(round(seconds), 3600)
    type_number(dialog.hours, hours)
    type_number(dialog.minutes, round(rest / 60))
    type_number(dialog.mass, grams)
    opened.press(dialog.note)
    return told(opened)


def test_what_is_noted_is_listed_and_corrects_the_estimate_with_a_narrower_range(prints):
    opened, dialog = prints
    before = told(opened).estimate
    assert "No finished print" in dialog.told.text()
    real_s, numbers = 1.5 * before.estimated_s, None
    for _ in range(4):
        numbers = note(opened, dialog, real_s)
    noted = read_finished_prints()
    assert len(noted) == 4
    assert noted[0].job == "bracket"
    assert noted[0].machine == before.machine
    assert noted[0].estimated_s == before.estimated_s  # before correction, each time
    assert dialog.rows.rowCount() == 4
    time = numbers.estimate.time_s
    assert before.time_s.likely < time.likely < 1.5 * before.time_s.likely * 1.01
    width = (time.high - time.low) / time.likely
    assert width < (before.time_s.high - before.time_s.low) / before.time_s.likely
    assert "told by 4 prints" in dialog.told.text()


def test_nothing_real_is_refused_in_a_sentence(prints):
    opened, dialog = prints
    opened.press(dialog.note)
    assert "note the real time or the real mass" in dialog.problem.text()
    assert read_finished_prints() == ()


def test_a_print_is_removed_and_brought_back(prints):
    opened, dialog = prints
    made = told(opened).estimate
    note(opened, dialog, 1.2 * made.estimated_s, 31)
    note(opened, dialog, 1.3 * made.estimated_s, 33)
    both = read_finished_prints()
    dialog.rows.selectRow(0)
    opened.press(dialog.remove)
    assert read_finished_prints() == both[1:]
    told(opened)
    assert dialog.rows.rowCount() == 1
    opened.press(dialog.back)
    assert read_finished_prints() == both
    assert nameless_in(dialog) == []


def test_the_chart_shows_the_prints_of_the_machine_and_the_curve_fitted_to_them(prints):
    opened, dialog = prints
    made = told(opened).estimate
    note(opened, dialog, 1.4 * made.estimated_s, 40)
    chart = dialog.chart
    assert list(chart._estimated) == [made.estimated_s / 3600]
    point = chart.place_of(chart._estimated[0], chart._real[0])
    assert chart._box().contains(point)
    picture = chart.grab().toImage()
    middle = picture.pixelColor(point.toPoint())
    ring = picture.pixelColor(int(point.x()) + 4, int(point.y()))
    assert middle != ring
    dialog.what.setFocus()
    QTest.keyClick(dialog.what, Qt.Key.Key_Down)
    assert dialog.what.currentText() == "Mass of this machine"
    assert list(chart._real) == [40.0]
