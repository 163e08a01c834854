"""Lines on a rough surface: specks are left out, real edges and small features stay."""

import numpy as np
import pytest

from tests.shapes import box, cube, sphere
from viewer.geometry.drawn_edges import borders_to_draw, creases_to_draw
from viewer.geometry.face_neighbours import face_neighbours
from viewer.geometry.mesh import Mesh
from viewer.scene.lasting_lines import _chains, all_noise, without_specks


def creases(mesh: Mesh) -> np.ndarray:
    return creases_to_draw(mesh.faces, face_neighbours(mesh.faces), mesh.face_normals, 40.0)


def test_every_edge_of_a_box_stays():
    ends = creases(cube())
    assert len(ends) == 12
    np.testing.assert_array_equal(without_specks(ends, cube().vertices_mm), ends)


def test_chains_are_told_apart():
    points = np.array([[x, y, 0.0] for y in range(2) for x in range(5)])
    ends = np.array([[0, 1], [5, 6], [1, 2], [6, 7], [8, 9]])
    chain = _chains(ends, points)
    assert chain[0] == chain[2]
    assert chain[1] == chain[3]
    assert len(set(chain.tolist())) == 3


def test_on_a_noisy_ball_specks_go_and_on_its_plinth_edges_stay():
    rng = np.random.default_rng(7)
    ball = sphere(20.0, 6)
    rough = ball.vertices_mm + rng.normal(0.0, 0.06, ball.vertices_mm.shape)
    plinth = box((-3, -3, -30), (3, 3, -24))
    mesh = Mesh(
        np.concatenate([rough, plinth.vertices_mm]),
        np.concatenate([ball.faces, plinth.faces + len(rough)]),
    )
    ends = creases(mesh)
    kept = without_specks(ends, mesh.vertices_mm)
    on_plinth = (kept >= len(rough)).all(axis=1)
    assert on_plinth.sum() == 12
    specks = (ends < len(rough)).all(axis=1).sum()
    assert specks > 500
    assert (~on_plinth).sum() < 0.1 * specks


@pytest.mark.parametrize(("noise", "expected"), [(0.0, False), (1.0, True)])
def test_borders_of_single_faces_are_noise_and_round_a_region_they_are_not(noise, expected):
    ball = sphere(20.0, 6)
    rng = np.random.default_rng(7)
    height = ball.vertices_mm[ball.faces].mean(axis=1)[:, 2]
    labels = (height + noise * rng.normal(0.0, 12.0, len(height)) > 8.0).astype(np.uint8)
    ends = borders_to_draw(ball.faces, face_neighbours(ball.faces), labels)
    assert all_noise(ends, labels) is expected
