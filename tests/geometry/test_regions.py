"""Regions grow over the surface: never through a wall, never over a crease, without gaps."""

import numpy as np
import pytest
import trimesh
from hypothesis import given
from hypothesis import strategies as st

from tests.shapes import box, cube, joined, moved, sphere
from viewer.geometry.face_neighbours import face_neighbours
from viewer.geometry.mesh import Mesh
from viewer.geometry.regions import (
    borders,
    crease_fill,
    creases,
    stroke_faces,
)


def plate(thickness: float, side: float = 20.0, cuts: int = 40) -> Mesh:
    """A thin plate, its two large sides cut into many triangles."""
    made = trimesh.creation.box((side, side, thickness))
    made = made.subdivide_to_size(side / cuts * 1.5)
    return Mesh(made.vertices, made.faces)


def face_at(mesh: Mesh, point: tuple[float, float, float]) -> int:
    centres = mesh.corners_mm.mean(axis=1)
    return int(np.linalg.norm(centres - point, axis=1).argmin())


def ball_distance(mesh: Mesh, centre: np.ndarray) -> np.ndarray:
    """Distance of each triangle from a point, by trimesh."""
    corners = mesh.corners_mm
    near = trimesh.triangles.closest_point(corners, np.tile(centre, (len(corners), 1)))
    return np.linalg.norm(near - centre, axis=1)


def brush_faces(mesh, around, seed, point, radius_mm):
    """A single dab."""
    return stroke_faces(mesh, around, [(seed, np.asarray(point, float))], radius_mm)


class TestBrush:
    @pytest.mark.parametrize("thickness", [0.5, 0.05])
    def test_never_paints_through_a_thin_wall(self, thickness):
        mesh = plate(thickness)
        top = thickness / 2
        faces = brush_faces(
            mesh, face_neighbours(mesh.faces), face_at(mesh, (0, 0, top)), (0, 0, top), 4.0
        )
        assert len(faces) > 50
        # The ball reaches far beyond the other side, which is painted nowhere.
        assert (ball_distance(mesh, np.array([0, 0, top])) <= 4.0).sum() > 1.9 * len(faces)
        assert (mesh.face_normals[faces, 2] > 0.999).all()

    @given(st.integers(0, 5119), st.floats(0.1, 12))
    def test_takes_exactly_the_connected_faces_that_meet_the_ball(self, seed, radius):
        mesh = sphere(10.0, 4)
        centre = mesh.corners_mm[seed].mean(axis=0)
        got = brush_faces(mesh, face_neighbours(mesh.faces), seed, centre, radius)
        distance = ball_distance(mesh, centre)
        near = np.abs(distance - radius) < 1e-9
        # A cap of a convex body hangs together, so every face in the ball is reached.
        np.testing.assert_array_equal(
            np.setdiff1d(got, np.flatnonzero(near)),
            np.setdiff1d(np.flatnonzero(distance <= radius), np.flatnonzero(near)),
        )

    def test_always_holds_the_face_under_the_pointer(self):
        mesh = cube()
        got = brush_faces(mesh, face_neighbours(mesh.faces), 3, mesh.corners_mm[3].mean(0), 0.01)
        assert got.tolist() == [3]

    def test_stays_on_its_own_shell(self):
        two = joined(cube(), moved(cube(), (20.1, 0, 0)))
        got = brush_faces(two, face_neighbours(two.faces), 0, two.corners_mm[0].mean(0), 100.0)
        assert got.tolist() == list(range(12))


