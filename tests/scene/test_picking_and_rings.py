"""What the pointer meets: faces against another library, rings in closed form."""

import numpy as np
import pytest
import trimesh
from trimesh.ray.ray_pyembree import RayMeshIntersector

from tests.shapes import cube, torus
from viewer.geometry.mesh import Mesh
from viewer.geometry.pose import Pose, pose_matrix
from viewer.scene.rings import nearest_ring, ring_points


@pytest.mark.parametrize("far_mm", [0.0, 10_000.0])
def test_pick_meets_what_trimesh_meets(stage, far_mm):
    """500 random lines of sight at a posed torus: the nearest hit, by trimesh with embree."""
    made = torus(20.0, 5.0, around=60, facets=40)
    mesh = Mesh(made.vertices_mm + far_mm, made.faces)
    matrix = pose_matrix(mesh.vertices_mm, Pose((1.0, 2.0, -0.5), 33.0))
    stage.scene.show_part(mesh)
    stage.scene.set_pose(matrix)
    random = np.random.default_rng(7)
    middle = np.array([0.0, 0.0, 15.0])
    away = random.normal(size=(500, 3))
    origins = 90.0 * away / np.linalg.norm(away, axis=1, keepdims=True) + middle
    towards = random.uniform(-14, 14, size=(500, 3)) + middle - origins
    turned = trimesh.Trimesh(
        mesh.vertices_mm @ matrix[:3, :3].T + matrix[:3, 3], mesh.faces, process=False
    )
    places, rays, faces = RayMeshIntersector(turned).intersects_location(
        origins, towards, multiple_hits=False
    )
    nearest = dict(zip(rays.tolist(), zip(places, faces.tolist(), strict=True), strict=True))
    assert 200 < len(nearest) < 500  # some meet it, some pass through the hole or by
    back = np.linalg.inv(matrix)
    for ray in range(500):
        hit = stage.scene.pick(origins[ray], towards[ray])
        assert (hit is None) == (ray not in nearest)
        if hit is not None:
            place, face = nearest[ray]
            wanted = back[:3, :3] @ place + back[:3, 3]
            np.testing.assert_allclose(hit[1], wanted, atol=1e-3)
            across = np.linalg.norm(mesh.corners_mm[face].mean(0) - mesh.corners_mm[hit[0]].mean(0))
            assert hit[0] == face or across < 2.0  # an edge belongs to both its faces


def test_painting_does_not_rebuild_the_locator(stage):
    scene = stage.scene
    scene.show_part(cube())
    bare = scene._part.bare_shape
    before = bare.GetMTime()
    assert scene.pick(np.array([1.0, 2.0, 100.0]), np.array([0, 0, -1.0]))[0] in range(12)
    scene.set_classes(np.ones(12, np.uint8))
    stage.draw()
    assert bare.GetMTime() == before
    assert bare.GetCellData().GetScalars() is None


def test_a_line_of_sight_leads_back_to_its_pixel(stage):
    scene = stage.scene
    scene.show_part(cube())
    scene.set_view_direction("corner")
    stage.draw()
    for x, y in ((120, 120), (80, 140), (150.5, 99.5)):
        origin, direction = scene.display_ray(x, y)
        assert np.linalg.norm(direction) == pytest.approx(1.0)
        for along in (5.0, 40.0):
            np.testing.assert_allclose(stage.display(origin + along * direction), [x, y], atol=1e-3)
        hit = scene.pick(origin, direction)
        np.testing.assert_allclose(stage.display(hit[1]), [x, y], atol=1e-2)


def test_no_part_no_pick(stage):
    assert stage.scene.pick(np.zeros(3), np.array([0, 0, 1.0])) is None
    stage.scene.show_part(cube())
    stage.scene.show_part(None)
    assert stage.scene.pick(np.array([0, 0, 100.0]), np.array([0, 0, -1.0])) is None


@pytest.mark.parametrize("axis", [0, 1, 2])
def test_pointer_on_a_ring_hits_it(stage, axis):
    scene = stage.scene
    scene.show_part(cube(40.0))
    scene.show_rings(True)
    scene.set_view_direction((0.6, -1.0, 0.7))
    stage.step_back(0.6)
    stage.draw()
    rings = [
        np.array(
            [
                stage.display(p)
                for p in ring_points(k, scene.ring_centre_mm(), scene._rings.radius_mm)
            ]
        )
        for k in range(3)
    ]
    others = np.concatenate([ring for k, ring in enumerate(rings) if k != axis])
    tried, aside = 0, np.array([4.0, 0.0])
    for point in rings[axis]:
        if np.linalg.norm(others - point, axis=1).min() > 15:  # not where rings cross
            assert scene.hit_ring(*point) == axis
            assert scene.hit_ring(*(point + aside)) == axis
            tried += 1
    assert tried > 20
    scene.show_rings(False)
    assert scene.hit_ring(*rings[axis][0]) is None


def test_away_from_all_rings_nothing_is_hit(stage):
    stage.scene.show_part(cube(40.0))
    stage.scene.show_rings(True)
    stage.draw()
    assert stage.scene.hit_ring(3.0, 3.0) is None


def test_highlight_and_hide_are_seen(stage):
    scene = stage.scene
    scene.show_part(cube())
    scene.set_view_direction("corner")
    stage.step_back(0.6)
    bare = stage.draw()
    scene.show_rings(True)
    plain = stage.draw()
    scene.highlight_ring(2)
    strong = stage.draw()
    assert (np.abs(plain - bare).max(axis=2) > 0.1).sum() > 500
    changed = np.abs(strong - plain).max(axis=2) > 0.1
    assert changed.sum() > 200
    scene.highlight_ring(None)
    np.testing.assert_array_equal(stage.draw(), plain)
    scene.show_rings(False)
    np.testing.assert_array_equal(stage.draw(), bare)


def test_rings_follow_the_part(stage):
    scene = stage.scene
    scene.show_part(cube())
    matrix = np.eye(4)
    matrix[:3, 3] = [3.0, -4.0, 10.0]
    scene.set_pose(matrix)
    np.testing.assert_allclose(scene.ring_centre_mm(), [3.0, -4.0, 10.0])


def test_nearest_of_several_lines_wins_within_13_pixels():
    level = np.array([[0.0, 0.0], [100.0, 0.0]])
    higher = level + np.array([0.0, 20.0])
    assert nearest_ring([level, higher], 50, 8) == 0
    assert nearest_ring([level, higher], 50, 12) == 1
    assert nearest_ring([level, higher], 50, 33.1) is None
    assert nearest_ring([level, higher], 50, 32.9) == 1
    assert nearest_ring([level, higher], 114, 0) is None
