"""Bodies that hang together in edges are parted by a hair, with the volume they had."""

import numpy as np
import pytest
import trimesh

from tests.geometry.mend.judges import accepted
from tests.shapes import box, sphere
from viewer.geometry.edge_faults import find_edge_faults
from viewer.geometry.mend.merge_near import merge_near
from viewer.geometry.mend.part_bodies import part_bodies
from viewer.geometry.mesh import Mesh

GAP_MM = 1e-3


def merged(*meshes: Mesh) -> Mesh:
    """As a file is read: corners of one place are one vertex."""
    points = np.vstack([mesh.corners_mm.reshape(-1, 3) for mesh in meshes])
    return merge_near(Mesh(points, np.arange(len(points)).reshape(-1, 3)), 1e-6).mesh


def checkerboard(cells: int) -> tuple[Mesh, int]:
    """Cubes of 10 on the dark fields of a board: each edge between two dark ones is shared."""
    dark = [(i, j) for i in range(cells) for j in range(cells) if (i + j) % 2 == 0]
    boxes = [box([10 * i, 10 * j, 0], [10 * i + 10, 10 * j + 10, 10]) for i, j in dark]
    return merged(*boxes), len(dark)


@pytest.mark.parametrize("cells", [2, 3, 5])
def test_cubes_of_a_checkerboard_are_parted(cells):
    board, cubes = checkerboard(cells)
    assert len(find_edge_faults(board.faces).crowded) == (cells - 1) ** 2  # inner corners, upright
    done = part_bodies(board, GAP_MM)
    assert accepted(done.mesh) == ""
    assert trimesh.Trimesh(done.vertices_mm, done.faces, process=False).body_count == cubes
    # What is drawn back is a hair beside each of 10 mm of edge: far below a millionth.
    assert done.mesh.signed_volume_mm3 == pytest.approx(1000.0 * cubes, rel=1e-3)
    assert done.mesh.signed_volume_mm3 < 1000.0 * cubes
    moved = np.linalg.norm(done.mesh.corners_mm - board.corners_mm[done.origin_face], axis=2)
    assert 0.0 < moved.max() <= 3.0 * GAP_MM


def test_without_a_gap_nothing_moves_at_all():
    board, cubes = checkerboard(3)
    done = part_bodies(board, 0.0)
    assert accepted(done.mesh) == ""
    np.testing.assert_array_equal(done.mesh.corners_mm, board.corners_mm)
    assert len(done.vertices_mm) == 8 * cubes


def test_a_part_without_shared_edges_stays_the_very_same():
    ball = sphere(10.0, 2)
    assert part_bodies(ball, GAP_MM).mesh is ball
