"""The lens Printed look in the window: by key, bar, menu and finder; its legend follows the job."""

from dataclasses import replace

import numpy as np
import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QMenu, QToolButton

from tests.shapes import cube, wedge
from viewer.scene.lenses import Lens
from viewer.scene.off_screen import drawn
from viewer.scene.palettes import PRINT_MATERIAL
from viewer.window.lens_bar import LensBar


def by_key(opened) -> None:
    opened.press_keys("7")


def by_bar(opened) -> None:
    bar = opened.window.findChild(LensBar)
    named = [b for b in bar.findChildren(QToolButton) if b.accessibleName() == "Lens Printed look"]
    assert len(named) == 1
    assert named[0].text() == "Printed look"
    assert "marks of supports" in named[0].toolTip()
    assert not named[0].visibleRegion().isEmpty()
    QTest.mouseClick(named[0], Qt.MouseButton.LeftButton)


def by_menu(opened) -> None:
    menus = [a.menu() for a in opened.window.menuBar().actions()]
    view = next(m for m in menus if isinstance(m, QMenu) and m.title() == "&View")
    next(a for a in view.actions() if a.text() == "Printed look").trigger()


@pytest.mark.parametrize("way", [by_key, by_bar, by_menu])
def test_the_lens_is_reached_and_its_legend_follows_the_settings(opened, way):
    opened.show(wedge(10.0))
    window = opened.window
    before = opened.canvas.grab().toImage()
    way(opened)
    assert window.choices.lens is Lens.PRINTED
    assert window.actions.by_key["lens_printed"].isChecked()
    spoken = window.legend.accessibleName()
    for words in ("Printed look", "layers of 0.2 mm", "terraces", "supports taken off", "rough"):
        assert words in spoken
    opened.draw()
    assert opened.canvas.grab().toImage() != before
    settings = replace(opened.state.settings, layer_mm=0.3)
    opened.document.set_settings(settings)
    assert "layers of 0.3 mm" in window.legend.accessibleName()
    opened.settle()


def test_the_colour_of_the_print_is_chosen_shown_and_remembered(opened, open_window):
    opened.show(cube())
    opened.answers.colour = None
    opened.press_keys("Ctrl+Alt+C")
    assert opened.window.choices.print_colour == PRINT_MATERIAL  # a change of mind
    opened.answers.colour = QColor("#c83214")
    opened.press_keys("Ctrl+Alt+C")
    assert opened.window.choices.lens is Lens.PRINTED
    assert opened.window.legends.legend().entries[0].colour == pytest.approx(
        np.array([0xC8, 0x32, 0x14]) / 255, abs=1e-4
    )
    opened.draw()
    picture = drawn(opened.canvas.render_window).astype(float)
    red = (picture[..., 0] > 2.5 * picture[..., 1]) & (picture[..., 0] > 60)
    assert red.sum() > 5_000
    assert opened.window.pictures.shot().print_colour == opened.window.choices.print_colour
    again = open_window()
    assert again.window.choices.print_colour == opened.window.choices.print_colour
