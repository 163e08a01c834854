"""Kept poses and the pinned one, by mouse and keys: keep, walk, name, remove, swap."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit

from tests.shapes import c_bracket
from tests.waiting import LONG_MS
from viewer.geometry.pose import Pose
from viewer.window.stages import Stage


@pytest.fixture
def three(opened):
    """A part with three kept poses, laid in the last of them."""
    opened.show(c_bracket(), name="bracket")
    opened.press_keys("Ctrl+3")
    opened.press_keys("K")
    for key in ("X", "Y"):
        opened.press_keys(key)
        opened.press_keys("K")
    return opened


def rows(opened):
    return opened.window.panels[Stage.TURN].kept.rows


def names(opened):
    return [rows(opened).item(k).text() for k in range(rows(opened).count())]


def click_row(opened, place):
    listed = rows(opened)
    middle = listed.visualItemRect(listed.item(place)).center()
    QTest.mouseClick(listed.viewport(), Qt.MouseButton.LeftButton, pos=middle)
    QApplication.processEvents()


def type_name(opened, name):
    field = rows(opened).findChild(QLineEdit)
    assert field is not None
    assert field.hasFocus()
    field.selectAll()
    QTest.keyClicks(field, name)
    QTest.keyClick(field, Qt.Key.Key_Return)
    QApplication.processEvents()


def test_poses_are_kept_once_listed_and_walked_through_by_keys(three):
    kept = three.state.kept_poses
    assert names(three) == ["Pose 1", "Pose 2", "Pose 3"]
    assert [one.pose for one in kept] == [Pose(), kept[1].pose, three.state.pose]
    assert not three.window.actions.by_key["keep_pose"].isEnabled()
    assert rows(three).currentRow() == 2
    seen = []
    for key in ("PageDown", "PageDown", "PageUp", "PageUp"):
        three.press_keys(key)
        seen.append(rows(three).currentRow())
        assert three.state.pose == kept[seen[-1]].pose
    assert seen == [0, 1, 0, 2]
    three.press_keys("Z")
    assert rows(three).currentRow() == -1  # not a kept pose
    three.press_keys("Ctrl+Z")
    assert rows(three).currentRow() == 2


def test_a_click_or_return_on_a_row_lays_the_part_so(three):
    kept = three.state.kept_poses
    click_row(three, 0)
    assert three.state.pose == kept[0].pose
    assert three.document.undo_label == "Go to “Pose 1”"
    QTest.keyClick(rows(three), Qt.Key.Key_Down)
    assert three.state.pose == kept[0].pose  # arrows only choose
    QTest.keyClick(rows(three), Qt.Key.Key_Return)
    assert three.state.pose == kept[1].pose


def test_a_pose_is_renamed_in_place_and_the_window_keeps_its_shortcuts_meanwhile(three):
    three.press_keys("F2")
    type_name(three, "  On  its back, KQ ")
    assert three.state.kept_poses[2].name == "On its back, KQ"
    assert names(three)[2] == "On its back, KQ"
    assert three.state.pose == three.state.kept_poses[2].pose  # the letters turned nothing
    assert len(three.state.kept_poses) == 3
    three.press_keys("F2")
    type_name(three, "   ")
    assert names(three)[2] == "On its back, KQ"
    three.press_keys("Ctrl+Z")
    assert names(three)[2] == "Pose 3"


def test_renaming_from_another_stage_goes_to_the_list(three):
    three.press_keys("Ctrl+1")
    three.press_keys("F2")
    assert three.window.choices.stage is Stage.TURN
    type_name(three, "flat")
    assert names(three)[2] == "flat"


def test_removing_by_key_and_by_button_is_undone_like_everything(three):
    pose = three.state.pose
    three.press_keys("Shift+K")
    assert names(three) == ["Pose 1", "Pose 2"]
    assert three.state.pose == pose  # the part stays as it lies
    click_row(three, 0)
    QTest.keyClick(rows(three), Qt.Key.Key_Delete)
    assert names(three) == ["Pose 2"]
    three.press_keys("Ctrl+Z")
    assert names(three) == ["Pose 1", "Pose 2"]


def test_the_list_is_there_only_when_there_is_something_in_it(opened):
    opened.show(c_bracket())
    opened.press_keys("Ctrl+3")
    assert not rows(opened).isVisible()
    opened.press_keys("K")
    assert rows(opened).isVisible()


def test_kept_poses_come_back_with_the_job(three, open_window, tmp_path):
    three.answers.path = tmp_path / "job.3mf"
    three.press_keys("Ctrl+S")
    three.qtbot.waitUntil(lambda: not three.document.modified, timeout=LONG_MS)
    again = open_window()
    again.window.open_last_job()
    again.settle()
    assert again.state.kept_poses == three.state.kept_poses


def test_one_key_swaps_the_pose_with_the_pinned_one_and_back_with_all_numbers(opened):
    opened.show(c_bracket())
    opened.press_keys("P")
    assert not opened.window.actions.by_key["swap_pinned"].isEnabled()
    opened.press_keys("X")
    opened.settle()
    start = opened.state
    numbers = opened.window.numbers
    height, pinned = opened.window.live_measures.latest, opened.window.live_measures.pinned
    shown = numbers.value_text("height_mm")
    opened.press_keys("Q")
    assert (opened.state.pose, opened.state.pinned_pose) == (start.pinned_pose, start.pose)
    assert opened.window.live_measures.latest is pinned  # at once, nothing measured anew
    assert opened.window.live_measures.pinned is height
    assert not numbers.pending
    assert numbers.value_text("height_mm") != shown
    cell = numbers._cells["height_mm", "whole"]
    assert "against the pinned pose" in cell.accessibleName()
    opened.press_keys("Q")
    assert (opened.state.pose, opened.state.pinned_pose) == (start.pose, start.pinned_pose)
    assert numbers.value_text("height_mm") == shown
    opened.press_keys("Ctrl+Z")
    opened.press_keys("Ctrl+Z")
    assert opened.state is start


def test_a_note_is_typed_saved_with_the_job_and_undone(three, open_window, tmp_path):
    box = three.window.panels[Stage.TURN].kept
    three.press_keys("Shift+F2")
    assert box.note.hasFocus()
    QTest.keyClicks(box.note, "no support on A")
    QTest.keyClick(box.note, Qt.Key.Key_Return)
    assert three.state.kept_poses[2].note == "no support on A"
    click_row(three, 0)
    assert box.note.text() == ""
    three.press_keys("Ctrl+Z")
    assert box.note.text() == "no support on A"
    three.answers.path = tmp_path / "job.3mf"
    three.press_keys("Ctrl+S")
    three.qtbot.waitUntil(lambda: not three.document.modified, timeout=LONG_MS)
    again = open_window()
    again.window.open_last_job()
    again.settle()
    assert again.state.kept_poses[2].note == "no support on A"


def test_the_list_is_put_in_another_order_by_keys(three):
    three.press_keys("Alt+Up")
    assert names(three) == ["Pose 1", "Pose 3", "Pose 2"]
    assert rows(three).currentRow() == 1
    three.press_keys("Alt+Down")
    three.press_keys("Alt+Down")
    assert names(three) == ["Pose 1", "Pose 2", "Pose 3"]


def test_kept_poses_are_exported_as_a_table(three, tmp_path):
    three.answers.path = tmp_path / "kept.csv"
    three.press_keys("Ctrl+Alt+V")
    three.qtbot.waitUntil((tmp_path / "kept.csv").exists, timeout=LONG_MS)
    three.settle()
    assert three.answers.asked[-1] == "table bracket-kept-poses.csv"
    text = (tmp_path / "kept.csv").read_text("utf-8-sig")
    assert [line.split(",")[0] for line in text.splitlines()] == [
        "name", "Pose 1", "Pose 2", "Pose 3",
    ]  # fmt: skip
