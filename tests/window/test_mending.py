"""Mending in the window by mouse: steps with their effects, one undo step each, marks that stay."""

import manifold3d
import numpy as np
import pytest
import trimesh
from PySide6.QtCore import Qt

from tests.shapes import cube, sphere, turned_inside_out, without_faces
from tests.waiting import LONG_MS
from tests.window.test_window_layout import cut_off
from viewer.document.demo_job import faulty_demo_job
from viewer.document.state import Part, State
from viewer.geometry.mesh import Mesh
from viewer.window.stages import Stage


def box_of(opened):
    return opened.window.panels[Stage.CHECK].mend_box


def rows(opened):
    layout = box_of(opened).rows
    return [layout.itemAt(k).widget() for k in range(layout.count())]


def click(opened, widget) -> None:
    assert widget.isVisible()
    assert widget.isEnabled()
    opened.qtbot.mouseClick(widget, Qt.MouseButton.LeftButton)


def look(opened) -> None:
    opened.settle()
    click(opened, box_of(opened).look)
    work = opened.window.mending
    opened.qtbot.waitUntil(lambda: work.looked, timeout=2 * LONG_MS)
    opened.settle()


def judged_sound(mesh: Mesh) -> bool:
    """By two libraries that are not ours."""
    ours = trimesh.Trimesh(mesh.vertices_mm, mesh.faces, process=False)
    solid = manifold3d.Manifold(
        manifold3d.Mesh64(np.array(mesh.vertices_mm), np.array(mesh.faces, np.uint64))
    )
    return (
        ours.is_watertight
        and ours.is_winding_consistent
        and solid.status() == manifold3d.Error.NoError
    )


def test_the_faulty_demo_is_mended_by_the_safe_steps_and_two_clicks(opened):
    received = faulty_demo_job(0.08)
    opened.document.open(received)
    look(opened)
    work, box = opened.window.mending, box_of(opened)
    assert opened.state.part.mesh is received.part.mesh  # looking changes nothing
    assert "Mend what is safe" in box.safe.text()
    assert cut_off(opened.window) == []
    click(opened, box.safe)
    assert opened.document.undo_label == "Mend what is safe"
    clicks = 0
    while work.taken < len(work.ways):
        opened.settle()
        assert cut_off(opened.window) == [], work.taken
        click(opened, rows(opened)[work.taken].button)
        clicks += 1
    assert 0 < clicks <= 2
    opened.settle()
    assert cut_off(opened.window) == []
    mended = opened.state
    assert judged_sound(mended.part.mesh)
    assert not judged_sound(received.part.mesh)
    assert set(np.unique(mended.face_classes)) == set(np.unique(received.face_classes))
    assert mended.part.received is received.part.mesh
    assert not box.safe.isVisible()
    for _ in range(clicks + 1):
        opened.document.undo()
    assert opened.state.part.mesh is received.part.mesh
    assert opened.state.face_classes is received.face_classes
    assert work.taken == 0
    opened.settle()
    assert box.safe.isVisible()


def test_each_step_says_beforehand_what_it_changes(opened):
    # A cube inside out: turning it changes the volume from -8,000 to 8,000 mm³ and nothing else.
    opened.document.open(State.of_part(Part("cube", turned_inside_out(cube(20.0)))))
    look(opened)
    (row,) = rows(opened)
    words = " ".join(label.text() for label in row.findChildren(type(box_of(opened).state)))
    assert "volume +16,000 mm³" in words
    assert "area unchanged" in words
    assert "nothing moves" in words
    assert "Leaves a closed surface without such faults." in words
    click(opened, row.button)
    assert opened.state.part.mesh.signed_volume_mm3 == pytest.approx(8000.0)
    opened.press_keys("Ctrl+Z")
    assert opened.state.part.mesh.signed_volume_mm3 == pytest.approx(-8000.0)


def test_a_sound_part_has_nothing_to_mend(opened):
    opened.show(sphere(10.0, 3))
    look(opened)
    assert not rows(opened)
    assert "nothing that mending would better" in box_of(opened).state.text()
    assert not box_of(opened).safe.isVisible()


