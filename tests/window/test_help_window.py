"""The help opens where it is needed, is searched through, and is whole in both languages."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QPushButton

from tests.shapes import cube
from tests.waiting import LONG_MS
from tests.window.test_names_and_tips import tipless_in
from tests.window.test_window_layout import nameless_in
from viewer.window import help_places
from viewer.window.help_texts import (
    MOUSE_PAGE,
    PAGES,
    all_sections,
    page_markdown,
    search,
    section_number,
)
from viewer.window.help_window import HelpWindow
from viewer.window.kept_keys import GIVEN
from viewer.window.sheet_box import SheetBox
from viewer.window.split_box import SplitBox
from viewer.window.stages import Stage
from viewer.words import ENGLISH, GERMAN, speak


def help_window(opened):
    (found,) = opened.window.findChildren(HelpWindow)
    return found


def close(opened, found):
    QTest.keyClick(found, Qt.Key.Key_Escape)
    opened.qtbot.waitUntil(lambda: not opened.window.findChildren(HelpWindow), timeout=LONG_MS)
    with opened.qtbot.waitActive(opened.window):  # no window manager here gives it back
        opened.window.activateWindow()


def test_f1_opens_the_help_at_the_stage_or_at_what_has_the_focus(opened):
    opened.show(cube())
    for stage, title in (
        (Stage.CHECK, "1. Check"), (Stage.MARK, "Ways to mark"), (Stage.TURN, "3. Turn"),
        (Stage.TRY, "4. Try"), (Stage.HAND_OVER, "5. Hand over"),
    ):  # fmt: skip
        opened.press_keys(f"Ctrl+{stage.value}")
        opened.press_keys("F1")
        found = help_window(opened)
        assert found.shown.title == title
        close(opened, found)
    for stage, kind, title in (
        (Stage.TRY, SplitBox, "Split for real"), (Stage.HAND_OVER, SheetBox, "The client sheet"),
    ):  # fmt: skip
        opened.window.choices.set_stage(stage)
        (box,) = opened.window.findChildren(kind)
        assert help_places.place_of(box, stage)[1] == title
    opened.window.choices.set_stage(Stage.TURN)
    opened.window.panels[Stage.TURN].process["layer_mm"].setFocus()
    assert help_places.place_of(QApplication.focusWidget(), Stage.CHECK)[1] == "3. Turn"
    opened.window.strip.setFocus()
    QTest.keyClick(opened.window.strip, Qt.Key.Key_F1)
    found = help_window(opened)
    assert found.shown.title == "Layer by layer"
    top = found.page.verticalScrollBar().value()
    assert top > 0
    assert nameless_in(found) == []
    assert tipless_in(found) == set()
    # Qt's own pictures on buttons are dark in either theme.
    assert [each for each in found.findChildren(QPushButton) if not each.icon().isNull()] == []
    close(opened, found)


def test_f1_works_in_a_page_of_its_own(opened):
    opened.press_keys("Ctrl+K")
    keys = QApplication.activeWindow()
    opened.qtbot.waitUntil(lambda: QApplication.activeWindow() is not opened.window)
    keys = QApplication.activeWindow()
    QTest.keyClick(QApplication.focusWidget(), Qt.Key.Key_F1)
    assert help_window(opened).shown.title == "Keys and shortcuts"
    keys.close()


def test_search_finds_a_section_and_marks_the_words(opened):
    opened.press_keys("F1")
    found = help_window(opened)
    QTest.keyClick(found, Qt.Key.Key_F, Qt.KeyboardModifier.ControlModifier)
    opened.qtbot.waitUntil(found.words.hasFocus, timeout=LONG_MS)
    QTest.keyClicks(found.words, "purge")
    assert found.list.count() >= 1
    assert found.shown.page == "how-it-reckons.md"
    marked = {mark.cursor.selectedText().lower() for mark in found.page.extraSelections()}
    assert marked == {"purge"}
    QTest.keyClicks(found.words, "xyzzy")
    assert found.list.count() == 0
    assert "Nothing found" in found.count.text()
    found.words.clear()
    assert found.list.count() == len(all_sections(ENGLISH))
    assert found.page.extraSelections() == []


def test_a_title_counts_more_than_a_mention():
    assert search("islands")[0].text.lower().count("island") >= 1
    assert search("direction map")[0].title == "The direction map"
    assert search("settings")[0].title in ("Settings", "Settings, files and what goes wrong")
    assert search("") == []


def test_compounds_of_german_are_found():
    speak(GERMAN)
    try:
        assert any("Richtung" in one.title for one in search("richtung"))
        assert search("stütz")
    finally:
        speak(ENGLISH)


@pytest.mark.parametrize("page", [page for page in PAGES if page != MOUSE_PAGE])
def test_a_page_has_the_same_headings_in_both_languages(page):
    def levels(language):
        return [
            line.split(" ")[0]
            for line in page_markdown(page, language).splitlines() if line.startswith("#")
        ]  # fmt: skip

    assert levels(GERMAN) == levels(ENGLISH)
    assert page_markdown(page, GERMAN) != page_markdown(page, ENGLISH)


def test_every_place_is_a_section_and_every_class_is_there(opened):
    for name, (page, title) in help_places.PLACES.items():
        assert section_number(page, title) >= 0, name
    kinds = {type(widget).__name__ for widget in opened.window.findChildren(object)}
    of_their_own = ("Dialog", "FirstPage", "Form", "Preview")
    dialogs = {name for name in help_places.PLACES if name.endswith(of_their_own)}
    assert set(help_places.PLACES) - dialogs <= kinds


def test_keys_named_on_the_pages_about_the_program_are_those_of_the_table():
    text = page_markdown("first-steps.md", ENGLISH) + page_markdown("the-program.md", ENGLISH)
    for key in ("demo", "search_directions", "keep_pose", "compare", "settings", "keys",
                "find_action"):  # fmt: skip
        keys = GIVEN.get(key)
        if keys is not None:
            assert f"{keys})" in text, key
