"""A part from CAD in the real window: its faces as patches, its triangles made anew."""

import numpy as np
import pytest

from tests.files.made_cad import cylinder, write_step
from tests.shapes import cube
from viewer.geometry.face_classes import CLASS_A
from viewer.window.stages import Stage


@pytest.fixture
def cad(opened, tmp_path):
    """A cylinder of radius 10 and height 20 as a STEP file, opened."""
    path = tmp_path / "peg.step"
    write_step(path, cylinder(10.0, 20.0))
    opened.window.open_path(path)
    opened.qtbot.waitUntil(lambda: opened.state.part is not None, timeout=60_000)
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
    cad.qtbot.waitUntil(lambda: cad.state.part is not part, timeout=60_000)
    cad.settle()
    mesh = cad.state.part.mesh
    assert mesh.face_count > 2 * before
    assert np.array_equal(cad.state.face_classes == CLASS_A, mesh.face_normals[:, 2] > 0.99)
    assert cad.document.undo_label == "Make the triangles anew"
    cad.press_keys("Ctrl+Z")
    assert cad.state.part is part


def test_parts_without_exact_surfaces_have_no_such_box(opened):
    opened.show(cube())
    assert not opened.window.panels[Stage.CHECK]._cad.isVisible()
