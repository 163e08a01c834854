"""Files that several commands are tried on."""

import pytest
import trimesh


@pytest.fixture
def post_and_cap(tmp_path):
    """Post 10 × 10 × 20 with a cap 30 × 30 × 5 on top, as one closed shell (made by trimesh)."""
    post = trimesh.creation.box(bounds=[[-5, -5, 0], [5, 5, 20]])
    cap = trimesh.creation.box(bounds=[[-15, -15, 20], [15, 15, 25]])
    path = tmp_path / "post-and-cap.stl"
    trimesh.boolean.union([post, cap], engine="manifold").export(path)
    return path
