"""Poses side by side by real keys and mouse: panes, linked cameras, table, presentation."""

import numpy as np
import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest

from tests.shapes import post_and_cap
from tests.waiting import LONG_MS
from tests.window.conftest import drawing
from viewer.geometry.face_classes import CLASS_A
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.prepared_part import prepare_part
from viewer.scene.lenses import Lens
from viewer.scene.off_screen import drawn
from viewer.scene.themes import LIGHT
from viewer.window.compared_poses import Moving


@pytest.fixture
def kept(opened):
    """Two kept poses; the part lies in the second."""
    mesh = post_and_cap()
    opened.show(mesh, np.full(mesh.face_count, CLASS_A, np.uint8), name="post and cap")
    opened.press_keys("Ctrl+3")
    opened.press_keys("K")
    opened.press_keys("X")
    opened.press_keys("K")
    opened.settle()
    return opened


def compared(opened):
    """Press C and wait for the numbers."""
    with drawing(opened.window, False):
        opened.press_keys("C")
        opened.qtbot.waitUntil(lambda: not opened.window.live_compare.pending, timeout=LONG_MS)
    opened.draw()
    return opened.window.comparing


def table_text(opened, row, column):
    return opened.window.compare_box.table.item(row, column).text()


def test_c_shows_two_panes_with_linked_cameras_and_c_the_one_again(kept):
    window, strip = kept.window, kept.window.strip
    size = kept.canvas.size()
    comparing = compared(kept)
    panes = window.view.panes
    assert panes.count == 2
    assert comparing.chosen == [kept.state.kept_poses[0].pose, Moving.PRESENT]
    assert not strip.isVisible()
    assert window.compare_box.isVisible()
    assert window.compare_box.bar.isVisible()
    poses = [scene.matrix for scene in panes.scenes]
    assert not np.array_equal(poses[0], poses[1])
    middle = kept.canvas.rect().center()
    kept.drag([middle, middle + QPoint(60, 10), middle + QPoint(120, 30)])
    eyes = [scene.camera_state() for scene in (window.view.scene, *panes.scenes)]
    assert eyes[0] == eyes[1] == eyes[2]
    kept.press_keys("C")
    assert window.view.panes is None
    assert strip.isVisible()
    assert kept.canvas.size() == size
    assert kept.canvas.renderer.GetDraw()


def test_the_table_holds_the_full_numbers_with_differences_told_in_words(kept):
    compared(kept)
    state = kept.state
    rows = kept.window.comparing.rows()
    prepared = prepare_part(state.part.mesh)
    first, second = (
        measure_pose(prepared, state.face_classes, pose, state.settings, columns=True)
        for pose in (state.kept_poses[0].pose, state.pose)
    )
    touch = next(row for row in rows if (row.key, row.column) == ("touch_area_mm2", "A"))
    assert touch.cells[0].value == f"{first.touch_area_mm2.A:,.0f} mm²"
    assert touch.cells[0].difference == ""
    gap = second.touch_area_mm2.A - first.touch_area_mm2.A
    assert touch.cells[1].verdict == ("worse" if gap > 0 else "better")
    assert touch.cells[1].text().endswith(touch.cells[1].verdict)
    table = kept.window.compare_box.table
    at = next(k for k in range(table.rowCount()) if table_text(kept, k, 0) == "Touch, class A")
    assert table_text(kept, at, 2) == touch.cells[1].text()
    spoken = table.item(at, 2).data(Qt.ItemDataRole.AccessibleTextRole)
    assert spoken.startswith("Touch, class A, 2  Present pose (Pose 2): ")
    height = next(row for row in rows if row.key == "height_mm")
    assert height.cells[1].verdict == ""
    titles = [table.horizontalHeaderItem(k).text() for k in range(3)]
    assert titles == ["", "1  Pose 1", "2  Present pose (Pose 2)"]


def test_the_present_pane_follows_the_part_and_the_same_lens_is_in_all(kept):
    compared(kept)
    panes = kept.window.view.panes
    before = panes.scenes[1].matrix
    kept.press_keys("Y")
    assert not np.array_equal(panes.scenes[1].matrix, before)
    np.testing.assert_array_equal(panes.scenes[1].matrix, kept.window.view.scene.matrix)
    kept.press_keys("4")
    assert {scene._lens for scene in panes.scenes} == {Lens.TERRACES}
    kept.press_keys("U")
    assert {scene._supports_wanted for scene in panes.scenes} == {False}


def test_more_fewer_and_another_pose_for_a_pane(kept):
    kept.press_keys("Y")
    kept.press_keys("P")
    kept.press_keys("Z")
    comparing = compared(kept)
    box = kept.window.compare_box
    assert len(comparing.chosen) == 4  # pinned, present, and both kept
    assert not box.more_button.isEnabled()
    kept.press(box.fewer_button)
    assert kept.window.view.panes.count == 3
    kept.press(box.fewer_button)
    assert not box.fewer_button.isEnabled()
    assert comparing.chosen == [Moving.PINNED, Moving.PRESENT]
    box.picks[0].setFocus()
    QTest.keyClick(box.picks[0], Qt.Key.Key_End)  # the last kept pose
    assert comparing.chosen[0] == kept.state.kept_poses[-1].pose
    kept.press(box.more_button)
    assert kept.window.view.panes.count == 3
    kept.press_keys("Escape")
    assert kept.window.view.panes is None
    assert not kept.window.choices.comparing


