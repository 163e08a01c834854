"""The lens Deviation in the window: asked for only when looked at, right after undo and redo."""

import numpy as np
import pytest

from tests.shapes import cube, sphere, without_faces
from tests.waiting import LONG_MS
from viewer.document.state import Part, State
from viewer.geometry.mend.re_skin import re_skin
from viewer.geometry.mend.steps import step_named, take
from viewer.scene import palettes
from viewer.scene.lenses import Lens


def open_ball(opened) -> None:
    ball = sphere(20.0, 3)
    top = np.flatnonzero(ball.corners_mm[:, :, 2].mean(axis=1) > 15.0)
    opened.show(without_faces(ball, top))


def mend(opened, mended) -> None:
    opened.document.replace_part(opened.state.mended(mended), "Lay a new skin")


def known(opened):
    live = opened.window.live_deviation
    opened.qtbot.waitUntil(lambda: live.latest is not None, timeout=LONG_MS)
    opened.settle()
    return live.latest


def dark_share(opened) -> float:
    """Share of the canvas in the colour of what lies more than a road off."""
    opened.draw()
    image = opened.canvas.grab().toImage()
    rows = [
        image.pixelColor(x, y).getRgbF()[:3]
        for x in range(0, image.width(), 6)
        for y in range(0, image.height(), 6)
    ]
    top = palettes.deviation_table()[-1]
    return float((np.abs(np.array(rows) - top).max(axis=1) < 0.08).mean())


def test_a_new_skin_is_compared_when_its_lens_is_chosen(opened):
    open_ball(opened)
    window, live = opened.window, opened.window.live_deviation
    mend(opened, re_skin(opened.state.part.mesh, 1.0))
    opened.settle()
    assert live.latest is None  # nobody looks
    opened.press_keys("6")
    assert window.choices.lens is Lens.DEVIATION
    found = known(opened)
    # The lid is flat, 15 to 16 mm up: from its middle it is 12 to 13.2 mm to the rim (CALC).
    assert 12.0 < found.new.max_mm < 13.3
    assert found.old.max_mm < 1.0
    assert f"At most {found.new.max_mm:.2g} mm off" in window.legend.accessibleName()
    window.view.scene.set_view_direction("top")
    assert dark_share(opened) > 0.05


def test_undo_takes_the_comparison_back_and_redo_brings_it(opened):
    open_ball(opened)
    mesh = opened.state.part.mesh
    opened.window.choices.set_lens(Lens.DEVIATION)
    assert "Nothing was mended" in opened.window.legend.accessibleName()
    mend(opened, take(step_named("fill-holes", mesh), mesh))
    first = known(opened).max_mm
    opened.document.undo()
    opened.settle()
    assert opened.state.part.received is None
    assert opened.window.live_deviation.latest is None
    assert "Nothing was mended" in opened.window.legend.accessibleName()
    opened.window.view.scene.set_view_direction("top")
    assert dark_share(opened) == 0.0
    opened.document.redo()
    assert known(opened).max_mm == pytest.approx(first)
    assert opened.state.part.received is mesh


def test_another_lens_stops_the_question_and_another_part_forgets(opened):
    open_ball(opened)
    mend(opened, re_skin(opened.state.part.mesh, 1.0))
    opened.window.choices.set_lens(Lens.DEVIATION)
    opened.window.choices.set_lens(Lens.CLASSES)
    assert opened.window.live_deviation._job is None
    opened.window.choices.set_lens(Lens.DEVIATION)
    known(opened)
    opened.document.open(State.of_part(Part("cube", cube())))
    assert opened.window.live_deviation.latest is None
    opened.settle()
    assert "Nothing was mended" in opened.window.legend.accessibleName()
