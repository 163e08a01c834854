"""The window in German: no English word in sight, numbers with a comma, nothing cut off."""

import re
from dataclasses import replace
from itertools import combinations

import numpy as np
import pytest
from PySide6.QtCore import QLocale, QTranslator
from PySide6.QtGui import QFont
from PySide6.QtWidgets import QApplication, QComboBox, QLabel, QMenu, QScrollArea, QWidget

from tests.shapes import cube
from tests.waiting import LONG_MS
from tests.window.measured import by_class, measures
from tests.window.test_window_actions import letters_twice
from tests.window.test_window_layout import cut_off, needing_a_scroll
from viewer.document.demo_job import faulty_demo_job
from viewer.geometry.face_classes import CLASS_A
from viewer.scene.lenses import Lens
from viewer.window.choices import Extent
from viewer.window.compare_rows import compare_rows
from viewer.window.language import speak_in
from viewer.window.main_window import MainWindow
from viewer.window.mouse_words import MOUSE
from viewer.window.stages import Stage
from viewer.words import ENGLISH, GERMAN, read_catalogue, say, speak

# Names of formats, keys and units are the same in both languages.
BOTH = {"showside", "esc", "escape", "return", "part"}


@pytest.fixture
def german(qapp):
    before = QLocale()
    speak_in(qapp, GERMAN)
    yield
    for translator in qapp.findChildren(QTranslator):
        qapp.removeTranslator(translator)
        translator.setParent(None)
    QLocale.setDefault(before)
    speak(ENGLISH)


def words_of(text: str) -> set[str]:
    """Words of three letters and more; tags and mnemonics are no part of them."""
    plain = re.sub(r"<[^>]*>|\{[^}]*\}|\*\.\w+", " ", text.replace("&", ""))
    return {word.lower() for word in re.findall(r"[^\W\d_]{3,}", plain)}


def english_only() -> set[str]:
    """Words that English sentences have and no German one."""
    catalogue = read_catalogue(GERMAN)
    english = set().union(*map(words_of, catalogue))
    german = set().union(*map(words_of, catalogue.values()))
    return english - german - BOTH


def texts_of(window: QWidget) -> set[str]:
    """Everything that the visible widgets, their tips and all menus say."""
    found = set()
    for widget in window.findChildren(QWidget):
        if not widget.isVisible() and not isinstance(widget, QMenu):
            continue
        for name in ("text", "toolTip", "accessibleName", "placeholderText", "title"):
            read = getattr(widget, name, None)
            if callable(read) and isinstance(text := read(), str):
                found.add(text)
        found.add(widget.accessibleDescription())
        if isinstance(widget, QComboBox):
            found |= {widget.itemText(k) for k in range(widget.count())}
        if isinstance(widget, QMenu):
            found |= {action.text() for action in widget.actions()}
    actions = window.actions.by_key.values() if isinstance(window, MainWindow) else ()
    for action in actions:
        found |= {action.text(), action.toolTip(), action.statusTip(), action.data()}
    return found


def shown_in_every_stage(opened) -> set[str]:
    """The texts of all stages, ways to mark and lenses."""
    window, found = opened.window, set()
    for stage in Stage:
        window.choices.set_stage(stage)
        opened.draw()
        found |= texts_of(window)
    window.choices.set_stage(Stage.MARK)
    for extent in Extent:
        window.choices.set_mark(extent=extent)
        opened.draw()
        found |= texts_of(window)
    for lens in Lens:
        window.choices.set_lens(lens)
        opened.draw()
        found |= texts_of(window)
    return found


def test_no_english_word_is_in_sight(german, open_window):
    opened = open_window()
    mesh = cube()
    opened.show(mesh, np.full(mesh.face_count, CLASS_A, np.uint8))
    english = english_only()
    assert {"the", "platform", "width", "which"} <= english
    left = {text: words_of(text) & english for text in shown_in_every_stage(opened)}
    found = [f"{text}: {sorted(words)}" for text, words in left.items() if words]
    assert not found, "\n".join(found)
    assert opened.window.menuBar().actions()[0].text() == "&Datei"
    assert letters_twice(opened.window.menuBar()) == []


