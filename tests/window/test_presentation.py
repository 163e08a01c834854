"""Presentation mode by real keys and mouse: bars away and back, poses by arrows, the pointer."""

import numpy as np
import pytest
from PySide6.QtCore import QEvent, QPoint
from PySide6.QtWidgets import QApplication, QLabel, QWidget

from tests.shapes import c_bracket, post_and_cap
from tests.waiting import LONG_MS
from tests.window.measured import by_class, measures
from viewer.geometry.face_classes import CLASS_A
from viewer.scene.off_screen import drawn
from viewer.scene.pointer_trail import BRIGHT
from viewer.window.presentation import TRAIL_S
from viewer.window.stages import Stage


@pytest.fixture
def kept(opened):
    """A part with three kept poses, laid in the first."""
    opened.show(post_and_cap(), name="post and cap")
    opened.press_keys("Ctrl+3")
    opened.press_keys("K")
    for key in ("X", "Y"):
        opened.press_keys(key)
        opened.press_keys("K")
    opened.press_keys("PageDown")
    opened.settle()
    return opened


def visible_words(opened):
    labels = opened.window.findChildren(QLabel)
    return {label.text() for label in labels if label.isVisible() and label.text().strip()}


def bright_pixels(opened):
    """Rows and columns of the pixels that have the ring's own colour."""
    opened.draw()
    picture = drawn(opened.canvas.render_window).astype(int)
    return np.argwhere(np.abs(picture - BRIGHT).max(axis=2) <= 2)


def test_f5_leaves_the_scene_with_the_captions_and_escape_brings_every_bar_back(kept):
    window = kept.window
    bars = [*window.bars, window.strip]
    before, size = [bar.isVisible() for bar in bars], kept.canvas.size()
    kept.press_keys("F5")
    assert not any(bar.isVisible() for bar in bars)
    assert kept.canvas.width() == window.width()
    assert kept.canvas.height() >= window.height() - window.caption.height() - 2
    assert {"post and cap", "Pose 1 of 3"} <= visible_words(kept)
    assert window.actions.by_key["present"].isChecked()
    kept.press_keys("Escape")
    assert not window.choices.presenting
    assert [bar.isVisible() for bar in bars] == before
    assert not window.caption.isVisible()
    assert kept.canvas.size() == size
    assert QWidget.actions(window) == []


def test_arrows_walk_through_the_kept_poses_round_and_round(kept):
    poses = [one.pose for one in kept.state.kept_poses]
    kept.press_keys("F5")
    seen, said = [], []
    for key in ("Right", "Down", "Right", "Left", "Up"):
        kept.press_keys(key)
        seen.append(poses.index(kept.state.pose))
        said.append(kept.window.caption.pose.text())
    assert seen == [1, 2, 0, 2, 1]
    assert said == [f"Pose {place + 1} of 3" for place in seen]
    kept.press_keys("Escape")
    at = kept.state.pose
    kept.press_keys("Right")
    assert kept.state.pose == at  # arrows step in presentation mode only


def test_the_numbers_are_those_of_the_panel_with_their_errors_large(kept):
    window = kept.window
    kept.press_keys("F5")
    caption = window.caption
    panel = window.numbers
    titles = [one.title.text() for one in caption.numbers if one.isVisible()]
    assert titles == ["Touch", "Landing on the part", "Support volume"]
    assert caption.numbers[0].value.text() == f"{panel.value_text('touch_area_mm2', 'total')} mm²"
    assert caption.numbers[2].value.text() == f"{panel.value_text('support_volume_mm3')} mm³"
    for number, cell in ((0, ("touch_area_mm2", "total")), (2, ("support_volume_mm3", "whole"))):
        _, has_error, error = panel._cells[cell].accessibleName().partition("standard error ")
        assert caption.numbers[number].small.text() == (f"± {error}" if has_error else " ")
    assert caption.numbers[0].value.font().pixelSize() >= 28
    kept.press_keys("P")
    kept.press_keys("Right")
    kept.settle()
    assert "to the pinned" in caption.numbers[0].small.text()


