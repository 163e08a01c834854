"""Every way to mark beside brush and fills, by mouse and keys in the real window."""

import numpy as np
import pytest
from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QEnterEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractSpinBox,
    QApplication,
    QComboBox,
    QLineEdit,
    QMenu,
)

from tests.shapes import box, ringed_tube, sphere
from viewer.geometry.face_classes import CLASS_A, CLASS_B
from viewer.geometry.pose import Pose
from viewer.window.choices import Extent
from viewer.window.eyes import to_pixels
from viewer.window.stages import Stage
from viewer.window.way_box import WayButton

DONE_MS = 60_000


def start(opened, mesh, classes=None):
    opened.show(mesh, classes)
    opened.press_keys("Ctrl+2")
    opened.draw()
    return opened


def wait(opened):
    """Until no answer is being worked out, and it has been used."""
    planner = opened.window.tools.ways.planner
    opened.qtbot.waitUntil(lambda: not planner.working, timeout=DONE_MS)
    QApplication.processEvents()


EXTENTS = {
    "mark_band": Extent.BAND,
    "mark_seen_here": Extent.SEEN_HERE,
    "mark_seen_in_use": Extent.SEEN_IN_USE,
}


def button(opened, key):
    """A button of the way that is then the chosen one, since all others are put away."""
    opened.window.choices.set_mark(extent=EXTENTS.get(key, Extent.CHANGE))
    return opened.window.panels[Stage.MARK].ways.findChild(WayButton, key)


def point_at(opened, widget):
    """Bring the pointer over a button."""
    middle = QPointF(widget.rect().center())
    event = QEnterEvent(middle, middle, QPointF(widget.mapToGlobal(widget.rect().center())))
    QApplication.sendEvent(widget, event)
    wait(opened)


def go_away(opened, widget):
    QApplication.sendEvent(widget, QEvent(QEvent.Type.Leave))
    QApplication.processEvents()


def previewed(opened):
    """How many triangles are tinted."""
    actor = opened.window.view.scene._hover._fills["faces"]
    return actor.GetMapper().GetInput().GetNumberOfCells() if actor.GetVisibility() else 0


def area(opened, face_class):
    return opened.state.part.mesh.face_areas_mm2[opened.state.face_classes == face_class].sum()


def message(opened):
    return opened.window.statusBar().currentMessage()


def one_step(opened, before, label):
    """What was done is one undo step that undo takes back and redo brings, exactly."""
    after = opened.state.face_classes
    assert not np.array_equal(after, before)
    assert opened.document.undo_label == label
    opened.press_keys("Ctrl+Z")
    assert np.array_equal(opened.state.face_classes, before)
    assert opened.document.undo_label != label
    opened.press_keys("Ctrl+Shift+Z")
    assert np.array_equal(opened.state.face_classes, after)


# --- band


def test_a_band_is_dragged_on_a_cylinder_and_previewed(opened):
    start(opened, ringed_tube())
    opened.press_keys("J")
    assert opened.window.choices.extent is Extent.BAND
    eye = np.asarray(opened.window.view.scene.camera_state()["position_mm"])
    out = eye[:2] / np.linalg.norm(eye[:2]) * 10.0
    low, high = (opened.place_of((*out, z)) for z in (8.0, 21.0))
    opened.move(low)
    assert message(opened).startswith(("7.", "8."))
    before = opened.state.face_classes
    QTest.mousePress(opened.canvas, Qt.MouseButton.LeftButton, pos=low)
    opened.move(high, Qt.MouseButton.LeftButton)
    wait(opened)
    wait(opened)
    shown = previewed(opened)
    assert not opened.state.face_classes.any()
    assert f"{shown:,} faces" in message(opened)
    QTest.mouseRelease(opened.canvas, Qt.MouseButton.LeftButton, pos=high)
    wait(opened)
    assert np.count_nonzero(opened.state.face_classes) == shown
    assert previewed(opened) == 0
    exact = 2.0 * np.pi * 10.0 * 13.0  # CALC: 2 π r h
    # A pixel at each end, which is what the mouse can tell.
    assert area(opened, CLASS_A) == pytest.approx(exact, abs=2.0 * np.pi * 10.0 * 0.5)
    one_step(opened, before, "Band as class A")