def test_number_fields_take_a_comma(german, open_window):
    opened = open_window()
    opened.show(cube())
    opened.window.choices.set_stage(Stage.TURN)
    field = opened.window.panels[Stage.TURN].process["layer_mm"]
    assert field.text() == "0,20 mm"
    field.lineEdit().setText("0,15 mm")
    field.interpretText()
    assert opened.state.settings.layer_mm == pytest.approx(0.15)


def test_german_words_fit_in_every_stage(german, open_window):
    opened = open_window(1280, 800)
    mesh = cube(250.0)  # areas in six digits
    opened.show(mesh, np.full(mesh.face_count, CLASS_A, np.uint8))
    assert opened.window.width() == 1280  # no row of buttons asks for more
    for stage in Stage:
        opened.window.choices.set_stage(stage)
        opened.draw()
        for extent in Extent if stage is Stage.MARK else ():
            opened.window.choices.set_mark(extent=extent)
            opened.draw()
            assert cut_off(opened.window) == [], extent
        assert cut_off(opened.window) == [], stage
        if stage is Stage.TURN:
            assert needing_a_scroll(opened.window) == []


def test_mending_is_told_in_german_from_end_to_end_and_nothing_is_cut_off(german, open_window):
    """Rows that wrap are the longest words of the window, and change with every step."""
    opened = open_window(1280, 800)
    opened.document.open(faulty_demo_job(0.08))
    opened.window.choices.set_stage(Stage.CHECK)
    panel, work = opened.window.panels[Stage.CHECK], opened.window.mending
    box, english, only_english = panel.mend_box, set(), english_only()

    def look_at_it() -> None:
        opened.settle()
        assert cut_off(opened.window) == [], work.taken
        for text in texts_of(box):
            english.update(words_of(text) & only_english)

    look_at_it()
    opened.press(box.look)
    opened.qtbot.waitUntil(lambda: work.looked, timeout=2 * LONG_MS)
    look_at_it()
    opened.press(box.safe)
    while work.taken < len(work.ways):
        look_at_it()
        opened.press(box.rows.itemAt(work.taken).widget().button)
    look_at_it()
    opened.press(box.back)
    opened.qtbot.waitUntil(lambda: not work.can_go_back, timeout=LONG_MS)
    look_at_it()
    assert english == set()


def test_the_choice_is_kept_and_told(opened):
    window = opened.window
    assert window.actions.by_key["language_desktop"].isChecked()
    window.actions.by_key["language_de"].trigger()
    label = next(label for label in window.notice.findChildren(QLabel) if "Deutsch" in label.text())
    assert label.text() == "! From the next start on Showside speaks Deutsch."
    from viewer.window.language import language_choice, language_of

    assert language_choice() == language_of(language_choice()) == GERMAN


def test_dialogs_of_qt_speak_german_too(german):
    assert QApplication.translate("QPlatformTheme", "Cancel") == "Abbrechen"


def test_the_finder_shows_each_row_whole_in_german(german, opened):
    finder = opened.window.finder
    finder.open_over(opened.window)
    QApplication.processEvents()
    rows = finder.found
    assert rows.count() == len(opened.window.actions.by_key)
    assert rows.sizeHintForColumn(0) <= rows.viewport().width()
    assert not rows.horizontalScrollBar().isVisible()
    assert opened.window.geometry().contains(finder.geometry())
    finder.hide()


def test_the_page_of_mouse_and_keys_names_the_keys_in_german(german):
    keys = " ".join(say(what) for what, _ in MOUSE)
    assert "Strg+Umschalt+A" in keys
    assert "Ctrl" not in keys


