"""Every action is in a menu, has keys of its own, and is found by its name."""

import re
from collections import Counter

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QMenu, QMenuBar, QTextBrowser

from tests.shapes import cube
from viewer.geometry.adaptive_layers import STEP_MM
from viewer.geometry.direction_measures import RAYS
from viewer.geometry.fault_words import CRACK_MM
from viewer.geometry.mend import re_skin, smooth_folds, steps
from viewer.geometry.mesh_faults import SPECK_MM
from viewer.geometry.pose import Pose
from viewer.geometry.ranking import DISTINCT_DEG
from viewer.geometry.sensitivity import KNIFE_EDGE_SHARE, LIMIT_DEG, TILT_DEG
from viewer.scene.lenses import Lens
from viewer.window.action_table import ENTRIES
from viewer.window.choices import Extent
from viewer.window.number_rows import BY_CLASS, WHOLE
from viewer.window.stages import Stage
from viewer.window.theme import DARK, LIGHT


def actions_in(menu: QMenu) -> list[QAction]:
    found = []
    for action in menu.actions():
        found += actions_in(action.menu()) if action.menu() else [action]
    return found


def test_every_action_stands_in_a_menu_with_a_shortcut_of_its_own(opened):
    window = opened.window
    reachable = []
    for top in window.menuBar().actions():
        reachable += actions_in(top.menu())
    for key, action in window.actions.by_key.items():
        assert action in reachable, key
        assert not action.shortcut().isEmpty(), key
        assert action.toolTip(), key
    keys = [action.shortcut().toString() for action in window.actions.by_key.values()]
    assert len(keys) == len(set(keys))
    assert len(ENTRIES) == len(window.actions.by_key)


def letters_twice(menu, title="bar") -> list[str]:
    """What of a menu, and of the menus in it, shares its underlined letter with another entry."""
    entries = [action for action in menu.actions() if not action.isSeparator()]
    letters = [found[1].lower() for each in entries if (found := re.search("&(.)", each.text()))]
    twice = [f"{title}: {letter}" for letter, times in Counter(letters).items() if times > 1]
    for entry in entries:
        if entry.menu() is not None:
            if "&" not in entry.text():
                twice.append(f"{title}: {entry.text()} has none")
            twice += letters_twice(entry.menu(), entry.text())
    return twice


def test_mnemonics_of_a_menu_do_not_repeat(opened):
    assert letters_twice(opened.window.menuBar()) == []
    unmarked = {
        entry.menu for entry in ENTRIES if "&" not in entry.text
    }  # these menus have numbers or axes to press instead
    assert unmarked == {"&File/&Pictures", "&Turn/&Quarter turns", "&View", "&View/&Camera"}


def test_the_test_for_mnemonics_sees_two_alike(qtbot):
    bar = QMenuBar()
    qtbot.addWidget(bar)
    menu = bar.addMenu("&One")
    menu.addAction("&Open")
    menu.addMenu("L&oad").addAction("Other")
    bar.addMenu("Two")
    assert letters_twice(bar) == ["&One: o", "bar: Two has none"]


def test_no_shortcut_is_ambiguous_with_a_standard_one(opened):
    standard = {
        "undo": QKeySequence.StandardKey.Undo,
        "redo": QKeySequence.StandardKey.Redo,
        "open": QKeySequence.StandardKey.Open,
        "save": QKeySequence.StandardKey.Save,
        "quit": QKeySequence.StandardKey.Quit,
    }
    for key, meaning in standard.items():
        assert opened.window.actions.by_key[key].shortcut() in QKeySequence.keyBindings(meaning)


def type_into_finder(opened, text):
    opened.press_keys("Ctrl+Shift+A")
    finder = opened.window.finder
    assert finder.isVisible()
    QTest.keyClicks(finder.words, text)
    return finder


