"""The chosen machine in the scene: its platform, its boxes, what sticks out, copies."""

import numpy as np
import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from tests.shapes import box, c_bracket
from tests.waiting import LONG_MS
from tests.window.test_shop_column import own_shop, pick, told  # noqa: F401
from viewer.document.piece_state import specimen_piece
from viewer.files.job_file import write_job
from viewer.files.mesh_files import read_part
from viewer.geometry.specimens.catalogue import make_specimen
from viewer.shop.shop import example_shop


def answered(opened):
    """Wait until the scene knows the present numbers of the shop."""
    numbers = told(opened)
    link = opened.window.shop.scene
    opened.qtbot.waitUntil(
        lambda: link.latest is not None and link.latest.numbers is numbers, timeout=LONG_MS
    )
    opened.draw()
    return link.latest


def machine_view(opened):
    return opened.window.view.scene.machine


def test_the_platform_is_that_of_the_machine_that_is_chosen(opened):
    opened.show(c_bracket())
    opened.press_keys("F3")
    told(opened)
    assert opened.window.view.scene.platform_mm == (220.0, 220.0)
    pick(opened, "machine", "Two nozzles, large")
    large = example_shop().machine("Two nozzles, large")
    assert opened.window.view.scene.platform_mm == large.build_volume_mm[:2]
    opened.press_keys("Ctrl+Z")
    assert opened.window.view.scene.platform_mm == (220.0, 220.0)


def test_volumes_are_shown_and_hidden_by_key_and_all_of_them_come_into_view(opened):
    opened.show(c_bracket())
    opened.press_keys("F3")
    pick(opened, "machine", "Two nozzles, side by side")
    answered(opened)
    assert len(machine_view(opened).corners_mm) == 0
    opened.press_keys("M")
    opened.draw()
    corners = machine_view(opened).corners_mm
    assert len(corners) == 3 * 8  # build volume and the reach of two nozzles
    assert np.ptp(corners, axis=0) == pytest.approx([240, 200, 200])
    places = [opened.place_of(corner) for corner in corners]
    assert all(opened.canvas.rect().contains(place) for place in places)
    assert opened.window.actions.by_key["machine_volumes"].isChecked()
    opened.press_keys("M")
    assert len(machine_view(opened).corners_mm) == 0


def test_what_sticks_out_is_outlined_and_no_longer_after_turning(opened):
    opened.show(box((0, 0, 0), (290, 4, 4)))
    opened.press_keys("M")
    answer = answered(opened)
    outline = answer.outline_mm
    # CALC: 290 in 220: leaves at both ends through a square of 4: 2 · 16 mm of outline.
    assert np.linalg.norm(outline[:, 1] - outline[:, 0], axis=1).sum() == pytest.approx(32.0)
    assert np.abs(answer.hatch_mm[..., 0]).min() >= 110 - 1e-6
    assert machine_view(opened).outside_shown
    opened.press_keys("M")
    assert not machine_view(opened).outside_shown
    opened.press_keys("M")
    opened.press_keys("T")
    answered(opened)
    assert not machine_view(opened).outside_shown


def test_copies_are_drawn_on_the_platform_and_cost_what_all_of_them_take(opened):
    opened.show(c_bracket())
    opened.press_keys("F3")
    one = answered(opened)
    assert not machine_view(opened).copies_shown
    field = opened.window.shop.column.chooser.copies
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, "4")
    QTest.keyClick(field, Qt.Key.Key_Return)
    assert opened.state.shop_choice.copies == 4
    four = answered(opened)
    assert len(four.plan.outlines_mm) == 4
    assert machine_view(opened).copies_shown
    assert four.numbers.estimate.model_g.likely == pytest.approx(
        4 * one.numbers.estimate.model_g.likely
    )
    room = opened.window.shop.column.chooser.room
    assert f"At most {four.plan.most} find room" in room.text()
    opened.press_keys("Ctrl+Z")
    answered(opened)
    assert not machine_view(opened).copies_shown


def test_too_many_copies_are_told(opened):
    opened.show(c_bracket())
    opened.press_keys("F3")
    most = answered(opened).plan.most
    opened.window.shop.column.chooser.copies.setValue(most + 1)
    plan = answered(opened).plan
    assert plan.outlines_mm == ()
    assert "do not find room" in opened.window.shop.column.chooser.room.text()
    assert str(most) in opened.window.shop.column.chooser.room.text()


def test_test_pieces_stand_beside_the_part_as_ticked_and_are_kept_with_the_job(opened, tmp_path):
    opened.show(c_bracket())
    button = opened.window.shop.column.chooser.beside
    assert not button.isEnabled()
    made = [specimen_piece(make_specimen(kind)) for kind in ("inclination-fan", "bridge-ladder")]
    opened.document.set_pieces(tuple(made), "Make test pieces")
    assert button.isEnabled()
    answered(opened)
    opened.press_keys("Shift+F3")
    menu = button.menu_of_pieces
    opened.qtbot.waitUntil(menu.isVisible, timeout=LONG_MS)
    for _ in range(2):
        QTest.keyClick(menu, Qt.Key.Key_Down)
    QTest.keyClick(menu, Qt.Key.Key_Return)
    assert opened.state.shop_choice.beside == (made[1].name,)
    link = opened.window.shop.scene
    opened.qtbot.waitUntil(
        lambda: link.latest is not None and len(link.latest.plan.pieces) == 1, timeout=LONG_MS
    )
    plan = answered(opened).plan
    ((name, outline),) = plan.pieces
    assert name == "Bridge ladder"
    assert np.ptp(outline, axis=0) == pytest.approx(made[1].size_mm[:2])
    assert machine_view(opened).copies_shown
    assert "beside Bridge ladder" in opened.window.shop.column.chooser.room.text()
    assert "1 of 2" in button.text()
    # The part that is drawn is the one copy; the piece stands clear of it.
    part = plan.outlines_mm[0]
    apart = np.maximum(outline.min(0) - part.max(0), part.min(0) - outline.max(0))
    assert apart.max() >= 5.0 - 1e-6
    write_job(opened.state, tmp_path / "job.3mf")
    assert read_part(tmp_path / "job.3mf").shop_choice.beside == ("Bridge ladder",)
    opened.press_keys("Ctrl+Z")
    answered(opened)
    assert not machine_view(opened).copies_shown
