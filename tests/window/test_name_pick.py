"""Long names in the choices above the panes: no end is cut off, all is in the list and the tip."""

from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest

from tests.shapes import cube
from viewer.geometry.pose import Pose

LONG = "The pose that the client liked best of all when we spoke on Tuesday, collar down"
OTHER = "The pose that the client liked best of all when we spoke on Tuesday, collar up"


def test_long_names_lose_their_middle_and_the_list_shows_them_whole(opened):
    opened.show(cube())
    for name, up in ((LONG, (1.0, 0.0, 0.0)), (OTHER, (0.0, 1.0, 0.0))):
        opened.document.keep_pose(name, Pose(up))
    opened.press_keys("C")
    picks = [pick for pick in opened.window.compare_box.picks if pick.isVisible()]
    shown = [pick.shown_text() for pick in picks]
    assert picks[0].currentText() == LONG
    assert shown[0].endswith("down")
    assert shown[2].endswith("up")
    assert "…" in shown[0]
    metrics = picks[0].fontMetrics()
    for pick, text in zip(picks, shown, strict=True):
        assert metrics.horizontalAdvance(text) < pick.width() - 20
    QTest.mouseClick(picks[0], Qt.MouseButton.LeftButton, pos=QPoint(8, 8))
    view = picks[0].view()
    opened.qtbot.waitUntil(view.isVisible)
    assert view.viewport().width() >= metrics.horizontalAdvance(LONG)
    row = picks[0].findText(LONG)
    assert picks[0].itemData(row, Qt.ItemDataRole.ToolTipRole) == LONG
    picks[0].hidePopup()
    titles = opened.window.compare_box.table.horizontalHeaderItem(1)
    assert titles.text().endswith("down")
    assert titles.toolTip().endswith(LONG)