@pytest.mark.parametrize(
    ("typed", "happens"),
    [
        ("quarter x +90", lambda o: o.state.pose.up == (0.0, 1.0, 0.0)),
        ("terrac", lambda o: o.window.choices.lens is Lens.TERRACES),
        ("hand over", lambda o: o.window.choices.stage is Stage.HAND_OVER),
        ("dark", lambda o: o.window.theming.theme is DARK),
        ("larger", lambda o: o.window.choices.brush_mm > 5.0),
    ],
)
def test_an_action_is_found_by_name_and_done_with_enter(opened, typed, happens):
    opened.show(cube())
    finder = type_into_finder(opened, typed)
    QTest.keyClick(finder.words, Qt.Key.Key_Return)
    QApplication.processEvents()
    assert not finder.isVisible()
    assert happens(opened)


def test_every_action_is_found_by_its_full_name(opened):
    finder = opened.window.finder
    for key, action in opened.window.actions.by_key.items():
        finder._search(action.text().replace("&", ""))
        found = [
            finder.found.item(row).data(Qt.ItemDataRole.UserRole)
            for row in range(finder.found.count())
        ]
        assert key in found


def test_the_finder_walks_with_the_arrows_and_closes_with_escape(opened):
    finder = type_into_finder(opened, "camera from")
    QTest.keyClick(finder.words, Qt.Key.Key_Down)
    assert finder.found.currentRow() == 1
    QTest.keyClick(finder.words, Qt.Key.Key_Up)
    assert finder.found.currentRow() == 0
    QTest.keyClick(finder.words, Qt.Key.Key_Escape)
    assert not finder.isVisible()


def test_undo_says_what_it_takes_back(opened):
    undo, redo = (opened.window.actions.by_key[key] for key in ("undo", "redo"))
    assert not undo.isEnabled()
    opened.show(cube())
    opened.press_keys("X")
    assert undo.text() == "&Undo: Quarter turn"
    opened.press_keys("P")
    assert undo.text() == "&Undo: Pin the pose"
    opened.press_keys("Ctrl+Z")
    assert redo.text() == "&Redo: Pin the pose"
    opened.press_keys("Ctrl+Z")
    assert not undo.isEnabled()
    assert opened.state.pose == Pose()


def test_what_needs_a_part_is_off_without_one(opened):
    actions = opened.window.actions.by_key
    for entry in ENTRIES:
        if entry.needs_part:
            assert not actions[entry.key].isEnabled(), entry.key
        elif entry.key not in {"change_trial", "remove_trial", "bring_back_trial", "export_trials"}:
            assert actions[entry.key].isEnabled(), entry.key  # those need a trial, not a part


def test_the_pinned_pose_can_be_gone_back_to(opened):
    opened.show(cube())
    opened.press_keys("X")
    opened.press_keys("P")
    pinned = opened.state.pose
    opened.press_keys("Y")
    assert opened.state.pose != pinned
    opened.press_keys("Ctrl+P")
    assert opened.state.pose == pinned
    opened.press_keys("Shift+P")
    assert opened.state.pinned_pose is None


@pytest.mark.parametrize("number", range(1, 7))
def test_camera_sides_look_along_their_axis(opened, number):
    opened.show(cube())
    opened.press_keys(f"Alt+{number}")
    state = opened.window.view.scene.camera_state()
    away = [p - f for p, f in zip(state["position_mm"], state["focal_mm"], strict=True)]
    length = sum(x * x for x in away) ** 0.5
    expected = [(0, -1, 0), (0, 1, 0), (-1, 0, 0), (1, 0, 0), (0, 0, 1), (0, 0, -1)][number - 1]
    assert [x / length for x in away] == pytest.approx(expected, abs=1e-6)


