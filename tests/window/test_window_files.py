"""Opening, saving, exporting and closing in the real window; nothing is lost on the way."""

import shutil
from pathlib import Path

import lib3mf
import numpy as np
import pytest
import trimesh
from PySide6.QtCore import QMimeData, QPointF, Qt, QUrl
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QPushButton
from shiboken6 import isValid

from tests.shapes import box, c_bracket, cube, without_faces
from tests.waiting import LONG_MS
from viewer.document.state import Part, State
from viewer.files.mesh_files import write_posed
from viewer.geometry.face_classes import CLASS_A, CLASS_B
from viewer.geometry.mesh import Mesh
from viewer.geometry.pose import Pose
from viewer.window.fault_box import FaultRow
from viewer.window.prompts import Unsaved
from viewer.window.recent_files import recent_files
from viewer.window.stages import Stage


def stl_of(mesh: Mesh, path):
    write_posed(State.of_part(Part("made", mesh)), path)
    return path


@pytest.fixture
def bracket_stl(tmp_path):
    return stl_of(c_bracket(), tmp_path / "bracket.stl")


def test_open_by_menu_key_and_dialog(opened, bracket_stl):
    opened.answers.path = bracket_stl
    opened.press_keys("Ctrl+O")
    opened.settle()
    assert opened.answers.asked == ["open"]
    assert opened.state.part.mesh.face_count == c_bracket().face_count
    assert opened.window.windowTitle().startswith("bracket")
    assert opened.window.choices.stage is Stage.CHECK
    assert opened.window.panels[Stage.CHECK]._verdict.text() == "✓ Sound"
    assert recent_files() == [bracket_stl.resolve()]
    assert not opened.document.modified


def test_a_bad_file_says_one_sentence_and_leaves_the_open_job(opened, tmp_path):
    opened.show(cube())
    opened.press_keys("Ctrl+2")
    opened.press_keys("X")
    state, label = opened.state, opened.document.undo_label
    bad = tmp_path / "cut off.stl"
    bad.write_bytes(b"\0" * 80 + (1000).to_bytes(4, "little") + b"\1" * 100)
    opened.answers.path = bad
    opened.press_keys("Ctrl+O")
    opened.qtbot.waitUntil(lambda: opened.window.notice.sentence != "", timeout=LONG_MS)
    assert opened.state is state
    assert opened.document.undo_label == label
    sentence = opened.window.notice.sentence
    assert "cut off.stl" in sentence
    assert sentence.endswith(".")
    assert not opened.window.busy.busy
    opened.press(opened.window.notice.dismiss)
    assert opened.window.notice.sentence == ""
    assert bad not in recent_files()


def test_save_and_reopen_bring_back_the_whole_job(opened, open_window, tmp_path):
    mesh = c_bracket()
    classes = np.zeros(mesh.face_count, np.uint8)
    classes[:4], classes[4:7] = CLASS_A, CLASS_B
    opened.show(mesh, classes, "bracket")
    opened.press_keys("X")
    opened.press_keys("P")
    opened.press_keys("Z")
    opened.window.panels[Stage.TURN].process["layer_mm"].setValue(0.3)
    opened.window.view.view_from("left")
    assert opened.window.isWindowModified()
    camera = opened.window.view.scene.camera_state()
    opened.answers.path = tmp_path / "bracket job.3mf"
    opened.press_keys("Ctrl+S")
    opened.qtbot.waitUntil(lambda: not opened.document.modified, timeout=LONG_MS)
    assert opened.answers.asked == ["save"]
    assert opened.document.job_path == opened.answers.path
    assert not opened.window.isWindowModified()
    before = opened.state
    again = open_window()
    again.window.open_last_job()
    again.settle()
    now = again.state
    assert np.array_equal(now.part.mesh.vertices_mm, before.part.mesh.vertices_mm)
    assert np.array_equal(now.part.mesh.faces, before.part.mesh.faces)
    assert np.array_equal(now.face_classes, classes)
    assert now.pose == before.pose
    assert (now.pinned_pose, now.settings) == (before.pinned_pose, before.settings)
    for key, value in again.window.view.scene.camera_state().items():
        assert value == pytest.approx(camera[key]), key
    assert again.document.job_path == opened.answers.path
    assert again.window.choices.stage is Stage.TURN


