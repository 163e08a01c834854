"""Settings, first page, about, errors, what is remembered, and later starts, by keys and mouse."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from tests.shapes import cube
from tests.waiting import LONG_MS
from tests.window.test_names_and_tips import tipless_in
from tests.window.test_window_files import stl_of
from tests.window.test_window_layout import cut_off, nameless_in
from viewer.window.about_dialog import AboutDialog
from viewer.window.error_dialog import ErrorDialog
from viewer.window.error_text import ERROR_FILE, kept_error
from viewer.window.first_page import FirstPage
from viewer.window.kept_choices import (
    POINTERS_PX,
    keep,
    opens_last_job,
    pointer_choice,
    type_percent,
    unit_choice,
    unit_for,
)
from viewer.window.language import language_choice
from viewer.window.layout import share_width
from viewer.window.recent_files import remember_file, settings
from viewer.window.settings_dialog import SettingsDialog
from viewer.window.theme import DARK


def page(opened, kind):
    (found,) = opened.window.findChildren(kind)
    assert found.isVisible()
    return found


def choose(box, words):
    """Pick an entry of a list as with the keyboard."""
    box.setFocus()
    place = box.findText(words)
    assert place >= 0, [box.itemText(k) for k in range(box.count())]
    QTest.keyClick(box, Qt.Key.Key_Home)
    for _ in range(place):
        QTest.keyClick(box, Qt.Key.Key_Down)
    assert box.currentText() == words


def test_settings_are_kept_and_act(opened):
    opened.press_keys("Ctrl+Comma")
    dialog = page(opened, SettingsDialog)
    assert nameless_in(dialog) == []
    assert tipless_in(dialog) == set()
    assert cut_off(dialog) == []
    choose(dialog.theme, "dark")
    assert opened.window.theming.theme is DARK
    choose(dialog.pointer, "very large")
    size_px = POINTERS_PX["very large"] * opened.window.devicePixelRatioF()
    for widget in (opened.window, opened.canvas):
        assert widget.cursor().pixmap().width() == pytest.approx(size_px)
    choose(dialog.pointer, "as on the desktop")
    assert opened.canvas.cursor().shape() == Qt.CursorShape.ArrowCursor
    choose(dialog.language, "Deutsch")
    assert language_choice() == "de"
    assert "Deutsch" in opened.window.notice.sentence
    choose(dialog.type_size, "150 %")
    choose(dialog.unit, "inch")
    QTest.keyClick(dialog.open_last, Qt.Key.Key_Space)
    assert (type_percent(), unit_choice(), opens_last_job()) == (150, "inch", False)
    dialog.close()
    opened.window.actions.by_key["settings"].trigger()
    again = page(opened, SettingsDialog)
    assert again is dialog
    assert again.unit.currentText() == "inch"
    again.close()
    opened.window.actions.by_key["theme_light"].trigger()  # by menu or key, while it is away
    opened.window.actions.by_key["settings"].trigger()
    assert again.theme.currentText() == "light"
    share_width(opened.window.sides, 1200)
    assert opened.window.sides[0].width() == 309  # a sixth is 200, at least 206, and half more


def test_the_file_menu_ends_with_the_way_out(opened):
    menus = {action.text().replace("&", ""): action for action in opened.window.menuBar().actions()}
    assert menus["File"].menu().actions()[-1] is opened.window.actions.by_key["quit"]


def test_a_file_without_a_unit_is_read_in_the_chosen_one(opened, tmp_path):
    path = stl_of(cube(2.0), tmp_path / "two.stl")
    keep("unit", "inch")
    opened.answers.path = path
    opened.press_keys("Ctrl+O")
    opened.settle()
    assert opened.state.part.unit == "inch"
    assert opened.state.part.mesh.box_mm[1] - opened.state.part.mesh.box_mm[0] == pytest.approx(
        [50.8, 50.8, 50.8]  # 2 × 25.4 mm
    )
    assert unit_for(tmp_path / "a.3mf") is None  # names its own
    assert unit_for(tmp_path / "a.step") is None


@pytest.mark.parametrize("kept", ["nonsense", "", "-1", "1e9"])
def test_nonsense_in_the_settings_file_is_the_usual(kept):
    for name in ("unit", "type_percent", "pointer", "open_last"):
        keep(name, kept)
    assert (unit_choice(), type_percent(), pointer_choice()) == ("ask", 100, "usual")
    assert opens_last_job()


def test_a_first_start_shows_the_first_page_which_leads_into_the_demo(opened):
    opened.window.open_last_job()
    first = page(opened, FirstPage)
    assert nameless_in(first) == []
    assert tipless_in(first) == set()
    assert cut_off(first) == []
    QTest.keyClick(first, Qt.Key.Key_Return)
    opened.qtbot.waitUntil(lambda: opened.state.part is not None, timeout=LONG_MS)
    opened.settle()
    assert opened.state.face_classes.any()
    assert not opened.window.findChildren(FirstPage)


def test_later_starts_open_the_last_job_unless_that_is_not_wanted(opened, tmp_path):
    remember_file(stl_of(cube(), tmp_path / "a.stl"))
    keep("open_last", "false")
    opened.window.open_last_job()
    opened.press(page(opened, FirstPage).later)
    assert opened.state.part is None
    keep("open_last", "true")
    opened.window.open_last_job()
    opened.settle()
    assert opened.state.part.name == "a"


def test_the_about_box_has_the_licence_of_every_package(opened):
    opened.press_keys("Shift+F1")
    about = page(opened, AboutDialog)
    about.tabs.setCurrentIndex(1)
    names = [one.name for one in about.packages]
    assert {"pyside6-essentials", "vtk", "numpy", "lib3mf", "llvmlite"} <= set(names)
    assert names == sorted(names)
    assert all(one.licence for one in about.packages)
    about.list.setCurrentRow(names.index("numpy"))
    assert "BSD" in about.text.toPlainText()
    assert nameless_in(about) == []


def test_a_kept_error_is_offered_shown_copied_and_thrown_away(opened, tmp_path):
    manners = opened.window.manners
    manners.log_folder = tmp_path
    opened.press_keys("Ctrl+F12")
    assert "nothing unexpected" in opened.window.notice.sentence
    manners.offer_error()
    assert not opened.window.findChildren(ErrorDialog)
    (tmp_path / ERROR_FILE).write_text("2026-11-26\nValueError\n", encoding="utf-8")
    manners.offer_error()
    dialog = page(opened, ErrorDialog)
    assert nameless_in(dialog) == []
    opened.press(dialog.copy)
    assert QApplication.clipboard().text() == "2026-11-26\nValueError"
    opened.press(dialog.away)
    assert kept_error(tmp_path) == ""
    opened.qtbot.waitUntil(lambda: not opened.window.findChildren(ErrorDialog), timeout=LONG_MS)
    manners.error_kept.emit()
    assert "Something went wrong" in opened.window.notice.sentence


def test_the_log_folder_is_shown_or_named(opened, tmp_path):
    manners, shown = opened.window.manners, []  # which goes with its window: nothing to put back
    manners.log_folder = tmp_path
    manners.open_folder = lambda folder: bool(shown.append(folder)) or True
    opened.press_keys("Ctrl+F9")
    assert shown == [tmp_path]
    assert opened.window.notice.sentence == ""
    manners.open_folder = lambda folder: False
    opened.press_keys("Ctrl+F9")
    assert str(tmp_path) in opened.window.notice.sentence


def test_place_strip_and_shop_come_back(opened, open_window):
    opened.window.setGeometry(60, 50, 1100, 760)
    opened.press_keys("H")
    opened.window.actions.by_key["shop_numbers"].trigger()
    QApplication.processEvents()
    place = opened.window.geometry()
    opened.window.manners.remember()
    again = open_window()
    assert again.window.choices.strip
    assert again.window.manners.restore()
    assert again.window.geometry() == place
    assert not again.window.choices.strip
    assert again.window.shop.column.is_open
    settings().setValue("window/geometry", "nonsense")
    assert not again.window.manners.restore()


def test_a_later_start_brings_the_window_forward_and_opens_its_file(opened, tmp_path):
    path = stl_of(cube(), tmp_path / "later.stl")
    opened.window.showMinimized()
    opened.window.manners.another_start(path, False)
    opened.settle()
    assert not opened.window.isMinimized()
    assert opened.state.part.name == "later"
    state = opened.state
    opened.window.manners.another_start(None, False)
    assert opened.state is state
