"""A risk is listed with its reason, and a click goes where it sits."""

import numpy as np
import pytest

from tests.shapes import cylinder, hanging_cone, of_solid
from tests.waiting import LONG_MS
from tests.window.test_shop_column import own_shop, told  # noqa: F401


def test_a_tall_thin_part_is_cut_open_where_it_tips(opened):
    """CALC: a cylinder of 6 mm and 120 mm tips at atan(3/60) = 2.9°, below 10°: at its top."""
    opened.show(cylinder(3.0, 120.0))
    opened.press_keys("F3")
    numbers = told(opened)
    box = opened.window.shop.column.risks
    assert len(box.buttons) == len(numbers.risks)
    kinds = [risk.kind for risk in numbers.risks]
    place = kinds.index("tip_over")
    risk = numbers.risks[place]
    assert risk.serious
    assert risk.reason in box.buttons[place].accessibleName()
    assert box.buttons[place].text().startswith("!! ")
    opened.press(box.buttons[place])
    cut_mm = opened.window.view.scene.cut_height_mm
    assert cut_mm == pytest.approx(risk.from_mm, abs=0.5)


def test_an_island_is_flown_to(opened):
    opened.show(of_solid(hanging_cone()))
    opened.press_keys("F3")
    numbers = told(opened)
    placed = [k for k, risk in enumerate(numbers.risks) if risk.place_mm is not None]
    assert placed
    box, scene = opened.window.shop.column.risks, opened.window.view.scene
    before = np.array(scene.camera_state()["focal_mm"])
    opened.press(box.buttons[placed[0]])
    opened.qtbot.waitUntil(
        lambda: not np.allclose(scene.camera_state()["focal_mm"], before), timeout=LONG_MS
    )
    pose, place = scene.matrix, np.array(numbers.risks[placed[0]].place_mm)
    wanted = pose[:3, :3] @ place + pose[:3, 3]
    opened.qtbot.waitUntil(
        lambda: np.allclose(scene.camera_state()["focal_mm"], wanted, atol=0.1),
        timeout=LONG_MS,
    )
