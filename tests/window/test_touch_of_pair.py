"""What the chosen pair makes of the sliders about marks of supports: words, weights, one undo."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from tests.shapes import c_bracket
from tests.window.test_shop_column import own_shop, pick, told  # noqa: F401 -- a fixture
from viewer.geometry.aims import SHOW_SIDE


@pytest.mark.usefixtures("own_shop")
def test_another_pair_weighs_touch_otherwise_and_says_why(opened):
    opened.show(c_bracket())
    opened.press_keys("Shift+D")
    opened.press_keys("F3")
    told(opened)
    searching, aims = opened.window.searching, opened.window.searching.pane.aims
    assert searching.choices.counted == pytest.approx(SHOW_SIDE.weights)
    assert "marks of supports count 1.00 times" in aims.touch.text()
    pick(opened, "pair", "PLA with PVA")
    told(opened)
    counted = searching.choices.counted
    assert searching.choices.weights == SHOW_SIDE.weights  # the sliders stay where they are
    assert counted["clean_a"] == pytest.approx(30)
    assert counted["clean_a"] < counted["steps_a"] == 50
    assert searching.live._weights == counted
    text = aims.touch.text()
    assert "marks of supports count 0.30 times" in text
    assert "common practice, no source" in text
    assert "cuts such directions out all the same" in text
    assert "counts as 30" in aims.sliders["clean_a"].toolTip()
    pane = searching.pane
    pane.tabs.setCurrentIndex(1)
    limit = aims.limits["no-touch-on-a"]
    limit.setFocus()
    QTest.keyClick(limit, Qt.Key.Key_Space)
    assert "cuts such" not in aims.touch.text()
    opened.press_keys("Ctrl+Z")
    assert "cuts such" in aims.touch.text()
    opened.press_keys("Ctrl+Z")
    QApplication.processEvents()
    assert searching.choices.counted == pytest.approx(SHOW_SIDE.weights)
