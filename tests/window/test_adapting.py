"""Adaptive layers as a what-if beside the map, and as a table from the stage Hand over."""

import csv

import numpy as np
import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from tests import shapes
from tests.waiting import LONG_MS
from viewer.geometry.adaptive_layers import adapt_layers
from viewer.geometry.prepared_part import prepare_part
from viewer.window.stages import Stage


@pytest.fixture
def cone(opened):
    mesh = shapes.cone(15.0, 30.0)
    opened.show(mesh, np.ones(mesh.face_count, np.uint8), "cone")
    opened.press_keys("Ctrl+3")
    opened.press_keys("Shift+D")
    opened.window.direction_pane.tabs.setCurrentIndex(2)
    QApplication.processEvents()
    return opened


def direct(opened, cusp_mm=0.05):
    state = opened.state
    part = prepare_part(state.part.mesh)
    return adapt_layers(part, state.face_classes, state.pose.up, state.settings, cusp_mm)


def told(opened):
    live = opened.window.adapting.live
    opened.qtbot.waitUntil(lambda: live.latest is not None, timeout=LONG_MS)
    return opened.window.adapting.box.words.text()


def test_the_page_says_what_it_would_be_and_follows_pose_and_limits(cone):
    words = told(cone)
    expected = direct(cone)
    assert f"{expected.optimal.count} layers" in words
    assert f"{expected.even.count} layers" in words
    field = cone.window.adapting.box.cusp
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, "0.1")
    QTest.keyClick(field, Qt.Key.Key_Return)
    words = told(cone)
    looser = direct(cone, 0.1)
    assert looser.optimal.count < expected.optimal.count
    assert f"{looser.optimal.count} layers" in words
    cone.press_keys("X")
    assert cone.window.adapting.live.latest is None
    assert told(cone) != words


def test_heights_that_make_no_sense_are_refused_in_the_page(cone):
    told(cone)
    field = cone.window.adapting.box.thinnest
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, "1.0")
    QTest.keyClick(field, Qt.Key.Key_Return)
    box = cone.window.adapting.box
    cone.qtbot.waitUntil(lambda: "thinnest layer must be" in box.words.text(), timeout=LONG_MS)


def test_nothing_is_worked_out_while_nobody_looks(opened):
    opened.show(shapes.cone(15.0, 30.0), name="cone")
    assert opened.window.adapting.live.latest is None


def test_the_table_is_written_from_hand_over_by_its_key(opened, tmp_path):
    mesh = shapes.cone(15.0, 30.0)
    opened.show(mesh, np.ones(mesh.face_count, np.uint8), "cone")
    opened.window.choices.set_stage(Stage.HAND_OVER)
    opened.answers.path = tmp_path / "layers.csv"
    opened.press_keys("Ctrl+Alt+A")
    opened.qtbot.waitUntil((tmp_path / "layers.csv").exists, timeout=LONG_MS)
    opened.settle()
    with (tmp_path / "layers.csv").open(newline="") as stream:
        rows = list(csv.DictReader(stream))
    assert sum(int(row["layers"]) for row in rows) == direct(opened).optimal.count
    assert opened.answers.asked[-1] == "table cone-adaptive-layers.csv"