def test_a_kept_pose_that_is_removed_leaves_its_pane(kept):
    compared(kept)
    kept.document.remove_kept(0)
    assert not kept.window.choices.comparing  # one pose alone is not compared
    assert kept.window.view.panes is None
    assert not kept.window.actions.by_key["compare"].isEnabled()
    kept.press_keys("Ctrl+Z")
    assert kept.window.actions.by_key["compare"].isEnabled()


def test_in_front_of_a_client_large_numbers_and_the_pointer_over_all_panes(kept):
    compared(kept)
    kept.press_keys("F5")
    box, panes = kept.window.compare_box, kept.window.view.panes
    assert box.table.isVisible()
    assert not box.bar.isVisible()
    assert not kept.window.caption.isVisible()
    names = [table_text(kept, row, 0) for row in range(box.table.rowCount())]
    assert names == ["Touch, class A", "Landing on the part, class A", "Support volume"]
    assert box.table.fontMetrics().height() >= 20
    for place in (QPoint(200, 200), QPoint(300, 240)):
        kept.move(place)
    assert kept.window.presentation._trail.shown
    kept.draw()
    picture = drawn(kept.canvas.render_window).astype(int)
    bright = np.argwhere(np.abs(picture - (240, 228, 66)).max(axis=2) <= 2)
    assert len(bright) > 100
    assert panes.over.HasViewProp(kept.window.presentation._trail._actor)
    kept.press_keys("C")
    assert kept.window.caption.isVisible()
    kept.move(QPoint(320, 240))
    assert kept.window.presentation._trail.shown
    kept.press_keys("Escape")


def test_the_difference_is_mapped_on_all_panes_but_the_first(kept):
    kept.press_keys("8")
    assert "Pin a pose" in kept.window.legend.accessibleName()
    compared(kept)
    first, second = kept.window.view.panes.scenes
    assert not np.any(first._part._difference != 127)
    assert np.any(second._part._difference != 127)
    found = kept.window.comparing._link.difference(kept.state, 1)
    assert found.better_mm2.total + found.worse_mm2.total > 0
    kept.press_keys("C")
    kept.press_keys("P")
    kept.press_keys("PageUp")
    kept.settle()
    kept.qtbot.waitUntil(lambda: kept.window.difference.latest is not None, timeout=LONG_MS)
    assert np.any(kept.window.view.scene._part._difference != 127)
    back = kept.window.difference.latest
    np.testing.assert_array_equal(back.face_mm, -found.face_mm)
    assert "mm² better" in kept.window.legend.accessibleName()


def test_closing_while_comparing_leaves_nothing_behind(kept):
    compared(kept)
    kept.window.close()


@pytest.mark.parametrize("count", [2, 3, 4])
def test_in_front_of_a_client_arrows_step_the_pane_whose_frame_and_arrows_say_so(kept, count):
    for key in ("Y", "X"):
        kept.press_keys(key)
        kept.press_keys("K")
    kept.press_keys("P")
    comparing = compared(kept)
    box = kept.window.compare_box
    while len(comparing.chosen) != count:
        kept.press(box.fewer_button if len(comparing.chosen) > count else box.more_button)
    kept.press_keys("F5")
    place = comparing.chosen.index(Moving.PRESENT)
    panes = kept.window.view.panes
    before = [scene.matrix.copy() for scene in panes.scenes]
    assert [caption.moving for caption in panes._captions] == [k == place for k in range(count)]
    for key, step in (("Right", 1), ("Right", 2), ("Left", 1), ("Left", 0), ("Left", -1)):
        with drawing(kept.window, False):
            kept.press_keys(key)
            kept.qtbot.waitUntil(lambda: not kept.window.live_compare.pending, timeout=LONG_MS)
        poses = [one.pose for one in kept.state.kept_poses]
        wanted = poses[(3 + step) % 4]
        assert kept.state.pose == wanted
        assert f"(Pose {(3 + step) % 4 + 1})" in panes._captions[place].title
        moved = [
            not np.allclose(scene.matrix, old)
            for scene, old in zip(panes.scenes, before, strict=True)
        ]
        assert moved == [k == place and step % 4 != 0 for k in range(count)]
    kept.draw()
    picture = drawn(kept.canvas.render_window) / 255.0
    accent = np.abs(picture - LIGHT.accent).max(axis=2) < 0.02
    left, lower, right, upper = panes.rects[place]
    height, width = accent.shape
    rows = slice(round((1 - upper) * height), round((1 - lower) * height))
    inside = accent[rows, round(left * width) : round(right * width)]
    assert accent.sum() == inside.sum() > 500
    kept.press_keys("Escape")
    assert not any(caption.moving for caption in panes._captions)
