"""The column field is watertight: no line crosses a closed surface an odd number of times."""

import manifold3d
import numpy as np
import pytest

from tests import shapes
from viewer.errors import Cancelled
from viewer.geometry.column_field import ColumnField, column_field, faces_for_lines
from viewer.geometry.column_grid import ColumnGrid, even_grid, grid_over
from viewer.progress import Progress


def balances(field) -> np.ndarray:
    """Entering less leaving crossings of every line."""
    line = np.repeat(np.arange(len(field.starts) - 1), np.diff(field.starts))
    return np.bincount(line, 1.0 - 2.0 * (field.side & 1), len(field.starts) - 1)


def exact_grid(cells: int) -> ColumnGrid:
    """Lines through all integer points from 0 to `cells` − 1, where vertices and edges lie."""
    return even_grid(0.0, 0.0, 1.0, cells, cells, shift=0.0)


def field_of(points, faces, grid) -> ColumnField:
    return column_field(faces_for_lines(points, faces), np.eye(3), grid)


def volume(field, grid) -> float:
    sign = np.where(field.side & 1, 1.0, -1.0)
    return float((sign * field.z_mm).sum() * grid.pitch_mm**2)


def test_hundreds_of_hulls_with_vertices_on_the_lines():
    """Integer vertices put lines exactly through vertices, edges and upright faces."""
    rng = np.random.default_rng(7)
    crossed = 0
    for _ in range(600):
        points = rng.integers(0, 9, (rng.integers(5, 40), 3)).astype(np.float64)
        hull = manifold3d.Manifold.hull_points(points).to_mesh64()
        vertices = np.array(hull.vert_properties)[:, :3]
        faces = np.array(hull.tri_verts).astype(np.int32)
        field = field_of(vertices, faces, exact_grid(9))
        assert not balances(field).any()
        assert not (np.diff(field.starts) % 2).any()
        crossed += len(field.z_mm)
    assert crossed > 10_000


@pytest.mark.parametrize("jittered", [False, True])
def test_volume_of_a_turned_torus(jittered):
    """CALC: 2π²·R·r²."""
    torus = shapes.torus(around=300, facets=200)
    turn, _ = np.linalg.qr(np.random.default_rng(3).normal(size=(3, 3)))
    points = torus.vertices_mm @ turn.T
    jitter = np.random.default_rng(0) if jittered else None
    grid = grid_over(points[:, :2].min(axis=0), points[:, :2].max(axis=0), 300, jitter)
    field = field_of(points, torus.faces, grid)
    assert not balances(field).any()
    sign = np.sign(np.linalg.det(turn))
    assert sign * volume(field, grid) == pytest.approx(2 * np.pi**2 * 20 * 25, rel=1e-3)
    for i in np.flatnonzero(np.diff(field.starts))[:500]:
        heights = field.z_mm[field.starts[i] : field.starts[i + 1]]
        assert (np.diff(heights) >= 0).all()


def test_needles_and_faces_without_area_leave_no_odd_line():
    """A cube whose sides are cut into needles by points a hair from its edges."""
    rng = np.random.default_rng(11)
    for _ in range(50):
        corners = rng.integers(0, 5, (8, 3)).astype(np.float64)
        corners = np.vstack([corners, corners + rng.normal(0, 1e-13, corners.shape)])
        hull = manifold3d.Manifold.hull_points(corners).to_mesh64()
        vertices = np.array(hull.vert_properties)[:, :3]
        faces = np.array(hull.tri_verts).astype(np.int32)
        assert not balances(field_of(vertices, faces, exact_grid(5))).any()


def test_crossings_lie_on_the_faces_they_name():
    ball = shapes.sphere(10, 4)
    grid = grid_over([-10, -10], [10, 10], 64, np.random.default_rng(5))
    field = field_of(ball.vertices_mm, ball.faces, grid)
    line = np.repeat(np.arange(len(field.starts) - 1), np.diff(field.starts))
    row, column = np.divmod(line, grid.nx)
    x = grid.x0_mm + (column + grid.shift_u[row]) * grid.pitch_mm
    y = grid.y0_mm + (row + grid.shift_v[row]) * grid.pitch_mm
    face = field.side >> 1
    away = np.column_stack([x, y, field.z_mm]) - ball.corners_mm[face, 0]
    assert np.abs(np.einsum("ij,ij->i", away, ball.face_normals[face])).max() < 1e-9
    upper = ball.face_normals[face, 2] > 0
    assert np.array_equal(upper, (field.side & 1) == 1)


@pytest.mark.parametrize("cells", [3, 16])
def test_lines_far_apart_meet_the_same_faces_as_lines_looked_at_one_by_one(cells):
    """Many faces for each line: those whose ball no line meets are passed over unseen."""
    torus = shapes.torus(around=150, facets=100)
    turn, _ = np.linalg.qr(np.random.default_rng(cells).normal(size=(3, 3)))
    points = torus.vertices_mm @ turn.T
    grid = grid_over(points.min(axis=0), points.max(axis=0), cells, np.random.default_rng(2))
    assert len(torus.faces) >= 6 * grid.nx * grid.ny
    field = field_of(points, torus.faces, grid)
    turned = column_field(faces_for_lines(torus.vertices_mm, torus.faces), turn, grid)
    assert np.array_equal(field.side, turned.side)
    corners = points[torus.faces][:, :, :2]
    for line in range(grid.nx * grid.ny):
        row, column = divmod(line, grid.nx)
        place = np.array([grid.x0_mm, grid.y0_mm]) + grid.pitch_mm * np.array(
            [column + grid.shift_u[row], row + grid.shift_v[row]]
        )
        a, b, c = (corners[:, k] - place for k in range(3))
        pairs = ((a, b), (b, c), (c, a))
        cross = np.stack([p[:, 0] * q[:, 1] - p[:, 1] * q[:, 0] for p, q in pairs])
        met = np.flatnonzero((cross > 0).all(axis=0) | (cross < 0).all(axis=0))
        found = field.side[field.starts[line] : field.starts[line + 1]] >> 1
        assert np.array_equal(np.sort(found), met)


def test_shifts_of_rows_differ_from_row_to_row():
    """Spread evenly (a tenth of the rows for each tenth), neighbours unlike."""
    grid = grid_over([0, 0], [1, 1], 500, np.random.default_rng(4))
    for shifts in (grid.shift_u, grid.shift_v):
        assert (shifts >= 0).all()
        assert (shifts < 1).all()
        assert np.abs(np.histogram(shifts, 10, (0, 1))[0] - 50).max() <= 25
        assert abs(np.corrcoef(shifts[1:], shifts[:-1])[0, 1]) < 0.15
    assert abs(np.corrcoef(grid.shift_u, grid.shift_v)[0, 1]) < 0.15


def test_a_cancel_is_heard_and_leaves_no_field():
    ball = shapes.sphere(10, 4)
    progress = Progress()
    progress.cancel()
    for cells in (3, 200):  # faces looked at by their balls, and all of them one by one
        grid = grid_over([-10, -10], [10, 10], cells, np.random.default_rng(5))
        with pytest.raises(Cancelled):
            column_field(faces_for_lines(ball.vertices_mm, ball.faces), np.eye(3), grid, progress)
