"""A sheet becomes a wall of area times thickness; bodies beside it stay as they are."""

import math

import numpy as np
import pytest

from tests.geometry.mend.judges import accepted
from tests.shapes import box, cube, joined, moved, sphere, without_faces
from viewer.geometry.mend.thicken_sheet import thicken_sheet
from viewer.geometry.mesh import Mesh


def lattice(cells: int, side_mm: float) -> Mesh:
    """A flat square sheet of cells × cells squares."""
    i, j = np.meshgrid(np.arange(cells + 1), np.arange(cells + 1), indexing="ij")
    points = np.stack([i.ravel(), j.ravel(), 0 * i.ravel()], axis=1) * (side_mm / cells)
    a = (np.arange(cells)[:, None] * (cells + 1) + np.arange(cells)).ravel()
    b, c, d = a + cells + 1, a + cells + 2, a + 1
    return Mesh(points, np.concatenate([np.stack([a, b, c], 1), np.stack([a, c, d], 1)]))


@pytest.mark.parametrize("wall_mm", [0.42, 0.84, 2.0])
def test_a_flat_sheet_has_the_volume_of_area_times_wall(wall_mm):
    sheet = lattice(7, 20.0)
    wall = thicken_sheet(sheet, wall_mm)
    assert accepted(wall.mesh) == ""
    assert wall.mesh.signed_volume_mm3 == pytest.approx(400.0 * wall_mm)  # CALC
    # Two sides and a rim all round: 2 · 400 + 4 · 20 · wall (CALC).
    assert wall.mesh.face_areas_mm2.sum() == pytest.approx(800.0 + 80.0 * wall_mm)
    low, high = wall.mesh.box_mm
    np.testing.assert_allclose([low[2], high[2]], [-0.5 * wall_mm, 0.5 * wall_mm])
    # Each side and each face of the rim follows a face of the sheet that it lies on.
    middles = wall.mesh.corners_mm.mean(axis=1)[:, :2]
    own = sheet.corners_mm[wall.origin_face].mean(axis=1)[:, :2]
    assert np.linalg.norm(middles - own, axis=1).max() <= 20.0 / 7.0


def test_half_a_ball_becomes_half_a_hollow_ball():
    """Volume 2π/3 · ((r + t/2)³ − (r − t/2)³): Steiner's formula for a sphere (MEM)."""
    ball = sphere(10.0, 5)
    half = without_faces(ball, np.flatnonzero(ball.corners_mm[:, :, 2].mean(axis=1) < 0.0))
    wall = thicken_sheet(half, 1.0).mesh
    assert accepted(wall) == ""
    truth = 2.0 * math.pi / 3.0 * (10.5**3 - 9.5**3)
    share = half.face_areas_mm2.sum() / (2.0 * math.pi * 100.0)  # its rim is jagged
    assert wall.signed_volume_mm3 == pytest.approx(truth * share, rel=0.003)


def test_two_sheets_get_a_wall_each_and_a_body_beside_them_stays():
    body = cube(20.0)
    sheet = lattice(3, 6.0)
    part = joined(moved(sheet, (20, 0, 0)), body, moved(sheet, (40, 0, 0)))
    wall = thicken_sheet(part, 0.5)
    assert accepted(wall.mesh) == ""
    assert wall.mesh.signed_volume_mm3 == pytest.approx(8000.0 + 2 * 36.0 * 0.5)
    faces = wall.mesh.corners_mm[np.isin(wall.origin_face, 18 + np.arange(12))]
    np.testing.assert_array_equal(faces, body.corners_mm)  # to the last bit, in their order


def test_a_body_without_a_rim_is_left_alone():
    part = box([0, 0, 0], [1, 2, 3])
    assert thicken_sheet(part, 0.84).mesh is part
