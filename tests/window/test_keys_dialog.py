"""Shortcuts are listed, changed, refused where they clash, kept, and set back."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QPushButton

from tests.shapes import cube
from tests.window.test_names_and_tips import tipless_in
from tests.window.test_window_layout import nameless_in
from viewer.window.action_table import ENTRIES
from viewer.window.kept_keys import GIVEN, OF_THE_SCENE, all_keys, keep_keys, why_not
from viewer.window.keys_dialog import KEYS, KeysDialog
from viewer.window.pieces import ActionButton

PORTABLE = QKeySequence.SequenceFormat.PortableText


def row_of(dialog, key):
    return next(row for row in range(dialog.table.rowCount()) if dialog.key_of(row) == key)


def press_into(dialog, field, key, held=Qt.KeyboardModifier.NoModifier):
    field.setFocus()
    QTest.keyClick(field, key, held)
    QApplication.processEvents()


@pytest.fixture
def dialog(opened):
    opened.press_keys("Ctrl+K")
    (found,) = opened.window.findChildren(KeysDialog)
    return found


def test_every_action_is_listed_and_found_by_name_menu_or_keys(dialog):
    listed = [dialog.key_of(row) for row in range(dialog.table.rowCount())]
    assert listed == [entry.key for entry in ENTRIES]
    QTest.keyClicks(dialog.words, "camera alt+3")
    shown = [row for row in range(len(listed)) if not dialog.table.isRowHidden(row)]
    assert [listed[row] for row in shown] == ["camera_left"]
    assert nameless_in(dialog) == []
    assert tipless_in(dialog) == set()


def test_keys_are_changed_with_the_keyboard_kept_and_set_back(dialog, opened, open_window):
    quarter = opened.window.actions.by_key["quarter_x_plus"]
    dialog.table.selectRow(row_of(dialog, "quarter_x_plus"))
    press_into(dialog, dialog.edit, Qt.Key.Key_F10)
    opened.press(dialog.take)
    assert "now has the keys F10" in dialog.said.text()
    row = row_of(dialog, "quarter_x_plus")
    assert dialog.table.item(row, KEYS).text() == "F10"
    assert dialog.table.item(row, KEYS).font().bold()
    dialog.close()
    opened.show(cube())
    with opened.qtbot.waitActive(opened.window):
        opened.window.activateWindow()
    opened.press_keys("X")
    assert opened.document.undo_label == ""
    opened.press_keys("F10")
    assert opened.document.undo_label == "Quarter turn"
    again = open_window()
    assert again.window.actions.by_key["quarter_x_plus"].shortcut().toString() == "F10"
    again.window.actions.by_key["keys"].trigger()
    (other,) = again.window.findChildren(KeysDialog)
    opened.press(other.all_back)
    assert again.window.actions.by_key["quarter_x_plus"].shortcut().toString() == "X"
    assert quarter.shortcut().toString() == "F10"  # another window of these tests; no such twins
    assert all_keys() == {key: QKeySequence(keys, PORTABLE) for key, keys in GIVEN.items()}


def test_a_clash_is_refused_with_a_sentence_and_nothing_is_changed(dialog, opened):
    dialog.table.selectRow(row_of(dialog, "fit"))
    press_into(dialog, dialog.edit, Qt.Key.Key_S, Qt.KeyboardModifier.ControlModifier)
    opened.press(dialog.take)
    assert dialog.said.text() == (
        "! Ctrl+S already means “Save the job”; choose other keys, or change those first."
    )
    assert opened.window.actions.by_key["fit"].shortcut().toString() == "Home"
    assert opened.answers.asked == []  # nor was the job saved
    dialog.edit.clear()
    opened.press(dialog.take)
    assert opened.window.actions.by_key["fit"].shortcut().isEmpty()
    opened.press(dialog.back)
    assert opened.window.actions.by_key["fit"].shortcut().toString() == "Home"


def test_keys_of_the_scene_and_beginnings_of_others_are_refused():
    present = all_keys()
    for keys in OF_THE_SCENE:
        assert "pointer" in why_not("fit", QKeySequence(keys, PORTABLE), present), keys
    for keys in ("X", "X, Y", "Ctrl+S, A"):  # X would never wait for a second key
        assert "already means" in why_not("fit", QKeySequence(keys, PORTABLE), present), keys
    assert why_not("fit", QKeySequence("Home", PORTABLE), present) == ""
    assert why_not("fit", QKeySequence("Ctrl+T, F", PORTABLE), present) == ""
    assert why_not("fit", QKeySequence(), present) == ""


def test_what_the_settings_file_holds_by_mistake_is_no_shortcut():
    keep_keys("fit", QKeySequence("Ctrl+T", PORTABLE))
    assert all_keys()["fit"].toString() == "Ctrl+T"
    keep_keys("fit", QKeySequence("Home", PORTABLE))
    assert all_keys()["fit"].toString() == "Home"


def test_tips_of_buttons_follow(opened):
    action = opened.window.actions.by_key["open"]
    made = next(
        one for one in opened.window.findChildren(QPushButton)
        if isinstance(one, ActionButton) and one._action is action
    )  # fmt: skip
    assert "(Ctrl+O)" in made.toolTip()
    action.setShortcut(QKeySequence("F10"))
    assert "(F10)" in made.toolTip()