def test_a_band_by_numbers_is_that_of_the_present_pose(opened):
    start(opened, ringed_tube())
    opened.document.turn(Pose((1.0, 0.0, 0.0)))  # the cylinder lies: its axis is level
    opened.settle()
    opened.press_keys("J")
    opened.press_keys("B")
    panel = opened.window.panels[Stage.MARK].ways
    for field, text in ((panel.low, "0"), (panel.high, "10")):
        field.setFocus()
        field.selectAll()
        QTest.keyClicks(field, text)
        QTest.keyClick(field, Qt.Key.Key_Return)
    made = button(opened, "mark_band")
    point_at(opened, made)
    shown = previewed(opened)
    assert shown
    before = opened.state.face_classes
    opened.press(made)
    wait(opened)
    assert np.count_nonzero(opened.state.face_classes) == shown
    whole = opened.state.part.mesh.face_areas_mm2.sum()
    strip = 30.0 * 2.0 * np.pi * 10.0 / 120.0  # of the wall, as wide as a face
    # CALC: the lower half of a level cylinder; its ends are fans whose middles may lie either side
    assert area(opened, CLASS_B) == pytest.approx(whole / 2.0, abs=2.0 * strip)
    one_step(opened, before, "Band as class B")


def test_escape_gives_a_band_up(opened):
    start(opened, ringed_tube())
    opened.press_keys("J")
    low = opened.place_of((0.0, -10.0, 8.0))
    QTest.mousePress(opened.canvas, Qt.MouseButton.LeftButton, pos=low)
    opened.move(low - QPoint(0, 60), Qt.MouseButton.LeftButton)
    opened.press_keys("Esc")
    QTest.mouseRelease(opened.canvas, Qt.MouseButton.LeftButton, pos=low)
    wait(opened)
    assert previewed(opened) == 0
    assert not opened.document.undo_label


# --- lasso


def round_loop(opened, radius_px):
    middle = opened.canvas.rect().center()
    turns = np.linspace(0.0, 2.0 * np.pi, 40)
    return [
        middle + QPoint(round(radius_px * np.cos(t)), round(radius_px * np.sin(t))) for t in turns
    ]


def caps_in_loop(opened, radius_px, radius_mm=10.0):
    """CALC: areas of the front and the back cap of a ball within a cone from the eye."""
    view = opened.window.view
    distance = np.linalg.norm(view.eye().place_mm - view.scene._mesh.box_mm.mean(axis=0))
    height_px = view.size_px[1]
    slope = 2.0 * radius_px / height_px * np.tan(np.radians(view.eye().half_angle_deg))
    cosine = 1.0 / np.sqrt(1.0 + slope**2)
    root = np.sqrt(radius_mm**2 - distance**2 * (1.0 - cosine**2))
    near, far = distance * cosine - root, distance * cosine + root
    front = radius_mm - (distance - near * cosine)
    back = radius_mm - (far * cosine - distance)
    return 2.0 * np.pi * radius_mm * front, 2.0 * np.pi * radius_mm * back


@pytest.mark.parametrize("through", [False, True])
def test_a_lasso_takes_the_front_or_goes_through(opened, through):
    start(opened, sphere(10.0, 6))
    opened.press_keys("L")
    if through:
        opened.press(opened.window.panels[Stage.MARK].ways.through)
        assert opened.window.actions.by_key["lasso_through"].isChecked()
    look_at_middle(opened)
    loop = round_loop(opened, 100)
    before = opened.state.face_classes
    opened.move(loop[0])
    QTest.mousePress(opened.canvas, Qt.MouseButton.LeftButton, pos=loop[0])
    for place in loop[1:]:
        opened.move(place, Qt.MouseButton.LeftButton)
    assert opened.window.view.loop_corners >= 35
    opened.qtbot.waitUntil(lambda: previewed(opened) > 0, timeout=DONE_MS)
    wait(opened)
    wait(opened)
    shown = previewed(opened)
    QTest.mouseRelease(opened.canvas, Qt.MouseButton.LeftButton, pos=loop[-1])
    wait(opened)
    assert opened.window.view.loop_corners == 0
    assert np.count_nonzero(opened.state.face_classes) == shown
    front, back = caps_in_loop(opened, 100)
    exact = front + back if through else front
    assert area(opened, CLASS_A) == pytest.approx(exact, rel=0.03)
    one_step(opened, before, "Lasso as class A")


def look_at_middle(opened):
    """Aim the camera at the middle of the part, as far away as it is."""
    view = opened.window.view
    state = view.scene.camera_state()
    matrix = view.scene.matrix
    middle = matrix[:3, :3] @ view.scene._mesh.box_mm.mean(axis=0) + matrix[:3, 3]
    shift = middle - np.asarray(state["focal_mm"])
    state["focal_mm"] = list(middle)
    state["position_mm"] = list(np.asarray(state["position_mm"]) + shift)
    view.scene.set_camera_state(state)
    opened.draw()


