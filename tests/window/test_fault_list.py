"""The list of faults by mouse and by keys: from place to place, camera and words together."""

import numpy as np
import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel

from tests.shapes import cube, joined, moved, turned_inside_out, without_faces
from tests.waiting import LONG_MS
from viewer.scene.lenses import Lens
from viewer.window.stages import Stage

FAR_MM = np.array([0.0, 60.0, 120.0, 180.0, 240.0])


@pytest.fixture
def holed(opened):
    """Five cubes in a row, each lower and with a smaller hole in its top; one more inside out."""
    cubes = []
    for k, x_mm in enumerate(FAR_MM):
        high = cube(20.0 - 2.0 * k)
        hole = np.flatnonzero(high.face_normals[:, 2] > 0.9)
        cubes.append(moved(without_faces(high, hole), (x_mm, 0.0, 10.0 - k)))
    inverted = moved(turned_inside_out(cube(20.0)), (300.0, 0.0, 10.0))
    opened.show(joined(*cubes, inverted))
    opened.press_keys("Ctrl+1")
    return opened


def row_of(opened, kind="open_edges"):
    return next(r for r in opened.window.panels[Stage.CHECK].fault_box.rows if r.fault.kind == kind)


def looked_at(opened):
    """Where the camera looks when it has arrived, in the posed frame."""
    opened.qtbot.waitUntil(lambda: not opened.window.view.flying, timeout=LONG_MS)
    return np.array(opened.window.view.scene.camera_state()["focal_mm"])


def click(opened, row):
    """A click of the mouse on the words of a row."""
    label = row.findChildren(QLabel)[0]
    where = label.mapTo(opened.window, QPoint(12, 8))
    assert opened.window.childAt(where) is label
    QTest.mouseClick(opened.window.windowHandle(), Qt.MouseButton.LeftButton, pos=where)
    QApplication.processEvents()


def test_clicks_fly_from_place_to_place_and_say_which_it_is(holed):
    row = row_of(holed)
    assert len(row.fault.places) == 5
    assert not row.where.isVisible()
    places = []
    for k in range(5):
        click(holed, row)
        assert holed.window.choices.lens is Lens.FAULTS
        # The largest hole comes first; it lies at the top of its cube, 20 mm up, the next 18 mm.
        assert row.where.isVisible()
        assert row.where.text() == f"Place {k + 1} of 5, at {20.0 - 2.0 * k:.1f} mm"
        assert row.button.text() == ("Done" if k == 4 else "Next")
        places.append(looked_at(holed))
    # A place is on the loop of open edges, at most half a side from the middle of its cube.
    steps = np.diff(np.array(places)[:, 0])
    assert steps == pytest.approx(np.diff(FAR_MM), abs=10.0)
    for k, place in enumerate(places):
        at_mm = row.fault.places[k].point_mm
        posed = holed.window.view.scene.matrix @ np.append(at_mm, 1.0)
        assert place == pytest.approx(posed[:3], abs=1e-3)
    click(holed, row)
    assert not row.where.isVisible()
    assert row.button.text() == "Show"


def test_the_button_does_what_a_click_on_the_row_does(holed):
    row, told = row_of(holed), []
    holed.window.panels[Stage.CHECK].fault_chosen.connect(told.append)
    holed.press(row.button)
    click(holed, row)
    holed.press(row.button)
    assert row.where.text().startswith("Place 3 of 5")
    assert [len(sight.faces) for sight in told] == [4, 4, 4]  # the walls around a square hole
    assert len({face for sight in told for face in sight.faces}) == 12


def test_return_goes_on_and_arrows_change_the_fault(holed):
    rows = holed.window.panels[Stage.CHECK].fault_box.rows
    assert len(rows) > 1
    rows[0].setFocus(Qt.FocusReason.TabFocusReason)
    for row in rows:
        assert QApplication.focusWidget() is row
        for k in range(min(2, len(row.fault.places))):
            QTest.keyClick(row, Qt.Key.Key_Return)
            assert row.where.text().startswith(f"Place {k + 1} of {len(row.fault.places)}, at ")
            assert "Place" in row.accessibleName()
            assert QApplication.focusWidget() is row
        shown = [other for other in rows if other.where.text()]
        assert shown == [row]
        QTest.keyClick(row, Qt.Key.Key_Down)
    assert QApplication.focusWidget() is rows[-1]
    QTest.keyClick(rows[-1], Qt.Key.Key_Up)
    assert QApplication.focusWidget() is rows[-2]


def test_tab_goes_down_the_list_and_on_to_mending(holed):
    panel = holed.window.panels[Stage.CHECK]
    *_, last = rows = panel.fault_box.rows
    rows[0].setFocus(Qt.FocusReason.TabFocusReason)
    for row in rows:
        assert QApplication.focusWidget() is row
        QTest.keyClick(row, Qt.Key.Key_Tab)
    assert QApplication.focusWidget() is panel.mend_box.look
    QTest.keyClick(panel.mend_box.look, Qt.Key.Key_Backtab)
    assert QApplication.focusWidget() is last


def test_another_stage_puts_the_place_away(holed):
    row, told = row_of(holed), []
    holed.window.panels[Stage.CHECK].fault_chosen.connect(told.append)
    click(holed, row)
    holed.press_keys("Ctrl+2")
    assert told[-1] is None
    assert row.place is None


def test_the_legend_says_when_there_is_nothing_to_see(opened):
    opened.show(cube())
    opened.press_keys("5")
    assert opened.window.legends.legend().note == "Nothing is at fault."
    opened.show(without_faces(cube(), [0]))
    assert opened.window.legends.legend().note == ""