class TestStroke:
    def test_two_far_points_leave_no_gap(self):
        """The swept area is a stadium: all faces of the top within the radius of the line."""
        mesh = plate(2.0)
        ends = [np.array([-7.0, -3.0, 1.0]), np.array([7.0, 3.0, 1.0])]
        hits = [(face_at(mesh, tuple(p)), p) for p in ends]
        got = stroke_faces(mesh, face_neighbours(mesh.faces), hits, 1.0)
        along = np.linspace(ends[0], ends[1], 400)
        distance = np.min([ball_distance(mesh, p) for p in along], axis=0)
        top = mesh.face_normals[:, 2] > 0.5
        surely = np.flatnonzero(top & (distance < 0.999))
        maybe = np.flatnonzero(top & (distance < 1.001))
        assert np.isin(surely, got).all()
        assert np.isin(got, maybe).all()

    def test_does_not_jump_to_a_shell_it_only_flies_past(self):
        """A stroke that starts and ends on one shell leaves a post between its ends alone."""
        ground, post = plate(2.0), box((-1, -1, 1.01), (1, 1, 5))
        both = joined(ground, post)
        ends = [np.array([-6.0, 0.0, 1.0]), np.array([6.0, 0.0, 1.0])]
        hits = [(face_at(ground, tuple(p)), p) for p in ends]
        got = stroke_faces(both, face_neighbours(both.faces), hits, 1.0)
        assert got.max() < ground.face_count

    def test_does_not_paint_through_a_thin_wall(self):
        mesh = plate(0.5)
        ends = [np.array([-6.0, 0.0, 0.25]), np.array([6.0, 0.0, 0.25])]
        hits = [(face_at(mesh, tuple(p)), p) for p in ends]
        got = stroke_faces(mesh, face_neighbours(mesh.faces), hits, 2.0)
        assert (mesh.face_normals[got, 2] > 0.999).all()


class TestCreaseFill:
    def test_fills_one_side_of_a_cube(self):
        mesh = cube()
        around = face_neighbours(mesh.faces)
        for seed in range(12):
            got = crease_fill(around, mesh.face_normals, seed, 30.0)
            assert len(got) == 2
            np.testing.assert_allclose(mesh.face_normals[got] @ mesh.face_normals[seed], 1.0)

    @pytest.mark.parametrize(("crease_deg", "count"), [(89.9, 2), (90.0, 12)])
    def test_an_edge_bent_by_exactly_the_limit_is_smooth(self, crease_deg, count):
        mesh = cube()
        got = crease_fill(face_neighbours(mesh.faces), mesh.face_normals, 0, crease_deg)
        assert len(got) == count

    def test_a_face_without_area_does_not_stop_the_fill(self):
        """Two coplanar triangles with a sliver of zero area between them."""
        vertices = np.array([[0, 0, 0], [1, 0, 0], [0, 1, 0], [1, 1, 0], [0.5, 0.5, 0]], float)
        mesh = Mesh(vertices, np.array([[0, 1, 2], [2, 1, 4], [4, 1, 3], [2, 4, 3]]))
        got = crease_fill(face_neighbours(mesh.faces), mesh.face_normals, 0, 10.0)
        assert got.tolist() == [0, 1, 2, 3]


@given(st.lists(st.integers(0, 2), min_size=12, max_size=12))
def test_borders_are_the_edges_between_labels(labels):
    mesh = cube()
    labels = np.array(labels, np.uint8)
    got = {tuple(sorted(edge)) for edge in borders(mesh.faces, face_neighbours(mesh.faces), labels)}
    pairs, edges = trimesh.graph.face_adjacency(mesh.faces, return_edges=True)
    wanted = {
        tuple(sorted(edge))
        for (f, g), edge in zip(pairs, edges.tolist(), strict=True)
        if labels[f] != labels[g]
    }
    assert got == wanted


@pytest.mark.parametrize(("crease_deg", "count"), [(40.0, 12), (89.9, 12), (90.1, 0)])
def test_creases_of_a_cube_are_its_twelve_edges(crease_deg, count):
    mesh = cube()
    ends = creases(mesh.faces, face_neighbours(mesh.faces), mesh.face_normals, crease_deg)
    assert len({tuple(sorted(edge)) for edge in ends.tolist()}) == len(ends) == count
    lengths = np.linalg.norm(mesh.vertices_mm[ends[:, 0]] - mesh.vertices_mm[ends[:, 1]], axis=1)
    np.testing.assert_allclose(lengths, 20.0)
