"""Sections of shapes that can be worked out by hand, and where an outline stops."""

import numpy as np
import pytest

from tests.shapes import box, cube, joined, sphere, without_faces
from viewer.geometry.first_layer import section_area_mm2
from viewer.geometry.mesh import Mesh
from viewer.geometry.pose import Pose, pose_matrix
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.section import JOIN_MM, CutPart, open_ends


def cut(mesh: Mesh, height_mm: float, pose: Pose | None = None):
    matrix = pose_matrix(mesh.vertices_mm, pose or Pose())
    return CutPart.of(prepare_part(mesh)).section(matrix, height_mm)


def test_a_sphere_is_cut_in_circles_of_the_posed_frame():
    """CALC: radius √(2·r·h − h²) at height h above the lowest point."""
    section = cut(sphere(10.0), 4.0, Pose((0.3, -0.5, 0.7), 20.0))
    radius = np.sqrt(2 * 10.0 * 4.0 - 16.0)
    assert np.linalg.norm(section.segments_mm, axis=2) == pytest.approx(radius, rel=1e-3)
    assert section_area_mm2(section.segments_mm) == pytest.approx(np.pi * radius**2, rel=1e-3)
    assert section.height_mm == 4.0
    assert not len(section.open_ends_mm)


@pytest.mark.parametrize("up", [(0, 0, 1.0), (1.0, 2.0, 3.0), (0, 0, -1.0)])
def test_a_closed_part_has_no_open_end_at_any_height(up):
    mesh = joined(cube(20.0), box((0, 0, 0), (15, 15, 15)))
    for height_mm in np.linspace(0.05, 20.0, 41):
        assert not len(cut(mesh, height_mm, Pose(up)).open_ends_mm)


def test_the_outline_stops_at_both_sides_of_a_hole():
    whole = cube(20.0)
    mesh = without_faces(whole, np.flatnonzero(whole.face_normals[:, 0] > 0.9))
    ends = cut(mesh, 5.0).open_ends_mm
    assert np.allclose(ends[np.argsort(ends[:, 1])], [[10, -10], [10, 10]])


def test_faces_turned_against_each_other_leave_no_gap():
    mesh = cube(20.0)
    faces = mesh.faces.copy()
    faces[[0, 5]] = faces[[0, 5], ::-1]
    assert not len(cut(Mesh(mesh.vertices_mm, faces), 5.3).open_ends_mm)


@pytest.mark.parametrize(("gap_mm", "ends"), [(0.5 * JOIN_MM, 0), (2.0 * JOIN_MM, 2)])
def test_ends_meet_within_a_thousandth(gap_mm, ends):
    corners = np.array([[0, 0], [9, 0], [9, 9], [0, 9], [gap_mm, 0]], float)
    corners[0] = [0.0, 0.0]
    ring = np.stack([corners[[4, 1, 2, 3]], corners[[1, 2, 3, 0]]], axis=1)
    assert len(open_ends(ring)) == ends


def test_nothing_is_cut_above_the_part():
    section = cut(cube(20.0), 20.5)
    assert section.segments_mm.shape == (0, 2, 2)
    assert section.open_ends_mm.shape == (0, 2)
