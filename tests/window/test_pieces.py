"""Pieces in stage Try by mouse and keys: planned in the scene, taken, listed, saved, opened."""

import numpy as np
import pytest
import trimesh
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from tests import shapes
from tests.waiting import LONG_MS
from viewer.files.mesh_files import read_part
from viewer.window.rescale import read_in_unit
from viewer.window.stages import Stage


@pytest.fixture
def post(opened):
    """Post and cap, all of class A, in stage Try."""
    mesh = shapes.post_and_cap()
    opened.show(mesh, np.ones(mesh.face_count, np.uint8), "post")
    opened.press_keys("Ctrl+4")
    return opened


def made(opened):
    """What the plan makes, once it is known."""
    cuts = opened.window.pieces.cuts
    opened.qtbot.waitUntil(lambda: cuts.latest is not None, timeout=LONG_MS)
    return cuts.latest.pieces


def type_number(field, text):
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, text)
    QTest.keyClick(field, Qt.Key.Key_Return)
    QApplication.processEvents()


def takes(opened, count):
    """Wait until what all pieces take is known."""
    numbers = opened.window.pieces.numbers
    opened.qtbot.waitUntil(
        lambda: sum(numbers.numbers_of(p) is not None for p in opened.state.pieces) == count,
        timeout=LONG_MS,
    )


def test_a_box_is_placed_by_fields_keys_and_mouse_and_taken(post):
    window, planner = post.window, post.window.pieces.planner
    cuts = window.view.scene.cuts
    post.press_keys("Ctrl+Alt+X")
    box = window.pieces.cut_box
    assert window.actions.by_key["cut_box"].isChecked()
    assert not box.heights[0].isVisible()
    for field, text in zip(
        (*box.middle, *box.size), ("0", "0", "20", "40", "40", "6"), strict=True
    ):
        type_number(field, text)
    (piece,) = made(post)
    # CALC: 3 mm of the post of 10 × 10, 3 mm of the cap of 30 × 30
    assert piece.volume_mm3 == pytest.approx(300 + 2700)
    assert piece.pose == post.state.pose
    assert cuts.cut_shown
    post.press_keys("Alt+Shift+PageUp")
    assert planner.plan.low_mm[2] == pytest.approx(18)
    (piece,) = made(post)
    assert piece.volume_mm3 == pytest.approx(200 + 3600)
    # The upper side is dragged down by its handle, from 24 to 22; Escape would take it back.
    high = next(h for h in cuts.handles if h.axis == 2 and h.high)
    start, end = (post.place_of(high.at_mm + np.array([0, 0, z])) for z in (0, -2))
    post.drag([start, end])
    assert planner.plan.high_mm[2] == pytest.approx(22, abs=0.25)
    post.move(start)
    QTest.mousePress(
        post.canvas,
        Qt.MouseButton.LeftButton,
        pos=post.place_of(next(h for h in cuts.handles if h.axis < 0).at_mm),
    )
    before = planner.plan
    post.move(start, Qt.MouseButton.LeftButton)
    assert planner.plan.moved(np.zeros(3)) != before
    post.press_keys("Escape")
    assert planner.plan == before
    QTest.mouseRelease(post.canvas, Qt.MouseButton.LeftButton, pos=start)
    made(post)
    post.press_keys("Ctrl+Return")
    assert planner.plan is None
    assert [p.name for p in post.state.pieces] == ["Cut-out"]
    assert not cuts.cut_shown
    assert cuts.handles == ()
    post.press_keys("Ctrl+Z")
    assert post.state.pieces == ()
    post.press_keys("Ctrl+Shift+Z")
    assert len(post.state.pieces) == 1
    # The unit is settled only now: piece and box grow with the part, in one step that undo takes.
    (small,) = post.state.pieces
    post.press_keys("Ctrl+Alt+X")
    before = planner.plan
    window.document.replace_part(read_in_unit(post.state, "cm"), "Change the unit")
    assert post.state.pieces[0].volume_mm3 == pytest.approx(1000 * small.volume_mm3)
    assert planner.plan.high_mm == pytest.approx([10 * at for at in before.high_mm])
    post.press_keys("Ctrl+Z")
    assert post.state.pieces == (small,)
    assert planner.plan.high_mm == pytest.approx(before.high_mm)
    post.press_keys("Ctrl+Backspace")
    assert planner.plan is None