def test_a_new_length_is_worked_out_anew_before_it_is_taken(opened):
    ball = sphere(20.0, 3)
    bowl = without_faces(ball, np.flatnonzero(ball.corners_mm[:, :, 2].min(axis=1) > -15.0))
    opened.show(bowl)
    look(opened)
    work = opened.window.mending
    number = next(k for k, way in enumerate(work.ways) if way.step.name == "thicken-sheet")
    before = work.ways[number].effect.volume_after_mm3
    from viewer.window.pieces import NumberField

    field = rows(opened)[number].findChild(NumberField)
    old = work.ways
    field.setValue(2 * field.value())
    opened.qtbot.waitUntil(lambda: work.ways is not old, timeout=LONG_MS)
    opened.settle()
    assert work.ways[number].effect.volume_after_mm3 == pytest.approx(2 * before, rel=0.05)
    assert opened.state.part.mesh.face_count == bowl.face_count


def test_a_new_skin_is_offered_with_its_effect_and_taken_as_one_step(opened):
    ball = sphere(20.0, 3)
    opened.show(without_faces(ball, range(5)))
    opened.settle()
    box, work = box_of(opened), opened.window.mending
    box._resolution.setValue(1.0)
    click(opened, box.skin)
    opened.qtbot.waitUntil(lambda: work.looked, timeout=2 * LONG_MS)
    opened.settle()
    (row,) = rows(opened)
    click(opened, row.button)
    mesh = opened.state.part.mesh
    assert judged_sound(mesh)
    assert mesh.signed_volume_mm3 == pytest.approx(ball.signed_volume_mm3, rel=0.005)


def test_a_part_opened_meanwhile_forgets_the_way(opened):
    opened.document.open(State.of_part(Part("cube", turned_inside_out(cube(20.0)))))
    look(opened)
    opened.show(sphere(10.0, 3))
    assert not opened.window.mending.looked
    assert not rows(opened)


def test_a_finely_marked_part_is_mended_by_its_own_triangles_and_keeps_the_fine_mark(opened):
    block = cube(20.0)
    torn = without_faces(block, [np.flatnonzero(block.face_normals[:, 2] < -0.5)[0]])
    opened.show(torn)
    opened.press_keys("Ctrl+2")
    opened.window.choices.set_mark(brush_mm=4.0)
    opened.click(opened.place_of((0.0, 0.0, 20.0)))
    fine = opened.state
    marked = fine.part.mesh.face_areas_mm2[fine.face_classes == 1].sum()
    assert marked == pytest.approx(16 * np.pi, rel=0.02)  # CALC: a disc of 4 mm
    opened.press_keys("Ctrl+1")
    look(opened)
    work = opened.window.mending
    assert work.ways[0].before is torn  # not its pieces
    while work.taken < len(work.ways):
        before = opened.state.part
        click(opened, rows(opened)[work.taken].button)
        opened.qtbot.waitUntil(lambda old=before: opened.state.part is not old, timeout=LONG_MS)
        opened.settle()
    state = opened.state
    assert state.part.base.face_count == 12
    assert state.part.base is work.ways[-1].mesh
    assert judged_sound(state.part.base)
    assert judged_sound(state.part.mesh)
    kept = state.part.mesh.face_areas_mm2[state.face_classes == 1].sum()
    assert kept == pytest.approx(marked, rel=0.01)
    work.go_back()
    opened.qtbot.waitUntil(lambda: opened.state.part.received is None, timeout=LONG_MS)
    back = opened.state
    assert back.part.file_mesh is torn
    kept = back.part.mesh.face_areas_mm2[back.face_classes == 1].sum()
    assert kept == pytest.approx(marked, rel=0.01)
    for _ in range(len(work.ways) + 1):
        opened.press_keys("Ctrl+Z")
    assert opened.state.part is fine.part
    assert work.taken == 0