def test_with_marked_faces_the_classes_are_told_apart(opened):
    mesh = c_bracket()
    opened.show(mesh, np.full(mesh.face_count, CLASS_A, np.uint8))
    opened.press_keys("F5")
    latest = measures(
        touch_area_mm2=by_class(120.0, 30.0, 5.0), error={"touch_area_mm2": by_class(2.0, 1.0)}
    )
    opened.window.live_measures._tell(latest)
    numbers = [one for one in opened.window.caption.numbers if one.isVisible()]
    assert [one.title.text() for one in numbers] == [
        "Touch, class A", "Touch, class B", "Landing on the part, class A", "Support volume",
    ]  # fmt: skip
    assert numbers[0].value.text() == "120 mm²"
    assert numbers[0].small.text() == "± 2"
    assert numbers[0].accessibleName() == "Touch, class A: 120 mm² ± 2"


def test_the_ring_follows_the_mouse_and_the_trail_fades(kept):
    assert len(bright_pixels(kept)) == 0
    kept.press_keys("F5")
    assert len(bright_pixels(kept)) == 0
    presentation = kept.window.presentation
    start, end = QPoint(300, 200), QPoint(500, 320)
    for share in np.linspace(0.0, 1.0, 9):
        kept.move(start + (end - start) * share)
    fresh = bright_pixels(kept)
    presentation._draw_trail()
    ring = np.abs(np.hypot(*(bright_pixels(kept) - (end.y(), end.x())).T) - 18.0) <= 3.5
    assert ring.sum() > 100  # CALC: a ring of radius 18 px, 4 px wide, has 450 pixels
    assert len(fresh) > 0
    first_s = presentation._places[0][0]
    kept.qtbot.waitUntil(lambda: not presentation._fade.isActive(), timeout=LONG_MS)
    left = bright_pixels(kept)
    distance = np.hypot(*(left - (end.y(), end.x())).T)
    assert len(left) > 200
    assert np.all(np.abs(distance - 18.0) <= 3.5)  # the ring stays, the trail is gone
    assert presentation._places[-1][0] - first_s < TRAIL_S + 10
    QApplication.sendEvent(kept.canvas, QEvent(QEvent.Type.Leave))
    assert len(bright_pixels(kept)) == 0
    kept.move(end)
    kept.press_keys("Escape")
    assert len(bright_pixels(kept)) == 0
    assert not presentation._fade.isActive()


def test_off_the_mouse_costs_nothing(kept):
    drawn_before = kept.window.presentation._trail
    kept.move(QPoint(200, 200))
    kept.move(QPoint(260, 220))
    assert drawn_before is None
    assert kept.window.presentation._trail is None
    assert not kept.window.presentation._places
    assert not kept.window.presentation._fade.isActive()


def test_dragging_turns_the_camera_and_never_the_part_or_the_marks(kept):
    for stage in (Stage.MARK, Stage.TURN):
        kept.window.choices.set_stage(stage)
        kept.press_keys("F5")
        camera, state = kept.window.view.scene.camera_state(), kept.state
        middle = kept.canvas.rect().center()
        kept.drag([middle, middle + QPoint(60, 10), middle + QPoint(120, 30)])
        assert kept.window.view.scene.camera_state()["position_mm"] != camera["position_mm"]
        assert kept.state is state
        kept.press_keys("Escape")
    assert kept.window.view.tool is kept.window.tools.turning


def test_shortcuts_of_the_hidden_menu_still_work(kept):
    kept.press_keys("F5")
    pose = kept.state.pose
    kept.press_keys("Z")
    assert kept.state.pose != pose
    assert kept.window.caption.pose.text().startswith("Tilted ")
    kept.press_keys("Ctrl+Z")
    assert kept.state.pose == pose
    kept.press_keys("H")
    assert not kept.window.strip.isVisible()
    kept.press_keys("F5")  # the same key ends it
    assert not kept.window.choices.presenting
    assert not kept.window.strip.isVisible()  # H switched it off meanwhile
    kept.press_keys("H")
    assert kept.window.strip.isVisible()


def test_the_rings_are_out_of_the_picture_meanwhile(kept):
    rings = kept.window.view.scene._rings
    assert rings.shown
    kept.press_keys("F5")
    assert not rings.shown
    kept.press_keys("Escape")
    assert rings.shown


def test_closing_while_presenting_leaves_nothing_behind(kept):
    kept.press_keys("F5")
    kept.move(QPoint(300, 200))
    kept.move(QPoint(360, 240))
    assert kept.window.presentation._trail.shown
    kept.window.close()