def test_the_worst_touch_and_slabs_and_quarters(post):
    window, planner = post.window, post.window.pieces.planner
    post.press_keys("Ctrl+Alt+W")
    post.qtbot.waitUntil(lambda: planner.plan is not None, timeout=LONG_MS)
    (piece,) = made(post)
    # Row 22: the touch of 800 mm² under the cap, margin 3: all of the cap, 3 mm of the post (CALC)
    assert piece.volume_mm3 == pytest.approx(30 * 30 * 3 + 10 * 10 * 3)
    box = window.pieces.cut_box
    post.qtbot.waitUntil(lambda: "1 piece" in box.words.text(), timeout=LONG_MS)
    assert "800 mm²" in box.words.text()
    post.press_keys("Ctrl+Alt+B")
    assert planner.plan.way == "slab"
    type_number(box.heights[1], "25")
    type_number(box.heights[0], "22")
    (piece,) = made(post)
    assert piece.volume_mm3 == pytest.approx(2700)
    post.press_keys("Ctrl+Alt+Q")
    assert len(made(post)) == 4
    box.joint.kind.setCurrentIndex(1)
    box.joint.kind.activated.emit(1)
    assert planner.plan.joint == "pins"
    made(post)
    assert "no room for a pin" in box.words.text()
    type_number(box.joint.size, "2")
    pieces = made(post)
    assert sum(piece.volume_mm3 for piece in pieces) < 6500
    box.anew.click()
    assert {piece.pose.up for piece in made(post)} != {(0.0, 0.0, 1.0)}
    post.press_keys("Ctrl+Backspace")
    assert planner.plan is None
    assert "nothing of the part changes" in box.words.text()


def test_a_plan_that_meets_nothing_says_so(post):
    box = post.window.pieces.cut_box
    post.press_keys("Ctrl+Alt+X")
    type_number(box.middle[0], "500")
    post.qtbot.waitUntil(lambda: "Nothing of the part" in box.words.text(), timeout=LONG_MS)
    assert not post.window.actions.by_key["take_cut"].isEnabled()


def test_pieces_are_listed_with_what_they_take_renamed_saved_opened_and_removed(post, tmp_path):
    window, listed = post.window, post.window.pieces.box
    assert listed.none_yet.isVisible()
    post.press_keys("Ctrl+Alt+Q")
    made(post)
    post.press_keys("Ctrl+Return")
    takes(post, 4)
    assert [listed.rows.item(k).text().split("\n")[0] for k in range(4)] == [
        "Quarter 1", "Quarter 2", "Quarter 3", "Quarter 4",
    ]  # fmt: skip
    assert " g · " in listed.rows.item(0).text()
    assert listed.current is post.state.pieces[3]
    post.press_keys("Ctrl+Alt+PageDown")
    assert listed.current is post.state.pieces[0]
    assert len(window.view.scene.cuts.beside_mm)
    post.press_keys("Ctrl+F10")
    assert listed.name.hasFocus()
    listed.name.selectAll()
    QTest.keyClicks(listed.name, "Corner")
    QTest.keyClick(listed.name, Qt.Key.Key_Return)
    assert post.state.pieces[0].name == "Corner"
    post.answers.path = tmp_path / "corner.3mf"
    post.press_keys("Ctrl+Alt+S")
    post.qtbot.waitUntil(lambda: not window.busy.busy, timeout=LONG_MS)
    again = read_part(tmp_path / "corner.3mf")
    assert again.part.mesh.signed_volume_mm3 == pytest.approx(6500 / 4, rel=1e-6)
    assert (again.face_classes == 1).any()
    post.answers.path = tmp_path / "all"
    post.press_keys("Ctrl+Alt+F11")
    post.qtbot.waitUntil(lambda: not window.busy.busy, timeout=LONG_MS)
    files = sorted((tmp_path / "all").iterdir())
    assert [path.name for path in files] == [
        "corner.stl", "quarter-2.stl", "quarter-3.stl", "quarter-4.stl",
    ]  # fmt: skip
    bodies = [trimesh.load(path) for path in files]
    assert all(body.is_watertight for body in bodies)
    assert sum(body.volume for body in bodies) == pytest.approx(6500, rel=1e-6)
    listed.rows.setFocus()
    QTest.keyClick(listed.rows, Qt.Key.Key_Delete)
    assert post.state.pieces[0].name == "Quarter 2"
    post.press_keys("Ctrl+Z")
    assert post.state.pieces[0].name == "Corner"
    piece = post.state.pieces[0]
    listed.choose(piece)
    post.press_keys("Ctrl+Alt+O")
    assert post.answers.asked[-1] == "unsaved"
    assert post.state.part.name == "Corner"
    assert post.state.pose == piece.pose
    assert window.choices.stage is Stage.TURN