def test_the_eye_draws_points_where_the_scene_does(opened):
    start(opened, box((3, 4, 5), (13, 24, 35)))
    opened.document.turn(Pose((0.3, 0.5, 0.7), 40.0))
    opened.settle()
    view = opened.window.view
    mesh, matrix = opened.state.part.mesh, view.scene.matrix
    frame = to_pixels(view.eye(), *view.size_px)
    for point in mesh.vertices_mm:
        x, y, _, w = frame @ (*point, 1.0)
        renderer = opened.canvas.renderer
        renderer.SetWorldPoint(*(matrix @ (*point, 1.0)))
        renderer.WorldToDisplay()
        assert (x / w, y / w) == pytest.approx(renderer.GetDisplayPoint()[:2], abs=0.01)


def test_escape_gives_a_lasso_up(opened):
    start(opened, sphere(10.0, 4))
    opened.press_keys("L")
    loop = round_loop(opened, 60)
    QTest.mousePress(opened.canvas, Qt.MouseButton.LeftButton, pos=loop[0])
    for place in loop[1:]:
        opened.move(place, Qt.MouseButton.LeftButton)
    opened.press_keys("Esc")
    assert opened.window.view.loop_corners == 0
    QTest.mouseRelease(opened.canvas, Qt.MouseButton.LeftButton, pos=loop[-1])
    wait(opened)
    assert not opened.state.face_classes.any()
    assert not opened.document.undo_label


# --- what is seen


def test_seen_from_here_is_the_cap_that_the_eye_sees(opened):
    start(opened, sphere(10.0, 6))
    before = opened.state.face_classes
    made = button(opened, "mark_seen_here")
    point_at(opened, made)
    shown = previewed(opened)
    assert f"{shown:,} faces" in message(opened)
    assert not opened.state.face_classes.any()
    opened.press(made)
    wait(opened)
    view = opened.window.view
    distance = np.linalg.norm(view.eye().place_mm)
    cap = 2.0 * np.pi * 100.0 * (1.0 - 10.0 / distance)  # CALC: up to the tangents from the eye
    assert area(opened, CLASS_A) == pytest.approx(cap, rel=0.02)
    assert np.count_nonzero(opened.state.face_classes) == shown
    go_away(opened, made)
    one_step(opened, before, "Seen from here as class A")


def test_seen_from_far_away_is_half_a_ball_and_by_key(opened):
    start(opened, sphere(10.0, 6))
    view = opened.window.view
    state = view.scene.camera_state()
    state["position_mm"] = [0.0, -4000.0, 10.0]
    state["focal_mm"] = [0.0, 0.0, 10.0]
    state["view_angle_deg"] = 0.5
    view.scene.set_camera_state(state)
    opened.press_keys("B")
    opened.press_keys("V")
    wait(opened)
    assert area(opened, CLASS_B) == pytest.approx(2.0 * np.pi * 100.0, rel=0.02)  # CALC: 2 π R²


def test_seen_in_use_leaves_the_floor_of_a_box_and_sees_it_from_below(opened):
    block = box((0, 0, 0), (20, 20, 20))
    start(opened, block)
    before = opened.state.face_classes
    opened.press_keys("Shift+V")
    wait(opened)
    floor = block.face_normals[:, 2] < -0.5
    assert np.array_equal(opened.state.face_classes == CLASS_A, ~floor)
    one_step(opened, before, "Seen in use as class A")
    opened.press_keys("Ctrl+Z")
    made = button(opened, "mark_seen_in_use")
    lift = opened.window.panels[Stage.MARK].ways.lift
    lift.setFocus()
    lift.selectAll()
    QTest.keyClicks(lift, "-30")
    QTest.keyClick(lift, Qt.Key.Key_Return)
    opened.press(made)
    wait(opened)
    top = block.face_normals[:, 2] > 0.5
    assert np.array_equal(opened.state.face_classes == CLASS_A, ~top)


def test_seen_in_use_turns_with_the_part(opened):
    block = box((0, 0, 0), (20, 20, 20))
    start(opened, block)
    opened.document.turn(Pose((1.0, 0.0, 0.0)))
    opened.settle()
    opened.press_keys("Shift+V")
    wait(opened)
    assert np.array_equal(opened.state.face_classes == CLASS_A, block.face_normals[:, 0] > -0.5)


