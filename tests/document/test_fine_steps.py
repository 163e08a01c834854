"""Marks finer than triangles as steps: undo and redo exact, and only changed rows are kept."""

import gc

import numpy as np
import pytest
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.few import few
from tests.shapes import cube, torus
from viewer.document.document import Changed, Document
from viewer.document.state import Part, State
from viewer.document.state_rows import Rows
from viewer.geometry.brush_stroke import BrushStroke
from viewer.geometry.known_of_mesh import neighbours_of, shells_of
from viewer.geometry.mend.steps import step_named, take
from viewer.geometry.mesh import Mesh
from viewer.geometry.pose import Pose
from viewer.geometry.refined_classes import paint_stroke
from viewer.geometry.shells import find_shells


def paint(document: Document, face: int, point, radius_mm: float, face_class: int) -> None:
    """One click with the brush, as the window does it."""
    mesh = document.state.part.mesh
    stroke = BrushStroke(mesh, neighbours_of(mesh), radius_mm)
    stroke.add(face, np.asarray(point, float))
    pieces, classes = paint_stroke(stroke, document.state.face_classes, face_class)
    document.mark_finely(pieces, classes, "Paint")


def opened(mesh, **more) -> Document:
    document = Document()
    document.open(State.of_part(Part("part", mesh, **more)))
    return document


def arrays(state: State) -> tuple[np.ndarray, ...]:
    part = state.part
    base_face = np.zeros(0) if part.base_face is None else part.base_face
    return part.mesh.vertices_mm, part.mesh.faces, base_face, state.face_classes


def same(one, other) -> bool:
    return all(np.array_equal(a, b) for a, b in zip(one, other, strict=True))


@settings(max_examples=few(2, 6))
@given(st.integers(0, 2**31))
def test_undo_and_redo_give_back_every_array(seed):
    rng = np.random.default_rng(seed)
    document = opened(cube(20.0))
    known = [arrays(document.state)]
    for n in range(5):
        mesh = document.state.part.mesh
        face = int(rng.integers(mesh.face_count))
        point = rng.dirichlet(np.ones(3)) @ mesh.corners_mm[face]
        paint(document, face, point, rng.uniform(0.5, 4.0), n % 3)
        if document.undo_label and not same(known[-1], arrays(document.state)):
            known.append(arrays(document.state))
        if n == 2:
            document.turn(Pose((0, 1, 0)))
    gc.collect()
    for _ in range(2):
        back = list(known)
        while document.undo_label:
            turned = document.undo_label == "Turn the part"
            document.undo()
            if not turned:
                back.pop()
            assert same(arrays(document.state), back[-1])
        assert document.state.part.base is None
        assert document.state.part.mesh.face_count == 12
        assert document.state.pose == Pose()
        while document.redo_label:
            document.redo()
        assert same(arrays(document.state), known[-1])


def test_listeners_hear_that_the_same_part_was_cut_finer():
    document = opened(cube(20.0))
    start, heard = document.state.part.mesh, []
    document.listen(heard.append)
    paint(document, 0, start.corners_mm[0].mean(axis=0), 2.5, 1)
    document.undo()
    assert heard == [Changed.REFINED | Changed.CLASSES] * 2
    assert document.state.part.mesh is start
    assert not document.modified  # the state that was opened is there again


