"""A large part is dragged on a coarser surface, exact at rest; a vast one says what to expect."""

import numpy as np
import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest

from tests.shapes import torus
from tests.waiting import LONG_MS
from viewer.document.state import Part, State
from viewer.files.mesh_files import write_posed
from viewer.geometry import known_of_mesh
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.prepared_part import prepare_part
from viewer.scene.rings import ring_points
from viewer.window import coming_to_rest, file_work

RING = torus(2.0, 0.6, 160, 90)


@pytest.fixture
def ring_file(tmp_path, monkeypatch):
    monkeypatch.setattr(known_of_mesh, "LARGE_FACES", 10_000)
    monkeypatch.setattr(known_of_mesh, "MOVING_FACES", 2000)
    monkeypatch.setattr(coming_to_rest, "SLOW_FRAME_S", 0.0)
    path = tmp_path / "ring.stl"
    write_posed(State.of_part(Part("ring", RING)), path)
    return path


def open_it(opened, path) -> None:
    opened.window.open_path(path)
    opened.qtbot.waitUntil(lambda: opened.state.part is not None, timeout=LONG_MS)
    opened.settle()
    at_rest(opened)


def at_rest(opened) -> None:
    scene = opened.window.view.scene
    opened.qtbot.waitUntil(lambda: not scene._part.moving, timeout=LONG_MS)


def test_it_is_dragged_coarser_and_measured_exactly_at_rest(opened, ring_file):
    open_it(opened, ring_file)
    opened.press_keys("Ctrl+3")
    opened.settle()
    at_rest(opened)
    scene, canvas = opened.window.view.scene, opened.canvas
    rings = scene._rings
    rim = ring_points(0, rings.centre_mm, rings.radius_mm)
    places = [opened.place_of(rim[corner]) for corner in range(26, 35, 2)]
    opened.move(places[0])
    QTest.mousePress(canvas, Qt.MouseButton.LeftButton, pos=places[0])
    for place in places[1:]:
        opened.move(place, Qt.MouseButton.LeftButton)
        assert scene._part.moving
    QTest.qWait(2 * coming_to_rest.REST_MS)
    assert scene._part.moving  # held still, but held: it stays light to drag
    QTest.mouseRelease(canvas, Qt.MouseButton.LeftButton, pos=places[-1])
    turned = opened.state
    assert turned.pose.up != (0.0, 0.0, 1.0)
    opened.settle()
    at_rest(opened)
    shown = opened.window.live_measures.latest
    alone = measure_pose(
        prepare_part(turned.part.mesh), turned.face_classes, turned.pose, turned.settings, "full"
    )
    assert shown.tier == "full"
    assert shown.overhang_area_mm2 == alone.overhang_area_mm2
    assert len(shown.faces.touch_share) == RING.face_count


def test_with_a_quick_graphics_card_the_whole_part_is_dragged(opened, ring_file, monkeypatch):
    monkeypatch.setattr(coming_to_rest, "SLOW_FRAME_S", 60.0)
    open_it(opened, ring_file)
    opened.drag([QPoint(200, 200), QPoint(240, 230)], Qt.MouseButton.RightButton)
    opened.window.view._rest._frame_s = 0.01
    opened.drag([QPoint(200, 200), QPoint(240, 230)], Qt.MouseButton.RightButton)
    assert not opened.window.view.scene._part.moving


def test_a_vast_part_says_so_and_is_reduced_in_one_step(opened, ring_file, monkeypatch):
    monkeypatch.setattr(known_of_mesh, "VAST_FACES", 20_000)
    monkeypatch.setattr(known_of_mesh, "RESTING_FACES", 8000)
    monkeypatch.setattr(file_work, "REDUCED_FACES", 16_000)
    open_it(opened, ring_file)
    large = opened.window.large
    assert large.bar.isVisible()
    assert f"{RING.face_count:,} facets" in large.sentence.text()
    right = opened.state.part.mesh.corners_mm.mean(axis=1)[:, 0] > 0.5
    opened.document.set_classes(right.astype(np.uint8), "Mark")
    opened.settle()
    before = opened.state
    opened.press(large.reduce)
    opened.qtbot.waitUntil(lambda: opened.state.part is not before.part, timeout=LONG_MS)
    opened.settle()
    now = opened.state
    assert now.part.mesh.face_count <= 16_000
    assert now.part.received is before.part.mesh
    assert not large.bar.isVisible()
    share = [
        state.part.mesh.face_areas_mm2[state.face_classes > 0].sum()
        / state.part.mesh.face_areas_mm2.sum()
        for state in (before, now)
    ]
    assert share[1] == pytest.approx(share[0], abs=1e-3)
    opened.press_keys("Ctrl+Z")
    assert opened.state is before
    assert large.bar.isVisible()
    opened.press(large.leave)
    assert not large.bar.isVisible()


def test_what_cannot_be_reduced_stays_and_one_sentence_says_why(opened, ring_file, monkeypatch):
    monkeypatch.setattr(known_of_mesh, "VAST_FACES", 20_000)
    monkeypatch.setattr(file_work, "REDUCED_FACES", 12)
    open_it(opened, ring_file)
    before = opened.state
    opened.press(opened.window.large.reduce)
    notice = opened.window.notice
    opened.qtbot.waitUntil(lambda: bool(notice.sentence), timeout=LONG_MS)
    assert "cannot be reduced" in notice.sentence
    assert opened.state is before
    assert np.array_equal(opened.state.part.mesh.faces, before.part.mesh.faces)
