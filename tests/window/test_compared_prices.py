"""Time, money and the machine of poses side by side: in the table, in the panes, in pictures."""

from dataclasses import replace

import numpy as np
import pytest
from PySide6.QtCore import Qt

from tests.shapes import post_and_cap
from tests.waiting import LONG_MS
from viewer.shop.comparing import difference
from viewer.shop.shop_choice import ShopChoice

CHOICE = ShopChoice(machine="Two nozzles, side by side", pair="PLA with PVA")


@pytest.fixture(autouse=True)
def own_shop(tmp_path, monkeypatch):
    monkeypatch.setenv("SHOWSIDE_SHOP", str(tmp_path / "shop"))


def priced(opened):
    """Wait until the shop has told of every pane."""
    window = opened.window

    def known():
        assert not window.live_compare.pending
        assert all(one is not None for one in window.comparing._priced())

    opened.qtbot.waitUntil(known, timeout=LONG_MS)
    opened.draw()
    return [one.numbers for one in window.comparing._priced()]


def test_prices_stand_in_the_table_and_the_machine_in_panes_and_pictures(opened):
    mesh = post_and_cap()
    opened.show(mesh, np.ones(mesh.face_count, np.uint8), name="post and cap")
    opened.document.choose_shop(
        ShopChoice(machine="Two nozzles, side by side", pair="PLA with PVA")
    )
    for key in ("Ctrl+3", "K", "X"):
        opened.press_keys(key)
    opened.settle()
    opened.press_keys("C")
    first, second = priced(opened)
    comparing, table = opened.window.comparing, opened.window.compare_box.table
    rows = {row.key: row for row in comparing.rows()}
    assert [table.item(k, 0).text() for k in range(4)] == [
        "Time", "Cost", "Material", "Tool changes"
    ]  # fmt: skip
    told = difference(first.estimate, second.estimate)
    cell = rows["time_s"].cells[1]
    assert cell.verdict == ("worse" if told.time_s > 0 else "better")
    assert cell.difference[0] == ("+" if told.time_s > 0 else "−")
    assert rows["cost"].cells[0].unit == "EUR"
    changes = rows["tool_changes"].cells[1].difference.replace("−", "-").replace(",", "")
    assert int(changes) == told.tool_changes
    spoken = table.item(0, 2).data(Qt.ItemDataRole.AccessibleTextRole)
    assert spoken.startswith("Time, 2  Present pose: ")
    assert "standard error" not in spoken
    assert comparing.captions()[0].lines[-1].endswith("EUR")
    # The machine, as it is switched on.
    panes = opened.window.view.panes
    assert [len(scene.machine.corners_mm) for scene in panes.scenes] == [0, 0]
    assert {scene.platform_mm for scene in panes.scenes} == {
        first.chosen.machine.build_volume_mm[:2]
    }  # fmt: skip
    opened.press_keys("M")
    opened.draw()
    assert [len(scene.machine.corners_mm) for scene in panes.scenes] == [
        32,
        32,
    ]  # with what is purged
    shot = opened.window.pictures.shot()
    assert [len(pane.machine.boxes) for pane in shot.panes] == [4, 4]
    opened.document.choose_shop(replace(CHOICE, copies=2))
    twice, _ = priced(opened)
    assert twice.estimate.model_g.likely == pytest.approx(2 * first.estimate.model_g.likely)
    assert [scene.machine.copies_shown for scene in panes.scenes] == [True, True]
    opened.press_keys("C")
    assert not opened.window.shop.prices.pending
    (pane,) = opened.window.pictures.shot().panes
    assert len(pane.machine.boxes) == 4