# --- changing the marks


def capped_ball():
    ball = sphere(10.0, 6)
    middles = ball.corners_mm.mean(axis=1)
    return ball, np.where(middles[:, 2] > 5.0, CLASS_A, 0).astype(np.uint8)


@pytest.mark.parametrize(
    ("keys", "sign", "label"),
    [("Ctrl+]", 1.0, "Grow what is class A"), ("Ctrl+[", -1.0, "Shrink what is class A")],
)
def test_marks_grow_and_shrink_by_the_width(opened, keys, sign, label):
    ball, classes = capped_ball()
    start(opened, ball, classes)
    opened.press_keys(keys)
    wait(opened)
    angle = np.radians(60.0) + sign * 2.0 * np.arcsin(2.0 / 20.0)  # CALC: a chord of 2 mm
    cap = 2.0 * np.pi * 100.0 * (1.0 - np.cos(angle))
    assert area(opened, CLASS_A) == pytest.approx(cap, abs=2.0 * np.pi * 10.0 * 0.3)
    one_step(opened, classes, label)


def test_a_way_that_changes_nothing_is_no_step(opened):
    start(opened, sphere(10.0, 3))
    for keys in ("Ctrl+]", "Ctrl+[", "O", "Ctrl+I", "Ctrl+B"):
        opened.press_keys(keys)
        wait(opened)
        assert "nothing to change" in message(opened)
        assert not opened.document.undo_label


def test_smoothing_takes_a_speck_and_leaves_the_cap(opened):
    ball, classes = capped_ball()
    speckled = classes.copy()
    middles = ball.corners_mm.mean(axis=1)
    speckled[np.linalg.norm(middles - (0.0, 0.0, -10.0), axis=1) < 0.5] = CLASS_B
    start(opened, ball, speckled)
    opened.press(button(opened, "marks_smooth"))
    wait(opened)
    assert area(opened, CLASS_B) == 0.0
    cap = 2.0 * np.pi * 10.0 * 5.0  # CALC: 2 π R h
    assert area(opened, CLASS_A) == pytest.approx(cap, rel=0.02)
    go_away(opened, button(opened, "marks_smooth"))
    one_step(opened, speckled, "Smooth the borders")


def test_the_mirror_is_chosen_by_name_and_previewed(opened):
    ball = sphere(10.0, 5)
    middles = ball.corners_mm.mean(axis=1)
    spot = np.linalg.norm(middles - (0.0, -10.0, 0.0), axis=1) < 5.0
    start(opened, ball, np.where(spot, CLASS_A, 0).astype(np.uint8))
    opened.press_keys("N")
    assert opened.window.choices.extent is Extent.CHANGE
    mirror = opened.window.panels[Stage.MARK].ways.mirror
    mirror.setFocus()
    for _ in range(3):
        QTest.keyClick(mirror, Qt.Key.Key_Down)
    assert mirror.currentText().startswith("Front onto back")
    assert opened.window.tools.ways.options.now.mirror_axis == 1
    before = opened.state.face_classes
    opened.press(button(opened, "marks_mirror"))
    wait(opened)
    image = np.linalg.norm(middles - (0.0, 10.0, 0.0), axis=1) < 5.0
    after = opened.state.face_classes[: ball.face_count]  # where a face is cut, one piece of it
    assert np.array_equal(after[spot], before[spot])
    exact = ball.face_areas_mm2[spot].sum()
    assert area(opened, CLASS_A) == pytest.approx(2.0 * exact, rel=0.01)
    assert np.mean(after[image] == CLASS_A) > 0.95
    go_away(opened, button(opened, "marks_mirror"))
    one_step(opened, before, "Mirror the marks")


def test_exchanging_twice_is_as_before_and_the_preview_shows_all_that_changes(opened):
    ball, classes = capped_ball()
    classes[ball.corners_mm.mean(axis=1)[:, 2] < -8.0] = CLASS_B
    start(opened, ball, classes)
    made = button(opened, "marks_swap")
    point_at(opened, made)
    assert previewed(opened) == np.count_nonzero(classes)
    opened.press(made)
    wait(opened)
    assert np.array_equal(opened.state.face_classes == CLASS_B, classes == CLASS_A)
    assert previewed(opened) == np.count_nonzero(classes)  # the pointer is still over it
    opened.press(made)
    wait(opened)
    assert np.array_equal(opened.state.face_classes, classes)
    go_away(opened, made)
    assert previewed(opened) == 0
    opened.press_keys("Ctrl+Z")
    opened.press_keys("Ctrl+Z")
    assert np.array_equal(opened.state.face_classes, classes)
    assert not opened.document.undo_label