def test_the_theme_is_chosen_remembered_and_follows_the_desktop(opened, open_window):
    opened.press_keys("Ctrl+Alt+K")
    assert QApplication.palette().window().color().name() == DARK.window
    again = open_window()
    assert again.window.theming.theme is DARK
    again.press_keys("Ctrl+Alt+D")
    assert again.window.theming.theme in (LIGHT, DARK)
    again.press_keys("Ctrl+Alt+L")
    assert QApplication.palette().window().color().name() == LIGHT.window
    assert again.window.actions.by_key["theme_light"].isChecked()


def test_the_page_how_it_measures_explains_every_number_of_the_panel(opened):
    opened.press_keys("Ctrl+F1")
    (page,) = opened.window.findChildren(QTextBrowser)
    text = page.toPlainText()
    for measure in (*BY_CLASS, *WHOLE):
        assert measure.name in text, measure.name
    assert "upright columns" in text  # what is assumed
    QTest.keyClick(page, Qt.Key.Key_Escape)
    opened.qtbot.waitUntil(lambda: not opened.window.findChildren(QTextBrowser))


def test_the_page_how_it_searches_tells_of_every_limit_and_its_figures(opened):
    opened.press_keys("Ctrl+F5")
    (page,) = opened.window.findChildren(QTextBrowser)
    text = " ".join(page.toPlainText().split()).lower()
    for words in (
        "fits:", "stands:", "no support touches class a.", "no unreachable support:",
        f"some {RAYS} points", f"at least {DISTINCT_DEG:g}° from",
        f"tilted by {TILT_DEG:g}°", f"{LIMIT_DEG:g}° lower and higher",
        f"{100 * KNIFE_EDGE_SHARE:g} % more of a class", f"steps of {STEP_MM:g} mm",
    ):  # fmt: skip
        assert words in text, words


def test_the_page_how_marking_works_names_every_way_with_its_keys(opened):
    opened.press_keys("Ctrl+F3")
    (page,) = opened.window.findChildren(QTextBrowser)
    text = page.toPlainText()
    for extent in Extent:
        assert extent.value in text, extent
    for entry in ENTRIES:
        if entry.key.startswith(("extent_", "marks_", "mark_seen")) or entry.key == "open_newer":
            assert entry.keys in text, entry.key
    QTest.keyClick(page, Qt.Key.Key_Escape)
    opened.qtbot.waitUntil(lambda: not opened.window.findChildren(QTextBrowser))


def test_the_page_how_it_mends_explains_every_step_with_its_lengths(opened):
    opened.press_keys("Ctrl+F2")
    (page,) = opened.window.findChildren(QTextBrowser)
    text = " ".join(page.toPlainText().split())
    safe, rest = text.split("Steps that change the shape")
    for name in steps.STEP_NAMES:
        assert (f"({name})" in safe) == (name in steps.SAFE), name
        assert (f"({name})" in rest) == (name not in steps.SAFE), name
    # The page says what the steps are called with.
    step = steps.step_named
    wide = dict(step("sew-wide-seams", cube(500.0)).options)["within_mm"]
    grow = dict(step("unite-shells", cube(20.0)).options)["grow_mm"]
    hole = dict(step("fill-small-holes", cube(100.0)).options)["extent_up_to_mm"] / 3**0.5
    for words in (
        f"no more than {CRACK_MM:g} mm apart",
        f"no wider than {hole:g} % of the part's diagonal",
        f"under {SPECK_MM:g} mm",
        f"up to {wide:g} mm",
        f"{steps.WALL_MM:g} mm, two roads",
        f"grown by {grow:g} mm",
        f"more than {100 * smooth_folds.MOST_CHANGE:g} %",
        f"not under {re_skin.FINE_MM:g} mm",
    ):
        assert words in text, words
    assert 1 / smooth_folds.MOST_SHARE == 5
    assert "more than a fifth of the faces" in text
    assert "Nothing is changed unasked." in text
    QTest.keyClick(page, Qt.Key.Key_Escape)
    opened.qtbot.waitUntil(lambda: not opened.window.findChildren(QTextBrowser))
