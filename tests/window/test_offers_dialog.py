"""Compare machines: a column for each, differences, and choosing from the table."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QFont, QFontMetrics
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from shiboken6 import isValid

from tests.shapes import c_bracket
from tests.waiting import LONG_MS
from tests.window.test_shop_column import own_shop, pick, told  # noqa: F401
from tests.window.test_window_layout import nameless_in
from viewer.shop.offers import Offer
from viewer.window.offers_dialog import OffersTable
from viewer.window.shop_rows import duration_text


@pytest.fixture
def compared(opened):
    opened.show(c_bracket())
    opened.press_keys("F3")
    told(opened)
    pick(opened, "pair", "PLA with PVA")
    pick(opened, "machine", "Two nozzles, large")
    told(opened)
    opened.press_keys("F8")
    dialog = opened.window.shop.offers
    opened.qtbot.waitUntil(lambda: dialog.machines.columnCount() > 1, timeout=LONG_MS)
    yield opened, dialog
    if isValid(dialog):
        dialog.close()


def headers(table):
    return [table.horizontalHeaderItem(k).toolTip() for k in range(table.columnCount())]


def test_every_machine_is_a_column_with_its_difference_to_the_chosen_one(compared):
    opened, dialog = compared
    names = headers(dialog.machines)
    assert names[0] == "Two nozzles, large"
    assert len(names) == 4
    shared = names.index("Shared nozzle, four materials")
    live = opened.window.shop.live.latest
    more = live.others["Shared nozzle, four materials"]
    assert f"+{duration_text(more.time_s)}" in dialog.machines.item(0, shared).text()
    assert more.sentence in dialog.short.text()
    single = names.index("One nozzle, medium")
    assert dialog.machines.item(0, single).text() == "cannot be printed so"
    assert "PLA, PVA contact layers" in headers(dialog.pairs)
    assert nameless_in(dialog) == []


def test_a_column_is_chosen_with_the_mouse_and_keys_as_one_step(compared):
    opened, dialog = compared
    table, names = dialog.machines, headers(dialog.machines)
    place = names.index("Shared nozzle, four materials")
    table.scrollToItem(table.item(0, place))
    middle = table.visualItemRect(table.item(0, place)).center()
    QTest.mouseClick(table.viewport(), Qt.MouseButton.LeftButton, pos=middle)
    opened.press(dialog.choose)
    assert opened.state.shop_choice.machine == "Shared nozzle, four materials"
    assert opened.document.undo_label == "Choose in the shop"
    told(opened)
    opened.qtbot.waitUntil(
        lambda: headers(table)[0] == "Shared nozzle, four materials", timeout=LONG_MS
    )
    dialog.pairs.setFocus()
    dialog.pairs.setCurrentCell(0, 1)
    QTest.keyClick(dialog.pairs, Qt.Key.Key_Right)
    QApplication.processEvents()
    wanted = headers(dialog.pairs)[2]
    opened.press(dialog.choose)
    assert opened.state.shop_choice.pair == wanted


def test_a_closed_table_asks_nothing_any_more(compared):
    """Numbers may be told between its closing and the moment when Qt deletes it."""
    opened, dialog = compared
    if isValid(dialog):
        dialog.close()
    opened.window.shop.live.told.emit(opened.window.shop.live.latest)
    assert dialog._job is None


def test_no_head_is_wider_than_its_column(qtbot):
    """A long name stands in two lines, as the window sees it in its bold face."""
    table = OffersTable("machines")
    qtbot.addWidget(table)
    long = "Gemeinsame Düse, vier Materialien"
    table.show_offers((Offer(long, "PLA", True, None, "so nicht"),), lambda offer: offer.machine)
    item = table.horizontalHeaderItem(0)
    assert item.toolTip() == long
    assert item.text().split() == long.split()
    bold = QFont(table.font())
    bold.setBold(True)
    metrics = QFontMetrics(bold)
    assert metrics.horizontalAdvance(long) > table.columnWidth(0) - 16
    widths = [metrics.horizontalAdvance(line) for line in item.text().split("\n")]
    assert max(widths) <= table.columnWidth(0) - 16
