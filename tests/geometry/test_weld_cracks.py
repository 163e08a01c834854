"""Cracks that only rounding made are closed; seams that are really open stay open."""

import numpy as np
import pytest
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.few import few
from viewer.geometry.edge_faults import find_edge_faults
from viewer.geometry.weld_cracks import weld_cracks


def soup(mesh, shake, seed=3):
    """Every face with corners of its own, each shaken a little."""
    corners = mesh.triangles.reshape(-1, 3)
    corners = corners + np.random.default_rng(seed).uniform(-shake, shake, corners.shape)
    return corners, np.arange(len(corners), dtype=np.int32).reshape(-1, 3)


def test_a_shaken_soup_becomes_the_closed_sphere_again():
    sphere = trimesh.creation.icosphere(3, 10.0)
    vertices, faces = soup(sphere, 1e-6)
    welded = weld_cracks(vertices, faces, find_edge_faults(faces).open, 1e-5)
    assert len(np.unique(welded)) == len(sphere.vertices)
    assert len(find_edge_faults(welded).open) == 0
    # Each corner still is where it was, to within the shaking.
    assert np.abs(vertices[welded] - vertices[faces]).max() <= 2e-6


def test_a_wider_seam_stays_open():
    sphere = trimesh.creation.icosphere(2, 10.0)
    vertices, faces = soup(sphere, 1e-3)
    welded = weld_cracks(vertices, faces, find_edge_faults(faces).open, 1e-5)
    assert len(find_edge_faults(welded).open) > 0.9 * 3 * len(faces)


def test_closed_meshes_pass_unchanged():
    box = trimesh.creation.box((1, 1, 1e-6))  # thinner than the distance, but closed
    faces = box.faces.astype(np.int32)
    assert weld_cracks(box.vertices, faces, find_edge_faults(faces).open, 1e-3) is faces


@given(st.integers(0, 10**6))
@settings(max_examples=few(13, 40), deadline=None)
def test_groups_are_those_of_all_pairs_within_the_distance(seed):
    """Against the plain definition: connected groups of the graph of near pairs."""
    points = np.random.default_rng(seed).uniform(0, 1, (60, 3)) * [1, 1, 0.05]
    near = np.linalg.norm(points[:, None] - points[None], axis=2) <= 0.12
    label = np.arange(60)
    for _ in range(60):
        label = np.where(near, label[None, :], 60).min(axis=1)
    faces = np.arange(60, dtype=np.int32).reshape(-1, 3)
    edges = np.stack([np.arange(60), np.roll(np.arange(60), 1)], axis=1)
    welded = weld_cracks(points, faces, edges, 0.12)
    assert welded.ravel().tolist() == label.tolist()


@pytest.mark.parametrize("count", [0, 1])
def test_nothing_to_join(count):
    faces = np.array([[0, 1, 2]], np.int32)
    edges = np.zeros((count, 2), np.int32)
    assert weld_cracks(np.eye(3), faces, edges, 0.1) is faces
