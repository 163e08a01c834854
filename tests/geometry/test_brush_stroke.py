"""A stroke that grows piece by piece reaches what a search of the whole stroke reaches."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.few import few
from tests.shapes import cube, torus
from viewer.geometry.brush_stroke import BrushStroke
from viewer.geometry.face_classes import CLASS_A, CLASS_B, UNMARKED
from viewer.geometry.face_neighbours import face_neighbours
from viewer.geometry.face_patches import face_patches
from viewer.geometry.fine_marks import mark_preview
from viewer.geometry.mesh import Mesh
from viewer.geometry.outlines import sweep_outline
from viewer.geometry.refined_classes import classes_of_base, paint_stroke
from viewer.geometry.regions import stroke_faces
from viewer.geometry.swept_faces import scratch_for

RING = torus(20.0, 5.0, 48, 72)
AROUND = face_neighbours(RING.faces)


def some_hits(mesh: Mesh, seed: int, count: int) -> list[tuple[int, np.ndarray]]:
    rng = np.random.default_rng(seed)
    faces = rng.integers(0, mesh.face_count, count)
    return [(int(f), rng.dirichlet(np.ones(3)) @ mesh.corners_mm[f]) for f in faces]


@settings(max_examples=few(13, 40))
@given(st.integers(0, 2**31), st.floats(0.3, 8.0), st.integers(1, 6))
def test_growing_finds_the_faces_of_the_whole_stroke(seed, radius, count):
    hits = some_hits(RING, seed, count)
    stroke = BrushStroke(RING, AROUND, radius)
    told: list[np.ndarray] = []
    for face, point in hits:
        whole, crossed = stroke.add(face, point)
        told += [whole, crossed]
    reached = np.union1d(stroke.whole, stroke.crossed)
    assert np.array_equal(reached, stroke_faces(RING, AROUND, hits, radius))
    assert np.array_equal(np.unique(np.concatenate(told)), reached)
    assert not np.intersect1d(stroke.whole, stroke.crossed).size
    # Whole: each corner within one of the balls' paths, by the distance to a piece of line.
    corners = RING.corners_mm[stroke.whole]
    near = np.full(corners.shape[:2], np.inf)
    for start, end in stroke.sweeps_mm:
        along = end - start
        t = ((corners - start) @ along) / max(along @ along, 1e-30)
        foot = start + np.clip(t, 0.0, 1.0)[..., None] * along
        near = np.minimum(near, np.linalg.norm(corners - foot, axis=2))
    assert (near <= radius * (1 + 1e-12)).all()


def test_a_stroke_finds_the_same_in_the_room_of_others_and_on_pieces():
    """What searches work with goes from stroke to stroke, also to a mesh cut by the one before."""
    room = scratch_for(40 * RING.face_count, RING.face_count)
    mesh, neighbours, patches = RING, AROUND, face_patches(RING.vertices_mm, RING.faces, AROUND)
    parents = np.arange(mesh.face_count)
    for seed, radius in ((1, 2.0), (2, 7.0), (3, 4.0), (4, 1.0)):
        of_pieces = patches.of_pieces(parents, neighbours)
        assert room.holds(mesh.face_count, len(of_pieces.balls_mm))
        shared = BrushStroke(mesh, neighbours, radius, of_pieces, room)
        alone = BrushStroke(mesh, neighbours, radius)
        for face, point in some_hits(mesh, seed, 5):
            for mine, other in zip(shared.add(face, point), alone.add(face, point), strict=True):
                assert np.array_equal(np.sort(mine), np.sort(other))
        pieces, _ = paint_stroke(shared, np.zeros(mesh.face_count, np.uint8), CLASS_A)
        mesh, neighbours = Mesh(pieces.vertices_mm, pieces.faces), pieces.neighbours
        parents = parents[pieces.parents]
    assert mesh.face_count > RING.face_count
    assert not room.holds(41 * RING.face_count, 1)


def test_lifting_leaves_a_gap():
    mesh = cube(20.0)
    around = face_neighbours(mesh.faces)
    top = int(np.flatnonzero(mesh.face_normals[:, 2] > 0.5)[0])
    stroke = BrushStroke(mesh, around, 1.0)
    stroke.add(top, np.array([-6.0, 0.0, 10.0]))
    stroke.lift()
    stroke.add(top, np.array([6.0, 0.0, 10.0]))
    pieces, classes = paint_stroke(stroke, np.zeros(12, np.uint8), CLASS_A)
    after = Mesh(pieces.vertices_mm, pieces.faces)
    area = after.face_areas_mm2[classes == CLASS_A].sum()
    assert area == pytest.approx(2 * np.pi, rel=0.02)


def test_painting_keeps_the_other_classes_and_whole_faces_take_the_new_one():
    mesh = cube(20.0)
    around = face_neighbours(mesh.faces)
    top = int(np.flatnonzero(mesh.face_normals[:, 2] > 0.5)[0])
    stroke = BrushStroke(mesh, around, 3.0)
    stroke.add(top, np.array([1.0, 2.0, 10.0]))
    before = np.full(12, CLASS_B, np.uint8)
    pieces, classes = paint_stroke(stroke, before, CLASS_A)
    areas = Mesh(pieces.vertices_mm, pieces.faces).face_areas_mm2
    assert areas[classes == CLASS_A].sum() == pytest.approx(9 * np.pi, rel=0.02)
    assert areas[classes == CLASS_B].sum() == pytest.approx(2400 - 9 * np.pi, rel=0.001)
    assert not (classes == UNMARKED).any()
    large = BrushStroke(mesh, around, 40.0)
    large.add(top, np.array([1.0, 2.0, 10.0]))
    pieces, classes = paint_stroke(large, before, CLASS_A)
    assert len(pieces.faces) == 12
    assert (classes == CLASS_A).all()


def test_a_base_face_has_the_class_that_covers_most_of_it():
    base = np.array([0, 1, 2, 0, 0, 1, 2], np.int32)
    areas = np.array([1.0, 2.0, 0.0, 1.5, 1.0, 2.0, 0.0])
    classes = np.array([1, 2, 1, 2, 1, 0, 1], np.uint8)
    assert classes_of_base(classes, areas, base, 3).tolist() == [1, 0, 1]


def test_the_preview_of_the_crossed_and_the_whole_is_what_the_stroke_marks():
    stroke = BrushStroke(RING, AROUND, 4.0)
    shown = 0.0
    face, point = some_hits(RING, 5, 1)[0]
    whole, crossed = stroke.add(face, point)
    outline = sweep_outline(np.array(stroke.sweeps_mm), 4.0)
    triangles = mark_preview(RING, np.concatenate([whole, crossed]), outline)
    sides = triangles[:, 1:] - triangles[:, :1]
    shown = 0.5 * np.linalg.norm(np.cross(sides[:, 0], sides[:, 1]), axis=1).sum()
    pieces, classes = paint_stroke(stroke, np.zeros(RING.face_count, np.uint8), CLASS_A)
    areas = Mesh(pieces.vertices_mm, pieces.faces).face_areas_mm2
    assert shown == pytest.approx(areas[classes == CLASS_A].sum(), rel=0.02)


def test_a_cut_mesh_knows_areas_normals_and_box_as_if_worked_out_anew():
    whole = Mesh(RING.vertices_mm, RING.faces)
    _ = whole.face_areas_mm2, whole.face_normals, whole.box_mm
    stroke = BrushStroke(whole, AROUND, 2.0)
    for face, point in some_hits(whole, 7, 3):
        stroke.add(face, point)
    pieces, _ = paint_stroke(stroke, np.zeros(whole.face_count, np.uint8), CLASS_A)
    cut = Mesh(pieces.vertices_mm, pieces.faces)
    cut.take_over_from(whole)
    assert {"face_areas_mm2", "face_normals", "box_mm"} <= cut.__dict__.keys()
    anew = Mesh(pieces.vertices_mm, pieces.faces)
    assert np.allclose(cut.face_areas_mm2, anew.face_areas_mm2, rtol=1e-12)
    assert np.allclose(cut.face_normals, anew.face_normals, atol=1e-12)
    assert np.array_equal(cut.box_mm, anew.box_mm)