@pytest.mark.parametrize("size", [(1280, 800), (1920, 1080)])
@pytest.mark.parametrize("presenting", [False, True])
def test_no_number_of_four_poses_is_cut_off_in_german(german, open_window, size, presenting):
    opened = open_window(*size)
    opened.show(cube(), np.full(12, CLASS_A, np.uint8))
    opened.window.choices.set_stage(Stage.TURN)
    for key in "KXKYKXP":
        opened.press_keys(key)
    opened.press_keys("C")
    if presenting:
        opened.press_keys("F5")
    opened.draw()
    table = opened.window.compare_box.table
    crowded = [
        replace(
            one, support_volume_mm3=k * 123_456.0, touch_area_mm2=by_class(k * 7_891.0, 0.0, 0.0)
        )
        for k, one in enumerate([measures()] * 4, 1)
    ]
    rows = compare_rows(crowded, opened.state.face_classes)
    table.show_rows(["1  Angeheftet", "2  Jetzt", "3  Lage 1", "4  Lage 2"], rows)
    metrics = table.fontMetrics()
    for down in range(table.rowCount()):
        for across in range(5):
            needed = metrics.horizontalAdvance(table.item(down, across).text())
            assert needed + 20 <= table.columnWidth(across), table.item(down, across).text()
    assert table.columnViewportPosition(4) + table.columnWidth(4) <= table.viewport().width()
    unit_somewhere = table.item(0, 0).text() + table.item(0, 1).text()
    assert unit_somewhere.count("mm²") == 1
    opened.press_keys("Escape")


@pytest.fixture
def program_font(qapp):
    """A function that makes the font of the program larger; the old one comes back."""
    before = qapp.font()

    def enlarge(times: float) -> None:
        font = QFont(before)
        font.setPointSizeF(times * before.pointSizeF())
        qapp.setFont(font)

    yield enlarge
    qapp.setFont(before)


def squeezed(page: QWidget) -> list[str]:
    """Widgets of a page that are lower than they may be, or lie over the next one."""
    layout = page.layout()
    seen = [layout.itemAt(k).widget() for k in range(layout.count())]
    seen = [widget for widget in seen if widget is not None and widget.isVisible()]
    found = [
        f"{type(widget).__name__} {widget.height()} high"
        for widget in seen
        if widget.height() < max(widget.minimumHeight(), 1)
    ]
    return found + [
        f"{type(one).__name__} over {type(other).__name__}"
        for one, other in combinations(seen, 2)
        if one.geometry().intersects(other.geometry())
    ]


@pytest.mark.parametrize("times", [1.0, 1.2])
def test_german_words_fit_beside_the_direction_map(german, program_font, open_window, times):
    """With the larger font of another desktop too: what lacks room scrolls and is not squeezed."""
    program_font(times)
    opened = open_window(1280, 800)
    mesh = cube()
    opened.show(mesh, np.full(mesh.face_count, CLASS_A, np.uint8))
    opened.press_keys("Shift+D")
    window, pane = opened.window, opened.window.direction_pane
    assert pane.aims.font().pointSizeF() == pytest.approx(times * 9.0)
    pane.tabs.setCurrentIndex(2)
    opened.qtbot.waitUntil(lambda: window.adapting.live.latest is not None, timeout=LONG_MS)
    pane.numbers.setText("Zahlen einer Richtung · " * 14)  # four lines
    for running in (True, False):
        pane.show_running(running, "", 0.5)
        for tab in range(pane.tabs.count()):
            pane.tabs.setCurrentIndex(tab)
            opened.draw()
            assert times > 1.0 or window.width() == 1280, (running, tab)
            assert cut_off(window if times == 1.0 else pane) == [], (running, tab)
            for area in pane.tabs.findChildren(QScrollArea):
                if area.isVisible():
                    inner = area.widget()
                    assert inner.width() <= area.viewport().width(), (running, tab)
                    assert squeezed(inner) == [], (running, tab)
