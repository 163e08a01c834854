"""A large part is drawn coarser while something moves, in every lens, and in full at rest."""

import numpy as np
import pytest

from tests.scene.scenery import Shown, pose_of, tilted
from tests.shapes import torus
from viewer.geometry import known_of_mesh
from viewer.geometry.known_of_mesh import get_to_know
from viewer.geometry.mesh import Mesh
from viewer.scene.lenses import Lens


@pytest.fixture
def large(stage, monkeypatch):
    monkeypatch.setattr(known_of_mesh, "LARGE_FACES", 10_000)
    monkeypatch.setattr(known_of_mesh, "MOVING_FACES", 4000)
    return shown(stage.scene)


def shown(scene):
    ring = torus(20.0, 6.0, 160, 90)
    mesh = Mesh(ring.vertices_mm, ring.faces)
    get_to_know(mesh)
    scene.show_part(mesh)
    scene.set_classes((mesh.corners_mm.mean(axis=1)[:, 0] > 0.0).astype(np.uint8))
    scene.set_pose(pose_of(mesh, tilted(20.0)))
    scene.fit_view()
    return mesh


def unlike(one, other) -> float:
    """Share of the pixels that are clearly of another colour."""
    return float((np.abs(one - other).max(axis=2) > 0.15).mean())


@pytest.mark.parametrize("lens", list(Lens))
def test_it_looks_like_the_part_in_every_lens(stage, large, lens):
    scene = stage.scene
    share = (large.face_normals[:, 2] < -0.8).astype(float)
    scene.set_lens(lens)
    scene.show_measures(Shown(share, share > 0.5))
    scene.show_deviation(np.linspace(0.0, 1.0, large.face_count))
    whole = stage.draw()
    assert scene.set_moving(True)
    coarse = stage.draw()
    assert 0.0 < unlike(whole, coarse) < (0.12 if lens is Lens.PRINTED else 0.06)
    assert scene.set_moving(False)
    assert np.array_equal(stage.draw(), whole)
    assert not scene.set_moving(False)


def test_what_is_marked_while_it_moves_shows_at_once_and_at_rest(stage, large):
    scene = stage.scene
    before = stage.draw()
    scene.set_moving(True)
    moving = stage.draw()
    scene.set_classes(np.full(large.face_count, 2, np.uint8))
    assert unlike(stage.draw(), moving) > 0.05
    scene.set_moving(False)
    marked = stage.draw()
    assert unlike(marked, before) > 0.05
    scene.set_moving(True)
    scene.cut_at(6.0)
    cut = stage.draw()
    scene.set_moving(False)
    assert unlike(stage.draw(), cut) < 0.06 < unlike(cut, marked)
    scene.cut_at(None)


def test_a_small_part_has_none(stage):
    shown(stage.scene)
    assert not stage.scene.has_stand_in
    assert not stage.scene.set_moving(True)


def test_a_vast_part_is_picked_by_its_own_faces(stage, monkeypatch):
    monkeypatch.setattr(known_of_mesh, "LARGE_FACES", 10_000)
    monkeypatch.setattr(known_of_mesh, "VAST_FACES", 20_000)
    monkeypatch.setattr(known_of_mesh, "MOVING_FACES", 1000)
    monkeypatch.setattr(known_of_mesh, "RESTING_FACES", 9000)
    mesh = shown(stage.scene)
    scene = stage.scene
    assert scene._part.bare_shape.GetNumberOfCells() <= 9000 < mesh.face_count
    for around in np.linspace(0.0, 2 * np.pi, 12):
        top = np.array([20 * np.cos(around), 20 * np.sin(around), 6.0])
        matrix = scene.matrix
        over = matrix[:3, :3] @ (top + np.array([0.0, 0.0, 30.0])) + matrix[:3, 3]
        face, point = scene.pick(over, matrix[:3, :3] @ [0, 0, -1.0])
        assert np.linalg.norm(point - top) < 0.2
        assert np.linalg.norm(mesh.corners_mm[face].mean(axis=0) - top) < 1.5