def test_patches_and_polygons_follow_their_faces():
    mesh = cube(20.0)
    document = opened(
        mesh,
        patch_of_face=np.arange(12, dtype=np.int32) // 2,
        polygon_of_face=np.arange(12, dtype=np.int32) + 7,
    )
    paint(document, 4, mesh.corners_mm[4].mean(axis=0), 2.5, 1)
    part = document.state.part
    assert np.array_equal(part.patch_of_face, part.base_face // 2)
    assert np.array_equal(part.polygon_of_face, part.base_face + 7)
    pieces = part.pieces_of(np.array([4]))
    assert part.mesh.face_areas_mm2[pieces].sum() == pytest.approx(200.0)
    document.undo()
    assert np.array_equal(document.state.part.polygon_of_face, np.arange(12) + 7)


def test_a_step_at_many_faces_keeps_only_the_rows_that_changed():
    mesh = torus(40.0, 15.0, 300, 400)  # 240,000 faces
    document = opened(mesh)
    for face in (1000, 5000, 90_000):
        paint(document, face, mesh.corners_mm[face].mean(axis=0), 0.3, 1)
    assert document.state.part.base is mesh
    rows = sum(mesh.face_count != len(c) for c in (document.state.face_classes,))
    assert rows == 1
    grown = document.state.part.mesh.face_count - mesh.face_count
    assert 0 < grown < 5000
    assert document._history.held_bytes() < 200_000
    while document.undo_label:
        document.undo()
    # Forwards every new row has to be kept: a face is 3 int32, a vertex 3 float64.
    assert document._history.held_bytes() < 200_000
    assert document.state.part.mesh is mesh


def test_what_is_known_of_pieces_is_what_would_be_found():
    document = opened(torus(20.0, 5.0, 24, 36))
    paint(document, 3, document.state.part.mesh.corners_mm[3].mean(axis=0), 2.0, 2)
    mesh = document.state.part.mesh
    known, found = shells_of(mesh), find_shells(mesh)
    assert np.array_equal(known.shell_of_face, found.shell_of_face)
    assert np.array_equal(known.orientation, found.orientation)
    assert np.array_equal(known.closed, found.closed)
    assert np.allclose(known.volume_mm3, found.volume_mm3)


def test_on_the_files_triangles_each_has_the_class_of_most_of_it():
    document = opened(cube(20.0))
    mesh = document.state.part.mesh
    paint(document, 0, mesh.corners_mm[0].mean(axis=0), 2.5, 1)
    assert not document.state.on_file_triangles().face_classes.any()
    top = mesh.corners_mm[0].mean(axis=0)
    paint(document, 0, top, 9.0, 2)
    whole = document.state.on_file_triangles()
    assert whole.part.mesh is mesh
    assert whole.part.base is None
    assert whole.face_classes[0] == 2
    assert np.count_nonzero(whole.face_classes) <= 2


@given(st.lists(st.integers(0, 3), max_size=12), st.lists(st.integers(0, 3), max_size=12))
def test_rows_put_back_any_array(wanted, other):
    wanted, other = np.array(wanted, np.int32), np.array(other, np.int32)
    rows = Rows.between(wanted, other)
    assert np.array_equal(rows.put_back(other), wanted)


def test_undoing_a_mark_keeps_the_kept_poses():
    document = opened(cube(20.0))
    document.keep_pose("as it lies")
    document.turn(Pose((0, 1, 0)))
    gc.collect()  # nobody but the history knows the states before
    document.mark(np.arange(3), 1)
    gc.collect()
    document.undo()
    assert [one.name for one in document.state.kept_poses] == ["as it lies"]
    document.undo()
    assert [one.name for one in document.state.kept_poses] == ["as it lies"]


def test_mending_a_finely_marked_part_mends_the_files_triangles_and_keeps_the_fine_marks():
    block = cube(20.0)
    torn = Mesh(
        np.concatenate([block.vertices_mm, block.vertices_mm[block.faces[11]] + 1e-7]),
        np.concatenate([block.faces[:11], [[8, 9, 10]]]),  # one triangle hangs by no edge
    )
    document = opened(torn)
    top = int(np.flatnonzero(torn.face_normals[:, 2] > 0.5)[0])
    paint(document, top, torn.corners_mm[top].mean(axis=0), 3.0, 1)
    fine = document.state
    assert fine.part.base is torn
    step = step_named("merge-vertices", fine.part.file_mesh)
    mended = take(step, fine.part.file_mesh)
    document.replace_part(fine.mended(mended), "Mend")
    state = document.state
    assert state.part.base.face_count == 12
    assert state.part.received is torn
    assert trimesh.Trimesh(
        state.part.mesh.vertices_mm, state.part.mesh.faces, process=False
    ).is_watertight
    areas = fine.part.mesh.face_areas_mm2[fine.face_classes == 1].sum()
    kept = state.part.mesh.face_areas_mm2[state.face_classes == 1].sum()
    assert kept == pytest.approx(areas, rel=0.01)  # CALC: a disc of 3 mm, or what of it is reached
    whole = state.on_file_triangles()
    assert np.array_equal(whole.part.mesh.faces, mended.mesh.faces)
    document.undo()
    assert document.state.part is fine.part
