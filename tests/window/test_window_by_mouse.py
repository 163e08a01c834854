"""The job done by mouse and keys in the real window."""

import numpy as np
import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest

from tests.shapes import box, sphere
from tests.waiting import LONG_MS
from viewer.geometry.face_classes import CLASS_A, CLASS_B, UNMARKED
from viewer.geometry.mesh import Mesh
from viewer.geometry.pose import Pose, posed_vertices_mm, rotation
from viewer.scene.lenses import Lens
from viewer.scene.rings import ring_points
from viewer.window.choices import Extent, TurnMode
from viewer.window.stages import Stage
from viewer.window.turn_angles import pose_of_angles, turn_about_axis, typed_angles_deg


def fine_box(side=40.0, height=20.0, count=24):
    """A closed box whose faces are grids of small triangles, so that a brush can be finer."""
    corners, faces, index = [], [], {}

    def vertex(p):
        key = tuple(np.round(p, 6))
        if key not in index:
            index[key] = len(corners)
            corners.append(key)
        return index[key]

    size = np.array([side, side, height])
    for axis in range(3):
        i, j = (axis + 1) % 3, (axis + 2) % 3
        for end in (0.0, 1.0):
            for u in range(count):
                for v in range(count):
                    quad = []
                    for du, dv in ((0, 0), (1, 0), (1, 1), (0, 1)):
                        p = np.zeros(3)
                        p[axis], p[i], p[j] = end, (u + du) / count, (v + dv) / count
                        quad.append(vertex(p * size))
                    a, b, c, d = quad if end else quad[::-1]
                    faces += [(a, b, c), (a, c, d)]
    return Mesh(np.array(corners), np.array(faces))


@pytest.fixture
def marking(opened):
    opened.show(fine_box())
    opened.press_keys("Ctrl+2")
    assert opened.window.choices.stage is Stage.MARK
    return opened


def test_a_stroke_paints_a_band_of_the_brush_width_and_is_one_undo_step(marking):
    state = marking.state
    marking.window.choices.set_mark(brush_mm=3.0)
    # Along x over the top, which lies at z = 20 in the posed frame, centred at 0.
    ends = [marking.place_of((x, 0.0, 20.0)) for x in (-12.0, 12.0)]
    marking.drag(ends)  # only two mouse events: what lies between must be filled in
    classes = marking.state.face_classes
    painted = np.flatnonzero(classes == CLASS_A)
    mesh = marking.state.part.mesh  # its faces are cut along the rim
    assert marking.state.part.base is state.part.mesh
    middles = posed_vertices_mm(mesh.vertices_mm, Pose())[mesh.faces].mean(1)
    assert np.allclose(middles[painted, 2], 20.0)  # never through to the other side
    near = np.abs(middles[:, 1]) < 2.0
    inside = (np.abs(middles[:, 0]) < 12.0) & near & (middles[:, 2] > 19.99)
    assert np.all(classes[inside] == CLASS_A)  # no gap between the two events
    outside = (np.abs(middles[:, 1]) > 6.0) | (np.abs(middles[:, 0]) > 18.0)
    assert not np.any(classes[outside])
    area = mesh.face_areas_mm2[painted].sum()
    expected = 24.0 * 6.0 + np.pi * 9.0  # CALC: a straight stroke, round at both ends
    assert area == pytest.approx(expected, rel=0.02)  # a pixel is 0.1 mm or more
    assert marking.document.undo_label == "Paint class A"
    marking.press_keys("Ctrl+Z")
    assert not marking.state.face_classes.any()
    assert marking.state.part is state.part
    marking.press_keys("Ctrl+Shift+Z")
    assert np.array_equal(marking.state.face_classes, classes)
    assert not marking.document.redo_label


def test_erasing_and_class_b_by_keys(marking):
    here = [marking.place_of((x, 5.0, 20.0)) for x in (-8.0, 8.0)]
    marking.press_keys("B")
    marking.drag(here)
    assert set(np.unique(marking.state.face_classes)) == {UNMARKED, CLASS_B}
    marking.press_keys("E")
    marking.window.choices.set_mark(brush_mm=20.0)
    marking.drag(here)
    assert not marking.state.face_classes.any()
    assert marking.document.undo_label == "Erase marks"


def test_a_fill_stops_at_creases_and_marks_what_it_previewed(marking):
    marking.press_keys("F")
    assert marking.window.choices.extent is Extent.CREASE
    marking.press_keys("A")
    place = marking.place_of((3.0, 3.0, 20.0))
    marking.move(place)
    assert "marks 1,152 faces" in marking.window.statusBar().currentMessage()
    marking.click(place)
    top = marking.state.part.mesh.face_normals[:, 2] > 0.99
    assert np.array_equal(marking.state.face_classes == CLASS_A, top)
    areas = marking.window.panels[Stage.MARK]._areas
    assert areas["A"].text() == "1,600 mm²"  # CALC: 40 × 40


