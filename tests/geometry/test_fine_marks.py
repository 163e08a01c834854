"""A round mark on coarse triangles is round, and the surface under it stays what it was."""

import manifold3d
import numpy as np
import pytest
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.few import few
from tests.shapes import box, cube, joined, sphere, torus, turned_inside_out, without_faces
from viewer.geometry.face_neighbours import face_neighbours
from viewer.geometry.fine_marks import cut_along, mark_preview, met_faces
from viewer.geometry.mesh import Mesh
from viewer.geometry.outlines import band_outline, lasso_outline, sweep_outline
from viewer.geometry.regions import stroke_faces


def painted(mesh: Mesh, hits: list[tuple[int, tuple[float, ...]]], radius_mm: float):
    """The mesh after a stroke, what it covers, and the pieces with parents and neighbours."""
    around = face_neighbours(mesh.faces)
    hits = [(face, np.asarray(point, float)) for face, point in hits]
    reached = stroke_faces(mesh, around, hits, radius_mm)
    points = [point for _, point in hits]
    sweeps = np.stack([points[: max(len(points) - 1, 1)], points[1:] or points], axis=1)
    pieces, covered = cut_along(mesh, around, reached, sweep_outline(sweeps, radius_mm))
    return Mesh(pieces.vertices_mm, pieces.faces), covered, pieces


def smallest_angles_deg(mesh: Mesh) -> np.ndarray:
    """(m,) by trimesh."""
    return np.degrees(trimesh.triangles.angles(mesh.corners_mm).min(axis=1))


def hit_at(mesh: Mesh, point: tuple[float, ...]) -> tuple[int, tuple[float, ...]]:
    """The face on which a point of the surface lies, by trimesh."""
    near = trimesh.triangles.closest_point(mesh.corners_mm, np.tile(point, (mesh.face_count, 1)))
    away = np.linalg.norm(near - point, axis=1)
    assert away.min() < 1e-9
    return int(away.argmin()), point


def assert_same_surface(before: Mesh, after: Mesh, pieces) -> None:
    """Closed where it was, nothing moved, no angle under half of what it was, neighbours right."""
    assert np.array_equal(pieces.vertices_mm[: len(before.vertices_mm)], before.vertices_mm)
    areas = np.bincount(pieces.parents, after.face_areas_mm2, before.face_count)
    assert np.allclose(areas, before.face_areas_mm2, rtol=1e-9, atol=1e-12)
    assert after.signed_volume_mm3 == pytest.approx(before.signed_volume_mm3, rel=1e-12)
    was, now = smallest_angles_deg(before), smallest_angles_deg(after)
    assert (now >= 0.5 * was[pieces.parents] - 1e-6).all()
    assert np.array_equal(pieces.neighbours, face_neighbours(pieces.faces))
    cosines = np.einsum("ij,ij->i", after.face_normals, before.face_normals[pieces.parents])
    assert (cosines > 1 - 1e-9).all()


def test_a_brush_of_5_mm_leaves_a_round_mark_on_a_box_of_12_facets():
    mesh = cube(20.0)
    after, covered, pieces = painted(mesh, [hit_at(mesh, (3.0, -2.0, 10.0))], 2.5)
    assert_same_surface(mesh, after, pieces)
    area = after.face_areas_mm2[covered].sum()
    assert area == pytest.approx(np.pi * 2.5**2, rel=0.01)
    # Round: every covered corner within one edge of the circle, every uncovered one outside it.
    finest = 2.5 / 16
    far = np.linalg.norm(after.corners_mm - (3.0, -2.0, 10.0), axis=2)
    assert far[covered].max() < 2.5 + finest
    rest = np.setdiff1d(np.arange(after.face_count), covered)
    on_top = rest[(after.corners_mm[rest, :, 2] == 10.0).all(axis=1)]
    assert far[on_top].min() > 2.5 - finest
    assert after.face_count < 3000


def test_a_stroke_is_a_band_with_round_ends():
    mesh = box((-20, -20, 0), (20, 20, 10))
    ends = [hit_at(mesh, (x, 5.0, 10.0)) for x in (-10.0, -4.0, 2.0, 8.0)]
    after, covered, pieces = painted(mesh, ends, 2.0)
    assert_same_surface(mesh, after, pieces)
    area = after.face_areas_mm2[covered].sum()
    assert area == pytest.approx(np.pi * 2.0**2 + 18.0 * 4.0, rel=0.01)


