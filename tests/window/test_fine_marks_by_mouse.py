"""Marks finer than the triangles, by mouse: round on a box of 12 facets, undone, kept, exported."""

import numpy as np
import pytest
import trimesh
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from tests.shapes import cube
from viewer.files.mesh_files import read_part
from viewer.geometry.face_classes import CLASS_A, CLASS_B
from viewer.geometry.mesh import Mesh
from viewer.window.stages import Stage


def judge(mesh: Mesh) -> trimesh.Trimesh:
    """The mesh as an independent library sees it, vertices as they are."""
    return trimesh.Trimesh(mesh.vertices_mm, mesh.faces, process=False)


@pytest.fixture
def coarse(opened):
    """A cube of 12 facets in the Mark stage, with a brush of 5 mm."""
    opened.show(cube(20.0))
    opened.press_keys("Ctrl+2")
    opened.window.choices.set_mark(brush_mm=5.0)
    return opened


def dab(opened, x=1.0, y=2.0) -> None:
    """Click on the top of the cube, which lies at z = 20 in the posed frame."""
    opened.click(opened.place_of((x, y, 20.0)))


def test_one_click_on_12_facets_leaves_a_round_mark(coarse):
    start = coarse.state
    dab(coarse)
    state = coarse.state
    mesh, marked = state.part.mesh, state.face_classes == CLASS_A
    # CALC: a disc of 5 mm radius, pi · 25 = 78.54 mm²
    assert mesh.face_areas_mm2[marked].sum() == pytest.approx(25 * np.pi, rel=0.02)
    seen = judge(mesh)
    assert seen.is_watertight
    assert seen.is_winding_consistent
    assert seen.volume == pytest.approx(8000.0, rel=1e-9)
    middle = mesh.corners_mm[marked].mean(axis=(0, 1))
    far = np.linalg.norm(mesh.corners_mm[marked] - middle, axis=2).max()
    assert far == pytest.approx(5.0, abs=0.4)  # an edge at the rim is at most 5/16 mm
    # Bisection of the two right isosceles triangles of a side leaves right isosceles triangles.
    assert np.degrees(seen.face_angles.min()) == pytest.approx(45.0)
    assert mesh.face_count < 4000
    assert coarse.document.undo_label == "Paint class A"
    coarse.press_keys("Ctrl+Z")
    assert coarse.state.part is start.part
    assert coarse.state.part.mesh.face_count == 12
    assert not coarse.document.modified
    coarse.press_keys("Ctrl+Shift+Z")
    again = coarse.state
    assert np.array_equal(again.part.mesh.vertices_mm, mesh.vertices_mm)
    assert np.array_equal(again.part.mesh.faces, mesh.faces)
    assert np.array_equal(again.part.base_face, state.part.base_face)
    assert np.array_equal(again.face_classes, state.face_classes)


def test_numbers_and_check_are_of_the_same_surface(coarse):
    report = coarse.window.live_check.latest
    dab(coarse)
    assert coarse.window.numbers.pending
    coarse.settle()
    assert coarse.window.live_check.latest is report  # cutting finer changes no fault
    measures = coarse.window.live_measures.latest
    platform = measures.platform_contact_mm2
    assert platform.total == pytest.approx(400.0)
    panel = coarse.window.panels[Stage.MARK]
    shown = float(panel._areas["A"].text().split()[0])
    assert shown == pytest.approx(25 * np.pi, rel=0.02)
    assert "12 faces" in coarse.window.panels[Stage.CHECK]._facts.text()


def test_erasing_is_as_fine_as_marking(coarse):
    dab(coarse)
    coarse.press_keys("E")
    coarse.window.choices.set_mark(brush_mm=2.0)
    dab(coarse)
    state = coarse.state
    left = state.part.mesh.face_areas_mm2[state.face_classes == CLASS_A].sum()
    assert left == pytest.approx((25 - 4) * np.pi, rel=0.02)  # CALC: a ring
    assert judge(state.part.mesh).is_watertight
    coarse.press_keys("Ctrl+Z")
    coarse.press_keys("Ctrl+Z")
    assert coarse.state.part.mesh.face_count == 12


def test_picking_meets_the_pieces(coarse):
    dab(coarse)
    scene, mesh = coarse.window.view.scene, coarse.state.part.mesh
    rng = np.random.default_rng(2)
    for x, y in rng.uniform(-9, 9, (40, 2)):
        face, point = scene.pick(np.array([x, y, 100.0]), np.array([0.0, 0.0, -1.0]))
        assert np.allclose(point, (x, y, 10.0), atol=1e-5)
        shares = trimesh.triangles.points_to_barycentric(mesh.corners_mm[[face]], point[None])
        assert shares.min() > -1e-5
    assert scene.pick(np.array([50.0, 0.0, 100.0]), np.array([0.0, 0.0, -1.0])) is None