def test_ways_are_exact_on_12_facets_and_one_step_each(opened):
    block = box((-10, -10, 0), (10, 10, 20))
    top = np.where(block.face_normals[:, 2] > 0.5, CLASS_A, 0).astype(np.uint8)
    start(opened, block, top)
    opened.press_keys("Ctrl+]")  # grow by 2 mm
    wait(opened)
    # CALC: the top and 2 mm of each side below it
    assert area(opened, CLASS_A) == pytest.approx(400.0 + 4 * 20 * 2.0, rel=0.01)
    one_step(opened, top, "Grow what is class A")
    opened.press_keys("Ctrl+Z")
    opened.window.tools.ways.options.set(band_low_mm=3.0, band_high_mm=7.0)
    opened.press_keys("B")
    opened.press_keys("Shift+J")
    wait(opened)
    assert area(opened, CLASS_B) == pytest.approx(4 * 20 * 4.0, rel=0.01)  # CALC: 4 sides
    one_step(opened, top, "Band as class B")
    opened.press_keys("Ctrl+Z")
    assert opened.state.part.mesh.face_count == 12
    made = button(opened, "marks_grow")
    opened.press_keys("A")
    point_at(opened, made)
    assert previewed(opened) > 100  # pieces that are not there yet
    assert opened.state.part.mesh.face_count == 12
    go_away(opened, made)


# --- previews, cancel, names


def test_a_way_in_the_menu_is_previewed_and_hidden_with_the_menu(opened):
    start(opened, sphere(10.0, 5))
    menus = {m.title(): m for m in opened.window.menuBar().findChildren(QMenu)}
    menu = menus["&Mark"]
    menu.popup(opened.canvas.mapToGlobal(QPoint(50, 50)))
    menu.setActiveAction(opened.window.actions.by_key["mark_seen_here"])
    wait(opened)
    assert previewed(opened) > 1000
    menu.close()
    QApplication.processEvents()
    assert previewed(opened) == 0
    assert not opened.document.undo_label


def test_tab_to_a_button_previews_it(opened):
    start(opened, sphere(10.0, 5))
    made = button(opened, "mark_seen_here")
    made.setFocus(Qt.FocusReason.TabFocusReason)
    wait(opened)
    assert previewed(opened) > 1000
    QTest.keyClick(made, Qt.Key.Key_Space)
    wait(opened)
    assert opened.document.undo_label == "Seen from here as class A"
    opened.canvas.setFocus()
    assert previewed(opened) == 0


def test_a_long_way_is_stopped_by_escape_and_can_be_asked_again(opened):
    start(opened, sphere(10.0, 6))
    ways = opened.window.tools.ways
    ways.options.set(ring_count=72)
    opened.press_keys("Shift+V")
    assert opened.window.busy.busy
    opened.press_keys("Esc")
    assert not opened.window.busy.busy
    assert opened.window.jobs._pool.waitForDone(DONE_MS)
    QApplication.processEvents()
    assert not opened.state.face_classes.any()
    ways.options.set(ring_count=4)
    opened.press_keys("Shift+V")
    wait(opened)
    assert opened.state.face_classes.any()
    assert not opened.window.busy.busy


def test_a_mark_made_meanwhile_stops_what_was_worked_out_for_the_marks_before(opened):
    start(opened, sphere(10.0, 6))
    opened.window.tools.ways.options.set(ring_count=72)
    opened.press_keys("Shift+V")
    opened.document.mark(np.arange(5), CLASS_B)
    assert not opened.window.busy.busy
    assert opened.window.jobs._pool.waitForDone(DONE_MS)
    QApplication.processEvents()
    assert np.count_nonzero(opened.state.face_classes) == 5


def test_every_control_has_a_name_and_a_tip(opened):
    start(opened, box((0, 0, 0), (20, 20, 20)))
    panel = opened.window.panels[Stage.MARK].ways
    kinds = (QAbstractButton, QAbstractSpinBox, QComboBox)
    controls = [child for kind in kinds for child in panel.findChildren(kind)]
    assert len(controls) >= 17
    for control in controls:
        assert control.accessibleName() or getattr(control, "text", str)(), control
        assert len(control.toolTip()) > 20, control.accessibleName()
        assert control.focusPolicy() & Qt.FocusPolicy.TabFocus
    for line in panel.findChildren(QLineEdit):
        assert line.accessibleName()