def test_painting_the_same_place_again_cuts_next_to_nothing():
    mesh = cube(20.0)
    once, covered, _ = painted(mesh, [hit_at(mesh, (0.0, 0.0, 10.0))], 3.0)
    twice, again, _ = painted(once, [hit_at(once, (0.0, 0.0, 10.0))], 3.0)
    assert twice.face_count == once.face_count
    assert np.array_equal(again, covered)


def test_many_strokes_stay_below_what_their_area_in_finest_triangles_holds():
    mesh = cube(20.0)
    rng = np.random.default_rng(3)
    for _ in range(60):
        x, y = rng.uniform(-8, 8, 2)
        mesh, _, _ = painted(mesh, [hit_at(mesh, (x, y, 10.0))], 2.0)
    # An isosceles right triangle just above the finest edge gives two of half its area.
    finest = 2.0 / 16
    assert mesh.face_count < 20.0**2 / (finest**2 / 8) + 12


@settings(max_examples=few(10, 25))
@given(st.integers(0, 2**31), st.floats(0.5, 6.0), st.integers(1, 5))
def test_any_stroke_on_a_ring_keeps_the_surface(seed, radius, count):
    mesh = torus(20.0, 5.0, 24, 36)
    rng = np.random.default_rng(seed)
    faces = rng.integers(0, mesh.face_count, count)
    hits = [(int(f), rng.dirichlet(np.ones(3)) @ mesh.corners_mm[f]) for f in faces]
    after, _, pieces = painted(mesh, hits, radius)
    assert_same_surface(mesh, after, pieces)
    solid = manifold3d.Manifold(
        manifold3d.Mesh64(np.array(after.vertices_mm), np.array(after.faces, np.uint64))
    )
    assert solid.status() == manifold3d.Error.NoError
    assert solid.volume() == pytest.approx(mesh.signed_volume_mm3, rel=1e-9)


def test_open_and_turned_faces_are_cut_without_gaps():
    ball = sphere(10.0, 2)
    torn = without_faces(ball, range(0, 40, 7))
    faces = np.array(torn.faces)
    faces[::5] = faces[::5, ::-1]  # every fifth wound the other way
    torn = Mesh(torn.vertices_mm, faces)
    middle = torn.corners_mm[100].mean(axis=0)
    after, _, pieces = painted(torn, [(100, middle)], 6.0)
    assert np.array_equal(pieces.neighbours, face_neighbours(pieces.faces))
    boundary = np.count_nonzero(face_neighbours(torn.faces) < 0)
    edges = trimesh.Trimesh(after.vertices_mm, after.faces, process=False).edges_sorted
    _, count = np.unique(edges, axis=0, return_counts=True)
    length_before = _open_length_mm(torn)
    assert (count <= 2).all()
    assert boundary > 0
    assert _open_length_mm(after) == pytest.approx(length_before, rel=1e-12)


def _open_length_mm(mesh: Mesh) -> float:
    around = face_neighbours(mesh.faces)
    face, k = np.nonzero(around < 0)
    ends = mesh.vertices_mm[mesh.faces[face, (k + 1) % 3]] - mesh.vertices_mm[mesh.faces[face, k]]
    return float(np.linalg.norm(ends, axis=1).sum())


def test_edges_of_more_than_two_faces_stay_whole():
    two = joined(box((-10, -10, 0), (0, 0, 10)), box((0, 0, 0), (10, 10, 10)))
    merged = trimesh.Trimesh(two.vertices_mm, two.faces, process=True)
    mesh = Mesh(merged.vertices, merged.faces)  # two boxes that share one upright edge
    crowded = {tuple(e) for e in _edges_shared_by(mesh, 4)}
    assert len(crowded) == 1
    after, _, _ = painted(mesh, [hit_at(mesh, (0.5, 0.0, 5.0))], 3.0)
    assert after.face_count > mesh.face_count
    assert {tuple(e) for e in _edges_shared_by(after, 4)} == crowded
    assert not _edges_shared_by(after, 1).size