def test_a_specimen_is_chosen_set_shown_and_added_by_keys(post):
    window, work = post.window, post.window.pieces.specimen
    box, cuts = window.pieces.specimen_box, window.view.scene.cuts
    box.kind.setCurrentIndex(box.kind.findData("bridge-ladder"))
    box.kind.activated.emit(box.kind.currentIndex())
    post.qtbot.waitUntil(lambda: work.piece is not None, timeout=LONG_MS)
    usual = work.steps
    assert len(usual) > 3
    assert window.actions.by_key["specimen_show"].isChecked()
    assert cuts.beside_mm[:, 0].min() > 15.0  # beside the part, which reaches to x = 15
    box.steps.setFocus()
    box.steps.selectAll()
    QTest.keyClicks(box.steps, "8 4")
    QTest.keyClick(box.steps, Qt.Key.Key_Return)
    post.qtbot.waitUntil(lambda: work.piece is not None, timeout=LONG_MS)
    assert {step.value for step in work.specimen.steps} == {4.0, 8.0}
    numbers = window.pieces.numbers
    post.qtbot.waitUntil(lambda: numbers.numbers_of(work.piece) is not None, timeout=LONG_MS)
    assert "2 steps, 4 to 8 mm." in box.words.text()
    assert " g · " in box.words.text()
    post.press_keys("Ctrl+Alt+Return")
    assert [(p.name, p.kind) for p in post.state.pieces] == [("Bridge ladder", "bridge-ladder")]
    assert not work.wanted
    post.press_keys("Ctrl+Shift+X")
    assert work.steps == usual
    box.steps.setFocus()
    box.steps.selectAll()
    QTest.keyClicks(box.steps, "wide")
    QTest.keyClick(box.steps, Qt.Key.Key_Return)
    assert "such as 30 40 50" in box.words.text()
    assert not window.actions.by_key["specimen_add"].isEnabled()


def test_a_bar_that_does_not_fit_is_split_with_a_dovetail(opened):
    """CALC: 500 × 30 × 40 mm is longer than any way to lay it on the first machine."""
    mesh = shapes.box([0, 0, 0], [500, 30, 40])
    opened.show(mesh, np.zeros(12, np.uint8), "bar")
    shop = opened.window.shop.live
    opened.qtbot.waitUntil(lambda: shop.latest is not None and not shop.asking, timeout=LONG_MS)
    desk = opened.window.pieces
    opened.press_keys("Ctrl+Alt+H")
    opened.qtbot.waitUntil(lambda: desk.splits.advice is not None, timeout=LONG_MS)
    box = desk.split_box
    assert "The part does not fit" in box.advice.text()
    assert "Too wide by" in box.advice.text()
    assert "Both halves fit at" in box.advice.text()
    assert desk.planner.plan.way == "split"
    np.testing.assert_allclose(np.abs(desk.planner.plan.plane.normal), [1, 0, 0], atol=1e-9)
    first = desk.planner.plan.plane
    opened.press_keys("Ctrl+Alt+N")
    assert desk.planner.plan.plane != first
    box.places.setCurrentIndex(0)
    box.places.activated.emit(0)
    place = box.joint.kind.findData("dovetails")
    box.joint.kind.setCurrentIndex(place)
    box.joint.kind.activated.emit(place)
    pieces = made(opened)
    assert len(pieces) == 2
    whole = mesh.signed_volume_mm3
    assert 0 < whole - sum(piece.volume_mm3 for piece in pieces) < 100
    opened.press_keys("Ctrl+Return")
    assert [piece.name for piece in opened.state.pieces] == ["Half 1", "Half 2"]
    opened.press_keys("X")
    assert desk.splits.advice is None
