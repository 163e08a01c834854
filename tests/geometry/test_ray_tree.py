"""Faces along rays, against Embree (a library made for rays) and against plain geometry (CALC)."""

import numpy as np
import pytest
from embreex.mesh_construction import TriangleMesh
from embreex.rtcore_scene import EmbreeScene

from tests import shapes
from viewer.geometry.ray_tree import build_ray_tree, meets_anything, nearest_hit


def random_rays(count: int, size_mm: float, seed: int):
    rng = np.random.default_rng(seed)
    origins = rng.uniform(-size_mm, size_mm, (count, 3))
    directions = rng.normal(size=(count, 3))
    return origins, directions / np.linalg.norm(directions, axis=1)[:, None]


@pytest.mark.parametrize(
    "mesh",
    [shapes.sphere(10, 4), shapes.torus(around=90, facets=61), shapes.cube(), shapes.c_bracket()],
)
def test_the_same_nearest_hit_as_embree(mesh):
    """Same hit or miss, same distance to what float32, in which Embree counts, can tell."""
    tree = build_ray_tree(mesh.vertices_mm, mesh.faces)
    origins, directions = random_rays(3000, 25, 1)
    scene = EmbreeScene()
    TriangleMesh(scene, mesh.corners_mm.astype(np.float32))
    theirs = scene.run(origins.astype(np.float32), directions.astype(np.float32), output=True)
    hits, wrong = 0, 0
    for i, (origin, direction) in enumerate(zip(origins, directions, strict=True)):
        distance, place = nearest_hit(tree, origin, direction, 1000.0)
        assert (place >= 0) == meets_anything(tree, origin, direction, 1000.0)
        hit = theirs["primID"][i] >= 0
        if hit != (place >= 0) or (hit and abs(distance - theirs["tfar"][i]) > 1e-3):
            wrong += 1  # a ray within rounding of an edge
            continue
        hits += hit
        if hit:
            corners = mesh.corners_mm[tree.order[place]]
            normal = np.cross(corners[1] - corners[0], corners[2] - corners[0])
            off = np.dot(origin + distance * direction - corners[0], normal)
            assert abs(off) <= 1e-9 * np.linalg.norm(normal) * 100
    assert hits > 200
    assert wrong <= 3


def test_reach_ends_both_questions():
    """From the middle of a cube of 20 each side is 10 away; a reach of just less sees nothing."""
    tree = build_ray_tree(shapes.cube().vertices_mm, shapes.cube().faces)
    middle = np.zeros(3)
    for axis in range(3):
        for sign in (-1.0, 1.0):
            direction = np.zeros(3)
            direction[axis] = sign
            assert nearest_hit(tree, middle, direction, 10.0)[0] == pytest.approx(10, abs=1e-12)
            assert nearest_hit(tree, middle, direction, 9.999) == (np.inf, -1)
            assert meets_anything(tree, middle, direction, 10.0)
            assert not meets_anything(tree, middle, direction, 9.999)


def test_rays_along_the_axes_and_in_the_plane_of_a_box():
    """Directions with zeros, and origins exactly on the planes of boxes, lose no face."""
    tree = build_ray_tree(shapes.cube().vertices_mm, shapes.cube().faces)
    for across in (-10.0, 0.0, 3.0, 10.0):
        for along in (0, 1, 2):
            direction, origin = np.zeros(3), np.full(3, across)
            direction[along], origin[along] = 1.0, -50.0
            assert nearest_hit(tree, origin, direction, 1e3)[0] == pytest.approx(40, abs=1e-9)
            origin[(along + 1) % 3] = 10.5
            assert not meets_anything(tree, origin, direction, 1e3)


def test_no_way_out_of_a_sealed_cavity():
    mesh = shapes.sealed_cavity()
    tree = build_ray_tree(mesh.vertices_mm, mesh.faces)
    _, directions = random_rays(500, 1, 2)
    inside, outside = np.full(3, 9.3), np.array([10.0, 10.0, 30.0])
    assert all(meets_anything(tree, inside, direction, 1e3) for direction in directions)
    free = [not meets_anything(tree, outside, direction, 1e3) for direction in directions]
    assert 0.5 < np.mean(free) < 1


def test_a_ray_that_may_go_on_for_ever_still_misses():
    mesh = shapes.cube(20.0)
    tree = build_ray_tree(mesh.vertices_mm, mesh.faces)
    up = np.array([0.0, 0.0, 1.0])
    assert nearest_hit(tree, np.array([3.0, 4.0, 20.5]), up, np.inf) == (np.inf, -1)
    assert not meets_anything(tree, np.array([3.0, 4.0, 20.5]), up, np.inf)
    assert nearest_hit(tree, np.array([3.0, 4.0, -30.0]), up, np.inf)[0] == pytest.approx(20.0)
