"""The fold Shop: the price beside the pose, choices as undo steps, all by mouse and keys."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from tests.shapes import box, c_bracket
from tests.waiting import LONG_MS
from tests.window.test_window_layout import SIZES, cut_off, nameless_in, needing_a_scroll
from viewer.shop.job_numbers import job_numbers
from viewer.shop.shop_choice import ShopChoice
from viewer.window.shop_rows import duration_text, price_texts


@pytest.fixture(autouse=True)
def own_shop(tmp_path, monkeypatch):
    monkeypatch.setenv("SHOWSIDE_SHOP", str(tmp_path / "shop"))


def told(opened):
    """Wait until the shop has told of the present pose and choice."""
    shop = opened.window.shop

    def known():
        numbers = shop.live.latest
        assert numbers is not None
        assert shop.live.latest_pose == opened.state.pose
        assert not shop.live.asking

    opened.settle()
    opened.qtbot.waitUntil(known, timeout=LONG_MS)
    opened.draw()
    return shop.live.latest


def pick(opened, field, name):
    """Choose in a list with the keys, as from the keyboard."""
    chooser = opened.window.shop.column.chooser.lists[field]
    chooser.setFocus()
    QTest.keyClick(chooser, Qt.Key.Key_Down, Qt.KeyboardModifier.AltModifier)
    listed = chooser.view()
    opened.qtbot.waitUntil(listed.isVisible, timeout=LONG_MS)
    rows = chooser.findData(name) - chooser.currentIndex()
    for _ in range(abs(rows)):
        QTest.keyClick(listed, Qt.Key.Key_Down if rows > 0 else Qt.Key.Key_Up)
    QTest.keyClick(listed, Qt.Key.Key_Return)
    opened.qtbot.waitUntil(lambda: not listed.isVisible(), timeout=LONG_MS)
    QApplication.processEvents()


def test_the_price_stands_beside_the_pose_and_the_fold_opens_by_mouse_and_key(opened):
    opened.show(c_bracket())
    numbers = told(opened)
    column = opened.window.shop.column
    assert not column.is_open
    assert column.price.text() in price_texts(numbers)
    assert duration_text(numbers.estimate.time_s.likely) in column.head.accessibleName()
    assert needing_a_scroll(opened.window) == []
    opened.press(column.head)
    assert column.is_open
    assert opened.window.actions.by_key["shop_numbers"].isChecked()
    assert column.value_text("time_s") == duration_text(numbers.estimate.time_s.likely)
    opened.press_keys("F3")
    assert not column.is_open


def test_numbers_are_those_of_the_shop_for_what_is_chosen_and_each_choice_is_a_step(opened):
    opened.show(c_bracket())
    opened.press_keys("F3")
    before = told(opened)
    pick(opened, "pair", "PLA with PVA")
    pick(opened, "machine", "Two nozzles, large")
    numbers = told(opened)
    assert opened.state.shop_choice.machine == "Two nozzles, large"
    state, shop = opened.state, opened.window.shop
    direct = job_numbers(
        state.part.mesh, state.face_classes, state.pose, state.settings,
        opened.window.live_measures.latest, shop.live.shop,
        ShopChoice("Two nozzles, large", "PLA with PVA", "Usual"),
    )  # fmt: skip
    assert numbers.estimate.time_s == direct.estimate.time_s
    column = shop.column
    assert column.value_text("tool_changes") == f"{direct.estimate.tool_changes.likely:g}"
    assert "dissolved in water" in column._pair.text()
    assert all(caution.text in column._cautions.text() for caution in direct.cautions)
    opened.press_keys("Ctrl+Z")
    opened.press_keys("Ctrl+Z")
    assert told(opened).estimate.time_s == before.estimate.time_s
    assert opened.document.undo_label == ""


def test_the_difference_to_the_pinned_pose_stands_beside_time_and_money(opened):
    opened.show(c_bracket())
    opened.press_keys("F3")
    opened.press_keys("P")
    first = told(opened)
    opened.press_keys("X")
    second = told(opened)
    column = opened.window.shop.column
    more = second.estimate.time_s.likely - first.estimate.time_s.likely
    assert abs(more) > 60
    sign = "−" if more < 0 else "+"
    assert f"{sign}{duration_text(more)}" in column._cells["time_s"].text()


def test_what_fits_only_turned_is_turned_by_the_button_in_one_step(opened):
    """A bar of 290 mm fits the diagonal of 220 × 220 only: 220·√2 = 311 mm."""
    opened.show(box((0, 0, 0), (290, 4, 4)))
    opened.press_keys("F3")
    numbers = told(opened)
    fit = numbers.fits[numbers.chosen.machine.name]
    assert fit.fits
    assert fit.why
    column = opened.window.shop.column
    assert column.price.text().startswith("!")
    opened.press(column._turn)
    assert opened.document.undo_label == "Turn to fit"
    assert opened.state.pose.spin_deg == pytest.approx(fit.spin_deg)
    after = told(opened)
    assert after.fits[after.chosen.machine.name].why == ""
    assert not opened.window.actions.by_key["turn_to_fit"].isEnabled()
    opened.press_keys("Ctrl+Z")
    assert opened.state.pose.spin_deg == 0
    told(opened)
    opened.press_keys("T")
    assert opened.state.pose.spin_deg == pytest.approx(fit.spin_deg)


def test_a_pair_that_the_machine_cannot_print_says_so(opened):
    opened.show(c_bracket())
    opened.press_keys("F3")
    told(opened)
    pick(opened, "pair", "PLA with PVA")
    numbers = told(opened)
    column = opened.window.shop.column
    assert numbers.estimate is None
    assert "needs 2 materials" in column._dominates.text()
    assert column.price.text() in price_texts(None) + price_texts(numbers)


@pytest.mark.parametrize("size", SIZES, ids=str)
def test_nothing_is_cut_off_or_nameless_and_the_numbers_do_not_scroll_closed(size, open_window):
    opened = open_window(*size)
    opened.show(c_bracket())
    opened.press_keys("P")
    opened.press_keys("X")
    told(opened)
    assert needing_a_scroll(opened.window) == []
    opened.press_keys("F3")
    opened.draw()
    assert cut_off(opened.window) == []
    assert nameless_in(opened.window) == []
    tipless = [
        label.text()
        for label in opened.window.shop.column._names.values()
        if label.isVisible() and not label.toolTip()
    ]
    assert tipless == []
