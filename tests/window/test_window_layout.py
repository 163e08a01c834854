"""The window at its usual sizes: room for the part, nothing cut off, everything has a name."""

import numpy as np
import pytest
from PySide6.QtCore import QRect, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractSpinBox,
    QApplication,
    QLabel,
    QLineEdit,
    QPushButton,
    QScrollArea,
    QToolButton,
    QWidget,
)

from tests.shapes import cube
from tests.window.measured import by_class, measures
from viewer.geometry.face_classes import CLASS_A
from viewer.geometry.pose_measures import Landing
from viewer.window.choices import Extent
from viewer.window.layout import show_within_screen
from viewer.window.stages import Stage

SIZES = [(1280, 800), (1920, 1080)]


@pytest.fixture(params=SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
def sized(request, open_window):
    opened = open_window(*request.param)
    mesh = cube()
    opened.show(mesh, np.full(mesh.face_count, CLASS_A, np.uint8))
    return opened


def test_the_scene_takes_two_thirds_of_the_width(sized):
    assert sized.canvas.width() >= 2 / 3 * sized.window.width()
    assert sized.canvas.height() >= 2 / 3 * sized.window.height()


def needed_px(widget: QWidget) -> int:
    """Width that the words of a widget ask for at the least."""
    metrics = widget.fontMetrics()
    if isinstance(widget, QLabel):
        if widget.textFormat() == Qt.TextFormat.RichText or "<" in widget.text():
            return widget.sizeHint().width()
        words = widget.text().split() if widget.wordWrap() else [widget.text()]
        return max((metrics.horizontalAdvance(word) for word in words), default=0)
    if isinstance(widget, QLineEdit):
        return metrics.horizontalAdvance(widget.text())
    return metrics.horizontalAdvance(widget.text().replace("&", "")) if widget.text() else 0


def cut_off(window: QWidget) -> list[str]:
    """Visible widgets whose words ask for more width than they have, or that stick out."""
    found = []
    for kind in (QLabel, QAbstractButton, QLineEdit):
        for widget in window.findChildren(kind):
            if not widget.isVisible() or icon_only(widget):
                continue
            what = f"{type(widget).__name__} “{widget.text()}”"
            if needed_px(widget) > widget.width():
                found.append(f"{what}: {needed_px(widget)} > {widget.width()}")
            if isinstance(widget, QLabel) and widget.wordWrap():
                needed = widget.heightForWidth(widget.width())
                if needed > widget.height():
                    found.append(f"{what}: {needed} high in {widget.height()}")
            left = widget.geometry().left()
            if left < 0 or left + widget.width() > widget.parentWidget().width() + 1:
                found.append(f"{what} sticks out")
    return found


def icon_only(widget: QWidget) -> bool:
    return (
        isinstance(widget, QToolButton)
        and widget.toolButtonStyle() == Qt.ToolButtonStyle.ToolButtonIconOnly
    )


def test_no_words_are_cut_off_in_any_stage(sized):
    crowded = measures(
        touch_area_mm2=by_class(3456.0, 2345.0, 4567.0),
        landing_area_mm2=Landing(12345.0, 2345.0, 345.0, 45.0, 15080.0),
        overhang_area_mm2=by_class(1e5, 2e5, 3e5),
        support_volume_mm3=98_765.0,
        error={"touch_area_mm2": by_class(123.0, 123.0, 123.0)},
    )
    sized.window.numbers._pinned_measured(measures(touch_area_mm2=by_class(1.0, 2.0, 3.0)))
    sized.window.numbers._measured(crowded)
    for stage in Stage:
        sized.window.choices.set_stage(stage)
        sized.draw()
        assert cut_off(sized.window) == [], stage


def test_the_test_for_words_sees_what_is_cut_off(sized):
    sized.window.choices.set_stage(Stage.CHECK)
    button = next(b for b in sized.window.findChildren(QPushButton) if b.isVisible())
    button.setText("far too many words for a column of this width, " * 3)
    button.setFixedWidth(100)
    assert cut_off(sized.window)


def test_the_tools_of_a_stage_fit_without_scrolling(sized):
    for stage in (Stage.CHECK, Stage.MARK, Stage.TURN):
        sized.window.choices.set_stage(stage)
        sized.draw()
        for extent in Extent if stage is Stage.MARK else ():
            sized.window.choices.set_mark(extent=extent)
            sized.draw()
            assert needing_a_scroll(sized.window) == [], extent
            assert cut_off(sized.window) == [], extent
        assert needing_a_scroll(sized.window) == [], stage


def needing_a_scroll(window: QWidget) -> list[str]:
    return [
        f"{area.widget().size()} in {area.viewport().size()}"
        for area in window.findChildren(QScrollArea)
        if area.isVisible()
        and not QRect(area.viewport().rect()).contains(QRect(area.widget().rect()))
    ]


def test_the_stage_turn_fits_however_many_poses_are_kept(sized):
    window = sized.window
    sized.press_keys("Ctrl+3")
    fold = window.panels[Stage.TURN]._fold
    assert fold.is_open
    for keys in ("K", "XK", "YK", "ZK", "XP", "K"):
        for key in keys:
            sized.press_keys(key)
        sized.draw()
        (area,) = (
            area
            for area in window.findChildren(QScrollArea)
            if area.isVisible() and area.widget() is window.panels[Stage.TURN]
        )
        assert area.widget().height() <= area.viewport().height(), keys
        assert cut_off(window) == []
    assert len(sized.state.kept_poses) == 5
    assert fold.is_open == (window.height() > 1000)  # closed only where there is no room
    if not fold.is_open:
        sized.press(fold.head)
        assert fold.is_open  # by hand it opens all the same
        assert window.panels[Stage.TURN].process["layer_mm"].isVisible()
        fold.head.setFocus()
        QTest.keyClick(fold.head, Qt.Key.Key_Space)
        assert not fold.is_open
        assert fold.head.accessibleName() == "Process, closed"


def test_the_panes_and_their_table_fit_beside_the_panels(sized):
    window = sized.window
    for key in "KXKYK":
        sized.press_keys(key)
    sized.press_keys("C")
    for _ in range(2):
        sized.draw()
        assert cut_off(window) == []
        assert sized.canvas.height() >= 0.45 * window.height()
        table = window.compare_box.table
        assert table.columnViewportPosition(3) + table.columnWidth(3) <= table.viewport().width()
        assert not nameless_in(window)
        sized.press_keys("F5")
    sized.press_keys("Escape")


def test_scene_and_panels_do_not_overlap(sized):
    window = sized.window
    areas = [
        QRect(w.mapTo(window, w.rect().topLeft()), w.size())
        for w in (window.stage_column, sized.canvas, window.numbers, window.legend)
    ]
    for k, one in enumerate(areas):
        assert window.rect().contains(one)
        assert not any(one.intersects(other) for other in areas[k + 1 :])


def test_the_scene_keeps_its_size_whatever_is_shown(sized):
    before = sized.canvas.size()
    for stage in Stage:
        sized.window.choices.set_stage(stage)
        sized.draw()
        assert sized.canvas.size() == before


def test_everything_that_takes_the_focus_has_a_name(opened):
    opened.show(cube())
    nameless = []
    for stage in Stage:
        opened.window.choices.set_stage(stage)
        opened.draw()
        nameless += nameless_in(opened.window)
    assert not nameless


def nameless_in(window: QWidget) -> list[str]:
    return [
        f"{type(widget).__name__} in {type(widget.parentWidget()).__name__}"
        for widget in window.findChildren(QWidget)
        if widget.isVisible()
        and widget.focusPolicy() != Qt.FocusPolicy.NoFocus
        and not widget.accessibleName()
        and not getattr(widget, "text", lambda: "")()
        and not (isinstance(widget, QLineEdit) and isinstance(widget.parent(), QAbstractSpinBox))
    ]


def test_numbers_are_read_out_with_their_unit_and_explained(opened):
    opened.show(cube())
    cell = opened.window.numbers._cells["touch_area_mm2", "A"]
    assert cell.accessibleName() == "Touch, A: 0 mm²"
    assert "supports bear against" in cell.toolTip()


def test_every_stage_says_in_one_line_what_to_do(opened):
    for stage in Stage:
        opened.window.choices.set_stage(stage)
        sentence = opened.window.stage_column.instruction.text()
        assert sentence.endswith(".")
        assert sentence.count(".") == 1
        row = opened.window.stage_column.stages.rows[stage]
        assert row.isChecked()
        assert row.accessibleName().startswith(f"{int(stage)} ")


def test_stages_are_chosen_by_mouse(opened):
    rows = opened.window.stage_column.stages.rows
    for stage in (Stage.HAND_OVER, Stage.MARK):
        opened.press(rows[stage])
        assert opened.window.choices.stage is stage


@pytest.mark.parametrize(("less_px", "maximized"), [(60, False), (20, True), (-50, True)])
def test_a_window_never_reaches_beyond_the_screen(qtbot, less_px, maximized):
    """A desktop's frame and title need room too."""
    widget = QWidget()
    qtbot.addWidget(widget)
    room = widget.screen().availableGeometry()
    widget.resize(room.width() - less_px, room.height() - less_px)
    show_within_screen(widget)
    assert widget.isVisible()
    assert widget.isMaximized() == maximized


def test_no_bar_makes_the_window_higher_than_a_small_screen(opened):
    window = opened.window
    usual_px = window.minimumSizeHint().height()
    window.notice.say("a sentence of many words " * 12)
    window.large.sentence.setText("a sentence of many words " * 12)
    window.large.bar.show()
    QApplication.processEvents()
    assert window.minimumSizeHint().height() <= usual_px + 260
    assert window.minimumSizeHint().height() <= 768 - 28  # less the title that a desktop puts on it