def test_brush_keys_and_slider_move_together(marking):
    before = marking.window.choices.brush_mm
    marking.press_keys("]")
    assert marking.window.choices.brush_mm == pytest.approx(1.25 * before)
    marking.press_keys("[")
    marking.press_keys("[")
    assert marking.window.choices.brush_mm == pytest.approx(before / 1.25)
    panel = marking.window.panels[Stage.MARK]
    assert panel._brush.value() == pytest.approx(before / 1.25, abs=0.06)


def test_escape_takes_a_stroke_back(marking):
    place = marking.place_of((0.0, 0.0, 20.0))
    QTest.mousePress(marking.canvas, Qt.MouseButton.LeftButton, pos=place)
    assert marking.window.view.scene._stroke._count  # shown, but not yet marked
    marking.press_keys("Esc")
    assert not marking.window.view.scene._stroke._count
    assert not marking.state.face_classes.any()
    QTest.mouseRelease(marking.canvas, Qt.MouseButton.LeftButton, pos=place)
    assert not marking.document.undo_label


def camera(opened):
    state = opened.window.view.scene.camera_state()
    return np.concatenate([state["position_mm"], state["focal_mm"]])


def test_left_paints_and_the_other_buttons_move_the_camera(marking):
    middle = marking.place_of((0.0, 0.0, 20.0))
    still = camera(marking)
    marking.drag([middle, middle + QPoint(15, 0)])
    assert np.array_equal(camera(marking), still)
    marked = marking.state.face_classes
    marking.drag([middle, middle + QPoint(40, 10)], Qt.MouseButton.RightButton)
    turned = camera(marking)
    assert np.allclose(turned[3:], still[3:])
    assert not np.allclose(turned[:3], still[:3])
    marking.drag([middle, middle + QPoint(40, 10)], Qt.MouseButton.MiddleButton)
    shifted = camera(marking)
    assert np.allclose(shifted[:3] - turned[:3], shifted[3:] - turned[3:])
    assert not np.allclose(shifted, turned)
    assert marking.state.face_classes is marked


def test_panning_carries_the_point_under_the_pointer(marking):
    focal = marking.window.view.scene.camera_state()["focal_mm"]
    start = marking.place_of(focal)
    marking.drag([start, start + QPoint(30, -20)], Qt.MouseButton.MiddleButton)
    marking.draw()
    moved = marking.place_of(focal) - start
    assert abs(moved.x() - 30) <= 1
    assert abs(moved.y() + 20) <= 1


def test_keys_of_the_graphics_library_do_nothing(marking):
    actor_style = marking.window.view.scene._part.actor.GetProperty().GetRepresentation()
    for key in ("W", "3"):
        marking.press_keys(key)
    assert marking.window.view.scene._part.actor.GetProperty().GetRepresentation() == actor_style
    assert not marking.canvas.GetRenderWindow().GetStereoRender()


# --- turning


@pytest.fixture
def turning(opened):
    opened.show(box((0, 0, 0), (60, 20, 10)))
    opened.press_keys("Ctrl+3")
    opened.draw()
    return opened


def ring_places(opened, axis, degrees):
    """Places on the visible half of a ring."""
    rings = opened.window.view.scene._rings
    points = ring_points(axis, rings.centre_mm, rings.radius_mm)
    return [opened.place_of(points[round(d * 96 / 360) % 96]) for d in degrees]


@pytest.mark.parametrize(
    ("axis", "held", "step"),
    [(2, Qt.KeyboardModifier.ControlModifier, 15), (2, None, 1), (0, None, 1), (1, None, 1)],
)
def test_a_drag_along_a_ring_turns_in_whole_steps(turning, axis, held, step):
    start = {2: 300, 0: 100, 1: 30}[axis]
    places = ring_places(turning, axis, [start, start + 7.5, start + 15, start + 22.5, start + 30])
    turning.drag(places, held=held)
    turn = rotation(turning.state.pose)
    angle = np.degrees(np.arccos(np.clip((np.trace(turn) - 1) / 2, -1, 1)))
    assert angle == pytest.approx(round(angle / step) * step, abs=1e-5)
    assert angle == pytest.approx(30, abs=2 if step == 1 else 1e-5)
    assert turn == pytest.approx(turn_about_axis(axis, round(angle)), abs=1e-5)
    assert turning.document.undo_label == "Turn the part"
    turning.press_keys("Ctrl+Z")
    assert turning.state.pose == Pose()


def test_escape_takes_a_turn_back(turning):
    places = ring_places(turning, 2, [300, 320])
    QTest.mousePress(turning.canvas, Qt.MouseButton.LeftButton, pos=places[0])
    turning.move(places[1], Qt.MouseButton.LeftButton)
    assert turning.state.pose != Pose()
    turning.press_keys("Esc")
    assert turning.state.pose == Pose()
    QTest.mouseRelease(turning.canvas, Qt.MouseButton.LeftButton, pos=places[1])
    assert not turning.document.undo_label