@pytest.mark.parametrize("keys", ["Ctrl+Shift+E", "Ctrl+Alt+E", "Ctrl+Alt+P"])
def test_exports_read_back_by_another_library(opened, tmp_path, keys):
    suffix = {"Ctrl+Shift+E": "stl", "Ctrl+Alt+E": "obj", "Ctrl+Alt+P": "ply"}[keys]
    mesh = box((0, 0, 0), (60, 20, 10))
    opened.show(mesh)
    opened.press_keys("Ctrl+5")
    opened.press_keys("Y")
    opened.answers.path = tmp_path / f"out.{suffix}"
    opened.press_keys(keys)
    opened.qtbot.waitUntil(lambda: opened.window.choices.handed_over is not None, timeout=LONG_MS)
    assert opened.answers.asked == [f"export {suffix}"]
    read = trimesh.load_mesh(opened.answers.path)
    assert len(read.faces) == mesh.face_count
    assert read.bounds == pytest.approx(np.array([[-5, -10, 0], [5, 10, 60]]), abs=1e-5)
    assert read.volume == pytest.approx(12_000)
    assert opened.window.stage_column.stages.rows[Stage.HAND_OVER].state_word == "done"
    opened.press_keys("X")
    assert opened.window.stage_column.stages.rows[Stage.HAND_OVER].state_word == "turned since"


def test_the_exported_3mf_keeps_classes_as_triangle_sets(opened, tmp_path):
    mesh = cube()
    classes = np.array([1, 1, 2] + [0] * (mesh.face_count - 3), np.uint8)
    opened.show(mesh, classes)
    opened.answers.path = tmp_path / "out.3mf"
    opened.press_keys("Ctrl+5")
    button = next(
        b for b in opened.window.findChildren(QPushButton) if b.text() == "3MF" and b.isVisible()
    )
    opened.press(button)
    opened.qtbot.waitUntil(lambda: opened.window.choices.handed_over is not None, timeout=LONG_MS)
    model = lib3mf.get_wrapper().CreateModel()
    model.QueryReader("3mf").ReadFromFile(str(opened.answers.path))
    objects = model.GetMeshObjects()
    assert objects.MoveNext()
    read = objects.GetCurrentMeshObject()
    sets = {
        read.GetTriangleSet(k).GetName(): sorted(read.GetTriangleSet(k).GetTriangleList())
        for k in range(read.GetTriangleSetCount())
    }
    assert sets == {"Class A": [0, 1], "Class B": [2]}
    assert not objects.MoveNext()


def test_a_folder_that_cannot_be_written_to_is_said_and_nothing_is_lost(opened, tmp_path):
    opened.show(cube())
    opened.press_keys("X")
    opened.answers.path = tmp_path / "no such folder" / "job.3mf"
    opened.press_keys("Ctrl+S")
    opened.qtbot.waitUntil(lambda: opened.window.notice.sentence != "", timeout=LONG_MS)
    assert opened.document.modified
    assert opened.document.job_path is None


def test_unsaved_changes_are_asked_about(opened, bracket_stl, tmp_path):
    opened.show(cube())
    opened.press_keys("X")
    state = opened.state
    opened.answers.unsaved = Unsaved.STAY
    opened.window.keeper.open_after_asking(bracket_stl)
    assert not opened.window.close()
    assert opened.answers.asked == ["unsaved", "unsaved"]
    assert opened.state is state
    opened.answers.unsaved = Unsaved.SAVE
    opened.answers.path = tmp_path / "kept.3mf"
    window = opened.window
    window.close()
    opened.qtbot.waitUntil(lambda: not isValid(window) or not window.isVisible(), timeout=LONG_MS)
    assert opened.answers.path.is_file()


def test_nothing_is_asked_when_nothing_changed(opened):
    opened.show(cube())
    opened.press_keys("X")
    opened.press_keys("Ctrl+Z")
    assert opened.document.state.pose == Pose()
    assert opened.window.close()
    assert opened.answers.asked == []


def drop(opened, *paths: Path) -> None:
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(path)) for path in paths])
    common = (Qt.DropAction.CopyAction, data, Qt.MouseButton.LeftButton)
    keys = Qt.KeyboardModifier.NoModifier
    window = opened.window
    enter = QDragEnterEvent(window.rect().center(), *common, keys)
    QApplication.sendEvent(window, enter)
    assert enter.isAccepted()
    QApplication.sendEvent(window, QDropEvent(QPointF(window.rect().center()), *common, keys))
    opened.settle()


def test_a_dropped_file_is_opened(opened, bracket_stl):
    drop(opened, bracket_stl)
    assert opened.state.part.file_name == "bracket.stl"
    assert not opened.canvas.acceptDrops()
    assert not opened.window.notice.isVisible()


