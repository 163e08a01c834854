"""A part from CAD in the real window: its faces as patches, its triangles made anew."""

import multiprocessing

import numpy as np
import pytest

from tests.files.made_cad import cylinder, rounded_boxes, write_step
from tests.shapes import cube, sphere
from tests.waiting import LONG_MS
from viewer.document.state import Part, State
from viewer.geometry.face_classes import CLASS_A, CLASS_B
from viewer.window.stages import Stage


@pytest.fixture
def cad(opened, tmp_path):
    """A cylinder of radius 10 and height 20 as a STEP file, opened."""
    path = tmp_path / "peg.step"
    write_step(path, cylinder(10.0, 20.0))
    opened.window.open_path(path)
    opened.qtbot.waitUntil(lambda: opened.state.part is not None, timeout=LONG_MS)
    opened.settle()
    return opened


def test_a_click_marks_one_face_of_the_cad_model_and_finer_triangles_keep_the_mark(cad):
    cad.press_keys("G")
    assert cad.window.choices.stage is Stage.MARK
    cad.press_keys("A")
    cad.click(cad.place_of((0.0, 0.0, 20.0)))
    part = cad.state.part
    top = part.mesh.face_normals[:, 2] > 0.99
    assert np.array_equal(cad.state.face_classes == CLASS_A, top)
    assert len(np.unique(part.patch_of_face[top])) == 1
    cad.press_keys("Ctrl+1")
    box = cad.window.panels[Stage.CHECK]._cad
    assert box.isVisible()
    assert box._chord.value() == pytest.approx(0.05)
    box._chord.setValue(0.002)
    before = part.mesh.face_count
    cad.press(box._button)
    cad.qtbot.waitUntil(lambda: cad.state.part is not part, timeout=LONG_MS)
    cad.settle()
    mesh = cad.state.part.mesh
    assert mesh.face_count > 2 * before
    assert np.array_equal(cad.state.face_classes == CLASS_A, mesh.face_normals[:, 2] > 0.99)
    assert cad.document.undo_label == "Make the triangles anew"
    cad.press_keys("Ctrl+Z")
    assert cad.state.part is part


def test_a_mark_finer_than_triangles_stays_as_fine_when_they_are_made_anew(cad):
    cad.press_keys("Ctrl+2")
    cad.window.choices.set_mark(brush_mm=4.0)
    cad.click(cad.place_of((1.0, 2.0, 20.0)))
    before = cad.state
    areas = before.part.mesh.face_areas_mm2
    marked = areas[before.face_classes == CLASS_A].sum()
    assert marked == pytest.approx(16 * np.pi, rel=0.02)  # CALC: a disc of 4 mm
    cad.window.files.split_anew(0.002, 0.0)
    cad.qtbot.waitUntil(lambda: cad.state.part is not before.part, timeout=LONG_MS)
    state = cad.state
    areas = state.part.mesh.face_areas_mm2
    assert areas[state.face_classes == CLASS_A].sum() == pytest.approx(marked, rel=0.02)
    assert state.part.file_mesh.face_count != before.part.file_mesh.face_count
    cad.settle()


def test_parts_without_exact_surfaces_have_no_such_box(opened):
    opened.show(cube())
    assert not opened.window.panels[Stage.CHECK]._cad.isVisible()


def test_a_patch_ends_where_the_cad_face_does_even_where_the_surface_is_smooth(opened):
    ball = sphere(10.0, 5)
    middles = ball.corners_mm.mean(axis=1)
    halves = (middles[:, 0] > 0.0).astype(np.int32)  # two CAD faces that meet without a crease
    opened.document.open(State.of_part(Part("ball", ball, patch_of_face=halves)))
    opened.settle()
    opened.press_keys("G")
    opened.press_keys("A")
    opened.click(opened.place_of((3.0, -2.0, 19.2)))
    assert np.array_equal(opened.state.face_classes == CLASS_A, halves == 1)
    opened.press_keys("D")  # a brush over the seam cuts faces, whose pieces stay in their patch
    opened.window.choices.set_mark(brush_mm=1.5)
    opened.press_keys("E")
    opened.click(opened.place_of((0.0, 0.0, 20.0)))
    part = opened.state.part
    assert part.mesh.face_count > ball.face_count
    opened.press_keys("G")
    opened.press_keys("B")
    opened.click(opened.place_of((-3.0, -2.0, 19.2)))
    left = part.mesh.corners_mm.mean(axis=1)[:, 0] < 0.0
    assert np.array_equal(opened.state.face_classes == CLASS_B, part.patch_of_face == 0)
    areas = part.mesh.face_areas_mm2
    assert areas[left != (part.patch_of_face == 0)].sum() < 0.02 * areas.sum()


@pytest.fixture(scope="module")
def large_step(tmp_path_factory):
    """A STEP file of 50 solids, at which the CAD kernel is busy for some seconds."""
    path = tmp_path_factory.mktemp("cad") / "boxes.step"
    return write_step(path, rounded_boxes(50))


@pytest.mark.parametrize("way", ["Esc", "button"])
@pytest.mark.parametrize("at", ["Loading the CAD kernel", "Reading the CAD file", "Splitting"])
def test_opening_a_large_step_file_is_cancelled_wherever_it_is(opened, large_step, way, at):
    opened.show(cube(20.0))
    state, busy = opened.state, opened.window.busy
    opened.window.open_path(large_step)
    opened.qtbot.waitUntil(lambda: busy._doing.text().startswith(at), timeout=LONG_MS)
    assert busy.cancel_button.isVisible()
    if way == "Esc":
        opened.press_keys("Esc")
    else:
        opened.press(busy.cancel_button)
    assert not busy.busy  # at once, whatever the kernel is doing
    assert not busy.isVisible()
    opened.qtbot.waitUntil(lambda: not multiprocessing.active_children(), timeout=LONG_MS)
    opened.qtbot.wait(100)
    assert opened.state is state
    assert not opened.window.notice.sentence
    opened.press_keys("Ctrl+3")
    opened.press_keys("X")
    opened.settle()
    assert opened.state.pose != state.pose  # the old part is worked on as before


def test_a_large_step_file_tells_how_many_solids_it_holds(opened, large_step):
    opened.window.open_path(large_step)
    opened.qtbot.waitUntil(lambda: opened.state.part is not None, timeout=LONG_MS)
    opened.settle()
    # CALC: a box less its edges' and corners' sharp rests, 1 mm round (Steiner): the box within,
    # 8·6·4, its sides 1 mm out, its edges' quarters of cylinders, and one ball of its corners.
    each = 8 * 6 * 4 + 2 * (8 * 6 + 8 * 4 + 6 * 4) + np.pi * (8 + 6 + 4) + 4 / 3 * np.pi
    volume = opened.state.part.mesh.signed_volume_mm3
    assert volume == pytest.approx(50 * each, rel=0.01)
    assert volume < 50 * each  # triangles lie within a convex body
    assert len(opened.state.part.cad.bodies) == 50