def test_typed_angles_turn_the_part_and_drop_it(turning):
    field = turning.window.panels[Stage.TURN]._angles[0]
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, "90")
    QTest.keyClick(field, Qt.Key.Key_Return)
    turning.settle()
    assert turning.state.pose.up == pytest.approx((0, 1, 0))
    assert turning.window.numbers.value_text("height_mm") == "20.0"
    assert turning.window.numbers.value_text("layers") == "100"
    bounds = turning.window.view.scene._part.actor.GetBounds()
    assert bounds[4] == pytest.approx(0.0, abs=1e-5)
    assert bounds[:4] == pytest.approx((-30, 30, -5, 5), abs=1e-4)


def test_typing_one_angle_leaves_the_others_as_they_are(turning):
    turning.document.turn(pose_of_angles(12.3456, 7.8912, 0.0))
    field = turning.window.panels[Stage.TURN]._angles[2]
    assert turning.window.panels[Stage.TURN]._angles[0].text() == "12.3°"
    field.setValue(30.0)
    assert typed_angles_deg(turning.state.pose) == pytest.approx((12.3456, 7.8912, 30.0))


def test_quarter_turns_by_button_key_and_undo(turning):
    turning.press_keys("X")
    assert turning.state.pose.up == (0.0, 1.0, 0.0)
    turning.press_keys("Shift+X")
    assert turning.state.pose == Pose()
    assert turning.document.undo_label == "Quarter turn"


def test_standing_on_a_face_by_click(turning):
    turning.press_keys("S")
    assert "Click the face" in turning.window.stage_column.instruction.text()
    assert turning.window.choices.turn_mode is TurnMode.STAND
    turning.qtbot.waitUntil(lambda: turning.window.tools.hull.ready, timeout=LONG_MS)
    turning.draw()
    end = turning.place_of((30.0, 0.0, 5.0))  # the end that faces +x
    turning.window.view.view_from("right")
    turning.draw()
    end = turning.place_of((30.0, 0.0, 5.0))
    turning.move(end)
    assert "(200 mm²)" in turning.window.statusBar().currentMessage()
    turning.click(end)
    turning.settle()
    assert turning.state.pose.up == pytest.approx((-1, 0, 0))
    assert turning.window.numbers.value_text("height_mm") == "60.0"
    assert turning.window.numbers.value_text("platform_contact_mm2", "total") == "200"


# --- numbers


def test_numbers_follow_pose_and_classes_and_compare_with_a_pin(opened):
    # CALC, check-values 13: a sphere of r 10 on the platform, limit 45°: touch 184.03 mm²
    mesh = sphere(10.0)
    opened.show(mesh, np.full(mesh.face_count, CLASS_A, np.uint8))
    numbers = opened.window.numbers
    assert float(numbers.value_text("touch_area_mm2", "A")) == pytest.approx(184.03, rel=0.01)
    assert numbers.value_text("touch_area_mm2", "B") == "0"
    opened.press_keys("P")
    opened.settle()
    opened.window.panels[Stage.TURN].process["support_limit_deg"].setValue(50.0)
    opened.settle()
    assert float(numbers.value_text("touch_area_mm2", "A")) == pytest.approx(224.44, rel=0.01)
    opened.press_keys("Ctrl+Shift+U")
    opened.settle()
    assert numbers.value_text("touch_area_mm2", "A") == "0"
    assert float(numbers.value_text("touch_area_mm2", "unmarked")) == pytest.approx(
        224.44, rel=0.01
    )


def test_old_numbers_stay_while_new_ones_are_worked_out(turning):
    numbers = turning.window.numbers
    before = numbers.value_text("height_mm")
    turning.press_keys("Y")
    assert numbers.pending
    assert numbers.value_text("height_mm") == before
    turning.settle()
    assert numbers.value_text("height_mm") == "60.0"


def test_lenses_by_key_and_each_stage_remembers_its_own(turning):
    window = turning.window
    for key, lens in zip("12345678", Lens, strict=True):
        turning.press_keys(key)
        assert window.choices.lens is lens
        assert window.actions.by_key[f"lens_{lens.value}"].isChecked()
    turning.press_keys("2")
    turning.press_keys("Ctrl+2")
    assert window.choices.lens is Lens.CLASSES
    turning.press_keys("Ctrl+3")
    assert window.choices.lens is Lens.OVERHANG


@pytest.mark.usefixtures("every_frame")
def test_the_scene_is_really_drawn(opened):
    mesh = sphere(10.0, 4)
    opened.show(mesh, np.full(mesh.face_count, CLASS_A, np.uint8))
    opened.window.choices.set_lens(Lens.CLASSES)
    opened.draw()
    picture = opened.window.grab().toImage()
    place = opened.canvas.mapTo(opened.window, opened.place_of((0.0, 0.0, 20.0)) + QPoint(0, 12))
    colour = picture.pixelColor(place * picture.devicePixelRatio())
    # CC79A7 lit: more red than blue, more blue than green
    assert colour.red() > colour.blue() > colour.green()