def test_of_several_dropped_files_one_is_opened_and_named(opened, bracket_stl):
    """What cannot be opened, such as the colours that go with an OBJ, is passed over in silence."""
    other = bracket_stl.with_suffix(".mtl")
    other.write_text("newmtl plain")
    drop(opened, other, bracket_stl)
    assert opened.state.part.file_name == "bracket.stl"
    assert not opened.window.notice.isVisible()
    second = shutil.copy(bracket_stl, bracket_stl.with_name("second.stl"))
    drop(opened, second, bracket_stl)
    assert opened.state.part.file_name == "second.stl"
    assert "only second.stl was opened" in opened.window.notice.accessibleDescription()
    broken = bracket_stl.with_name("broken.stl")
    broken.write_bytes(b"")
    drop(opened, broken, bracket_stl)
    assert "broken.stl" in opened.window.notice.accessibleDescription()
    shutil.copy(bracket_stl, broken)  # mended, and opened by itself
    drop(opened, broken)
    assert opened.state.part.file_name == "broken.stl"
    assert not opened.window.notice.isVisible()


def test_a_long_job_can_be_cancelled_and_changes_nothing(opened):
    opened.show(cube())
    state = opened.state
    opened.window.actions.by_key["demo"].trigger()
    assert opened.window.busy.isVisible()
    opened.press(opened.window.busy.cancel_button)
    assert not opened.window.busy.isVisible()
    opened.qtbot.wait(500)
    assert opened.state is state


def test_recent_files_stand_in_the_menu(opened, bracket_stl):
    opened.window.open_path(bracket_stl)
    opened.settle()
    opened.show(cube())
    menu = opened.window.keeper._recent
    menu.aboutToShow.emit()
    (action,) = menu.actions()
    assert action.text() == "bracket.stl"
    action.trigger()
    opened.settle()
    assert opened.state.part.file_name == "bracket.stl"


def test_the_unit_question_is_answered_by_a_button_and_can_be_undone(opened, tmp_path):
    opened.window.open_path(stl_of(cube(0.05), tmp_path / "metres.stl"))
    opened.settle()
    assert opened.window.choices.stage is Stage.CHECK
    assert opened.state.part.unit_doubt
    assert opened.window.stage_column.stages.rows[Stage.CHECK].state_word == "needs a look"
    wanted = opened.state.part.suggested_unit
    assert wanted == "m"
    button = next(
        b for b in opened.window.panels[Stage.CHECK].findChildren(QPushButton)
        if b.text() == f"The numbers are in {wanted}"
    )  # fmt: skip
    opened.press(button)
    opened.settle()
    assert np.ptp(opened.state.part.mesh.box_mm, axis=0) == pytest.approx([50, 50, 50], rel=1e-5)
    assert not opened.state.part.unit_doubt
    assert opened.window.numbers.value_text("height_mm") == "50.0"
    opened.press_keys("Ctrl+Z")
    assert opened.state.part.unit_doubt


def test_faults_are_listed_with_heights_and_shown_on_the_part(opened):
    mesh = without_faces(box((0, 0, 0), (20, 20, 30)), [0])
    opened.show(mesh)
    panel = opened.window.panels[Stage.CHECK]
    opened.press_keys("Ctrl+1")
    assert panel._verdict.text() in ("! Printable with care", "✕ Will fail")
    rows = panel.findChildren(FaultRow)
    (holes,) = [row for row in rows if row.fault.kind == "open_edges"]
    assert holes.fault.count == 3  # check-values 31, CALC: one face deleted
    assert "open edges" in holes.findChild(QLabel).text()
    assert " mm" in holes.findChild(QLabel).text()
    told = []
    panel.fault_chosen.connect(told.append)
    opened.press(holes.button)
    assert np.array_equal(np.sort(told[-1].faces), holes.fault.faces)
    opened.press_keys("Ctrl+2")
    assert told[-1] is None
    assert holes.button.text() == "Show"


def test_the_demo_opens_marked_in_a_stage_with_something_to_see(opened):
    opened.window.open_demo()
    opened.qtbot.waitUntil(lambda: opened.state.part is not None, timeout=LONG_MS)
    opened.settle()
    assert {CLASS_A, CLASS_B} <= set(np.unique(opened.state.face_classes))
    assert opened.window.choices.stage is Stage.TURN
    assert float(opened.window.numbers.value_text("touch_area_mm2", "A").replace(",", "")) > 0
    assert opened.window.view.scene._rings.shown
    QTest.qWait(10)