def _edges_shared_by(mesh: Mesh, faces: int) -> np.ndarray:
    edges = np.sort(mesh.faces[:, [0, 1, 1, 2, 2, 0]].reshape(-1, 2), axis=1)
    found, count = np.unique(edges, axis=0, return_counts=True)
    return found[count == faces]


@pytest.mark.parametrize("mesh", [cube(20.0), turned_inside_out(cube(20.0)), torus(20, 5, 24, 36)])
def test_the_preview_covers_what_the_stroke_will_mark(mesh):
    face = 0
    point = mesh.corners_mm[face].mean(axis=0)
    after, covered, _ = painted(mesh, [(face, point)], 3.0)
    around = face_neighbours(mesh.faces)
    reached = stroke_faces(mesh, around, [(face, point)], 3.0)
    shown = mark_preview(mesh, reached, sweep_outline(np.array([[point, point]]), 3.0))
    area = trimesh.triangles.area(shown).sum()
    assert area == pytest.approx(after.face_areas_mm2[covered].sum(), rel=0.02)


def marked(mesh: Mesh, outline):
    """The mesh cut along an outline all through the part, and what lies inside."""
    around = face_neighbours(mesh.faces)
    pieces, inside = cut_along(mesh, around, met_faces(mesh, outline), outline)
    after = Mesh(pieces.vertices_mm, pieces.faces)
    assert_same_surface(mesh, after, pieces)
    return after, inside


@given(st.floats(-9.0, 0.0), st.floats(1.0, 8.0))
@settings(max_examples=10)
def test_a_band_between_heights_has_the_area_of_a_zone(low, width):
    # Archimedes: the zone of a ball between two planes has the area 2 pi r h.
    ball = sphere(10.0, 3)
    after, inside = marked(ball, band_outline((0.0, 0.0, 1.0), low, low + width, 0.2))
    assert after.face_areas_mm2[inside].sum() == pytest.approx(20.0 * np.pi * width, rel=0.03)
    z = after.corners_mm[inside][:, :, 2]
    assert z.min() > low - 0.2
    assert z.max() < low + width + 0.2


def test_a_band_round_a_box_is_as_high_as_asked_for():
    mesh = cube(20.0)
    after, inside = marked(mesh, band_outline((0.0, 0.0, 1.0), -3.2, 1.7, 0.2))
    assert after.face_areas_mm2[inside].sum() == pytest.approx(4 * 20.0 * 4.9, rel=0.01)


def test_a_loop_on_the_screen_goes_through_the_part():
    mesh = cube(20.0)
    look_down = np.array([[10.0, 0, 0, 300.0], [0, 10.0, 0, 300.0], [0, 0, 1, 0], [0, 0, 0, 1]])
    loop = np.array([[250.0, 250.0], [350.0, 250.0], [350.0, 350.0], [250.0, 350.0]])  # 10 mm wide
    after, inside = marked(mesh, lasso_outline(loop, look_down, 0.2))
    assert after.face_areas_mm2[inside].sum() == pytest.approx(2 * 10.0**2, rel=0.01)
    assert set(np.round(after.corners_mm[inside][:, :, 2].ravel(), 6)) == {-10.0, 10.0}


def test_a_loop_in_perspective_takes_what_its_rays_meet():
    # The eye stands 30 mm above the top: a loop of half-width w pixels at focal length f takes
    # (2 · 20 w / f)² of the face z = 10 and (2 · 40 w / f)² of z = −10.
    mesh, focal, half = cube(20.0), 400.0, 60.0
    frame = np.array(
        [[focal, 0, 0, 0], [0, focal, 0, 0], [0, 0, 1.0, 0], [0, 0, -1.0, 30.0]]
    )  # w = 30 - z
    loop = half * np.array([[-1, -1], [1, -1], [1, 1], [-1, 1]])
    after, inside = marked(mesh, lasso_outline(loop, frame, 0.2))
    top = inside[(after.corners_mm[inside][:, :, 2] == 10.0).all(axis=1)]
    bottom = inside[(after.corners_mm[inside][:, :, 2] == -10.0).all(axis=1)]
    areas = after.face_areas_mm2
    assert areas[top].sum() == pytest.approx((2 * 20.0 * half / focal) ** 2, rel=0.02)
    assert areas[bottom].sum() == pytest.approx((2 * 40.0 * half / focal) ** 2, rel=0.02)
    assert len(top) + len(bottom) == len(inside)
