"""A newer version of the client's file, by menu: marks carried over, what is new outlined, undo."""

import numpy as np
import pytest
from scipy.spatial import cKDTree

from tests.shapes import box, joined
from tests.waiting import LONG_MS
from viewer.document.state import Part, State
from viewer.files.posed_files import EXPORT_SUFFIXES, write_posed
from viewer.geometry.face_classes import CLASS_A
from viewer.geometry.pose import Pose, posed_vertices_mm
from viewer.window.stages import Stage


def written(mesh, path):
    """A file of a mesh; writing puts its lowest corner at 0 and its middle over the origin."""
    assert path.suffix in EXPORT_SUFFIXES.values()
    write_posed(State.of_part(Part("newer", mesh)), path)
    return path


def outlined(opened) -> bool:
    return bool(opened.window.view.scene._hover._lines["new"].GetVisibility())


def test_marks_go_over_and_what_is_new_is_told_and_outlined(opened, tmp_path):
    plate = box((-30, -20, 0), (30, 20, 10))
    newer = joined(plate, box((10, -8, 9.5), (20, 4, 18)))
    opened.show(plate, np.full(12, CLASS_A, np.uint8))
    opened.document.keep_pose("flat")
    before = opened.state
    opened.answers.path = written(newer, tmp_path / "newer.stl")
    opened.press_keys("Ctrl+Shift+O")
    opened.qtbot.waitUntil(lambda: opened.state.part is not before.part, timeout=LONG_MS)
    state, window = opened.state, opened.window
    assert window.choices.stage is Stage.MARK
    assert state.kept_poses == before.kept_poses
    assert state.pose == before.pose
    areas = state.part.mesh.face_areas_mm2
    marked = areas[state.face_classes == CLASS_A].sum()
    assert marked == pytest.approx(plate.face_areas_mm2.sum(), rel=0.01)
    assert state.part.file_mesh.face_count == 24
    assert "were carried over" in window.notice.sentence
    assert "New, so left unmarked" in window.notice.sentence
    window.notice.hide()
    opened.settle()
    panel = window.panels[Stage.MARK]
    # CALC: the knob's top, sides and bottom
    shown = float(panel._new.text().split(" mm²")[0].split()[-1].replace(",", ""))
    assert shown == pytest.approx(2 * 120 + 44 * 8.5, rel=0.06)
    assert outlined(opened)
    opened.press(panel._outline_new)
    assert not outlined(opened)
    opened.press_keys("Alt+N")
    assert outlined(opened)
    assert opened.document.undo_label == "Open a newer version"
    opened.press_keys("Ctrl+Z")
    assert opened.state.part is before.part
    assert opened.state.face_classes is before.face_classes
    assert not outlined(opened)
    assert not panel._new.isVisible()
    opened.press_keys("Ctrl+Shift+Z")
    assert opened.state.part is state.part
    assert outlined(opened)


def test_a_newer_file_that_lies_turned_stands_as_the_part_stood(opened, tmp_path):
    part = joined(box((0, 0, 0), (60, 40, 10)), box((45, 5, 9.5), (56, 12, 30)))
    top = part.corners_mm[..., 2].min(axis=1) == 10.0
    opened.show(part, np.where(top, CLASS_A, 0).astype(np.uint8))
    opened.document.turn(Pose((0.0, 0.6, 0.8), 30.0))
    opened.document.keep_pose("aslant")
    opened.document.turn(Pose((0.0, 0.0, 1.0), 15.0))
    before = opened.state
    lying = State.of_part(Part("newer", part), pose=Pose((1.0, 0.0, 0.0), 0.0))
    write_posed(lying, tmp_path / "turned.stl")
    opened.answers.path = tmp_path / "turned.stl"
    opened.press_keys("Ctrl+Shift+O")
    opened.qtbot.waitUntil(lambda: opened.state.part is not before.part, timeout=LONG_MS)
    state, window = opened.state, opened.window
    assert "lies otherwise in its coordinates: turned by 90.0°, shifted by" in (
        window.notice.sentence
    )
    window.notice.hide()
    # It stands on the platform as it stood, in every pose: each of its vertices in its place.
    mesh = state.part.file_mesh
    poses = [(before.pose, state.pose), (before.kept_poses[0].pose, state.kept_poses[0].pose)]
    for old_pose, new_pose in poses:
        old = posed_vertices_mm(part.vertices_mm, old_pose)
        new = posed_vertices_mm(mesh.vertices_mm, new_pose)
        apart, _ = cKDTree(new).query(old)
        assert apart.max() < 1e-4  # single precision of the file
    marked = state.part.mesh.face_areas_mm2[state.face_classes == CLASS_A].sum()
    assert marked == pytest.approx(60 * 40, rel=0.01)
    opened.press_keys("Ctrl+Z")
    assert opened.state.pose == before.pose
    assert opened.state.part is before.part
    assert opened.state.kept_poses == before.kept_poses


def test_a_file_that_cannot_be_read_changes_nothing(opened, tmp_path):
    opened.show(box((0, 0, 0), (20, 20, 20)))
    before = opened.state
    (tmp_path / "broken.stl").write_bytes(b"solid nothing")
    opened.answers.path = tmp_path / "broken.stl"
    opened.press_keys("Ctrl+Shift+O")
    opened.qtbot.waitUntil(lambda: bool(opened.window.notice.sentence), timeout=LONG_MS)
    assert opened.state is before
    assert not opened.document.undo_label
    opened.window.notice.hide()