def test_no_ray_slips_through_between_two_triangles(coarse):
    scene = coarse.window.view.scene
    rng = np.random.default_rng(4)
    for way in rng.normal(size=(300, 3)) * [1, 1, 0.3] - [0, 0, 1.5]:
        along = rng.uniform(-9.9, 9.9)
        on_diagonal = np.array([along, along * rng.choice([-1, 1]), 20.0])  # in the posed frame
        _, point = scene.pick(on_diagonal - 30.0 * way, way)
        assert np.allclose(point, on_diagonal - [0, 0, 10.0], atol=0.01)


def test_a_stroke_over_the_edge_goes_round_it(coarse):
    coarse.window.choices.set_mark(brush_mm=1.5)
    coarse.press_keys("B")
    front = coarse.place_of((0.0, -10.0, 15.0))
    coarse.drag([coarse.place_of((0.0, -4.0, 20.0)), coarse.place_of((0.0, -10.0, 20.0)), front])
    state = coarse.state
    mesh = state.part.mesh
    marked = state.face_classes == CLASS_B
    normals = mesh.face_normals[marked]
    areas = mesh.face_areas_mm2[marked]
    top, ahead = areas[normals[:, 2] > 0.9].sum(), areas[normals[:, 1] < -0.9].sum()
    half_end = 0.5 * np.pi * 1.5**2
    # CALC: 6 mm on the top and 5 mm on the front, 3 mm wide, each with a round end
    assert top == pytest.approx(6 * 3 + half_end, rel=0.04)
    assert ahead == pytest.approx(5 * 3 + half_end, rel=0.04)
    assert judge(mesh).is_watertight
    assert coarse.document.undo_label == "Paint class B"


def test_undo_waits_for_the_end_of_a_stroke(coarse):
    place = coarse.place_of((0.0, 0.0, 20.0))
    coarse.move(place)
    QTest.mousePress(coarse.canvas, Qt.MouseButton.LeftButton, pos=place)
    coarse.press_keys("Ctrl+Z")  # nothing to undo, and not while a stroke is under way
    QTest.mouseRelease(coarse.canvas, Qt.MouseButton.LeftButton, pos=place)
    assert (coarse.state.face_classes == CLASS_A).any()
    assert not coarse.window.view.scene._stroke._count


def test_a_saved_job_opens_the_same(coarse, tmp_path):
    dab(coarse)
    coarse.press_keys("B")
    coarse.window.choices.set_mark(brush_mm=2.0)
    dab(coarse, 5.0, 5.0)
    saved = coarse.state
    coarse.answers.path = tmp_path / "cube-job.3mf"
    coarse.press_keys("Ctrl+S")
    coarse.settle()
    coarse.answers.path = tmp_path / "cube-job.3mf"
    coarse.press_keys("Ctrl+O")
    coarse.settle()
    state = coarse.state
    assert state is not saved
    for one, other in ((state.part.mesh, saved.part.mesh), (state.part.base, saved.part.base)):
        assert np.array_equal(one.vertices_mm, other.vertices_mm)
        assert np.array_equal(one.faces, other.faces)
    assert np.array_equal(state.part.base_face, saved.part.base_face)
    assert np.array_equal(state.face_classes, saved.face_classes)
    assert not coarse.document.modified
    coarse.press_keys("Ctrl+2")
    coarse.press_keys("E")
    coarse.window.choices.set_mark(brush_mm=9.0)
    dab(coarse)
    assert not coarse.state.face_classes.any()


def test_the_files_own_triangles_are_written_unless_the_user_wants_the_finer_ones(coarse, tmp_path):
    coarse.window.choices.set_mark(brush_mm=9.0)
    dab(coarse, 3.0, 3.0)
    fine = coarse.state
    coarse.press_keys("Ctrl+5")
    panel = coarse.window.panels[Stage.HAND_OVER]
    assert panel._own_triangles.isChecked()
    assert "12 triangles are written" in panel._written.text()
    coarse.answers.path = tmp_path / "own.3mf"
    coarse.press_keys("Ctrl+E")
    coarse.settle()
    own = read_part(tmp_path / "own.3mf")
    assert own.part.mesh.face_count == 12
    assert np.array_equal(own.face_classes, fine.on_file_triangles().face_classes)
    # CALC: a disc of 9 mm about (3, 3) covers more of the half it lies in than it leaves
    assert np.count_nonzero(own.face_classes == CLASS_A) >= 1
    coarse.press(panel._own_triangles)
    assert not coarse.window.choices.own_triangles
    assert not coarse.window.actions.by_key["own_triangles"].isChecked()
    coarse.answers.path = tmp_path / "fine.stl"
    coarse.press_keys("Ctrl+Shift+E")
    coarse.settle()
    written = read_part(tmp_path / "fine.stl").part.mesh
    assert written.face_count == fine.part.mesh.face_count
    assert judge(written).is_watertight
    coarse.press_keys("Ctrl+Alt+T")
    assert panel._own_triangles.isChecked()
