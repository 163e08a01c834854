"""Sections of every layer against closed forms and against direct sections by trimesh."""

import numpy as np
import pytest
import trimesh
from trimesh.intersections import mesh_plane

from viewer.errors import RequestProblem
from viewer.geometry.layer_profile import layer_profile
from viewer.geometry.pose import Pose, posed_vertices_mm


def _posed(mesh, up):
    points = posed_vertices_mm(np.asarray(mesh.vertices, np.float64), Pose(up, 20.0))
    return points, np.asarray(mesh.faces, np.int32)


def test_a_standing_box():
    """CALC: every section is 10 × 20; planes through no corner."""
    points, faces = _posed(trimesh.creation.box((10, 20, 30)), (0, 0, 1))
    profile = layer_profile(points, faces, 0.2)
    assert len(profile.area_mm2) == 150
    assert profile.area_mm2 == pytest.approx(200, rel=1e-12)
    assert profile.perimeter_mm == pytest.approx(60, rel=1e-12)


def test_a_cone():
    """CALC: a cone r 10, h 20, of n sides: area n/2·r²·sin(2π/n), perimeter 2n·r·sin(π/n)."""
    sides = 64
    cone = trimesh.creation.cone(10, 20, sections=sides)
    points, faces = _posed(cone, (0, 0, 1))
    profile = layer_profile(points, faces, 0.1)
    radius = 10 * (1 - (np.arange(200) + 0.5) / 200)
    area = sides / 2 * radius**2 * np.sin(2 * np.pi / sides)
    assert profile.area_mm2 == pytest.approx(area, rel=1e-9)
    perimeter = 2 * sides * radius * np.sin(np.pi / sides)
    assert profile.perimeter_mm == pytest.approx(perimeter, rel=1e-9)


@pytest.mark.parametrize("up", [(0, 0, 1), (1, 2, 3), (-0.3, 0.8, -0.1), (1, 0, 0)])
def test_like_direct_sections_of_a_ring(up):
    points, faces = _posed(trimesh.creation.torus(20, 5, 60, 30), up)
    profile = layer_profile(points, faces, 0.37)
    solid = trimesh.Trimesh(points, faces, process=False)
    for k in range(3, len(profile.area_mm2) - 1, 7):
        height = [0, 0, (k + 0.5) * 0.37]
        # Shoelace over trimesh's cuts, each with the material on its left.
        ends, cut_faces = mesh_plane(solid, [0, 0, 1], height, return_faces=True)
        p, q = ends[:, 0], ends[:, 1]
        outward = solid.face_normals[cut_faces]
        along = (q - p)[:, 1] * outward[:, 0] - (q - p)[:, 0] * outward[:, 1]
        area = np.sum(np.sign(along) * (p[:, 0] * q[:, 1] - p[:, 1] * q[:, 0])) / 2
        assert profile.area_mm2[k] == pytest.approx(area, rel=1e-6)
        assert profile.perimeter_mm[k] == pytest.approx(
            np.linalg.norm(q - p, axis=1).sum(), rel=1e-6
        )


@pytest.mark.parametrize("up", [(0, 0, 1), (1, 2, 3), (-0.3, 0.8, -0.1)])
def test_areas_sum_to_the_volume(up):
    """CALC: the midpoint rule over smooth sections, error of order (layer / height)²."""
    solid = trimesh.creation.icosphere(3, 10)
    points, faces = _posed(solid, up)
    layer = points[:, 2].max() / 2000
    profile = layer_profile(points, faces, layer)
    assert profile.area_mm2.sum() * layer == pytest.approx(solid.volume, rel=1e-6)


def test_planes_through_corners_and_level_faces():
    """CALC: the middle of layer 0 lies in the box's own top and in its bottom."""
    points, faces = _posed(trimesh.creation.box((4, 4, 4)), (0, 0, 1))
    profile = layer_profile(points, faces, 4.0, platform_mm=-2.0)
    # The plane z = 0 cuts just above the bottom; z = 4 has left the part.
    assert profile.area_mm2 == pytest.approx([16, 0], abs=1e-12)
    assert profile.perimeter_mm == pytest.approx([16, 0], abs=1e-12)


def test_far_from_the_origin():
    points, faces = _posed(trimesh.creation.icosphere(3, 10), (1, 2, 3))
    near = layer_profile(points, faces, 0.1)
    far = layer_profile(points + np.array([10_000, -10_000, 0]), faces, 0.1)
    assert far.area_mm2 == pytest.approx(near.area_mm2, rel=1e-7, abs=1e-9)


@pytest.mark.parametrize("layer", [0.0, -1.0, float("nan"), 1e-9])
def test_refuses_layers_that_cannot_be(layer):
    points, faces = _posed(trimesh.creation.box((4, 4, 4)), (0, 0, 1))
    with pytest.raises(RequestProblem, match="layer height"):
        layer_profile(points, faces, layer)


def test_nothing_has_no_layers():
    profile = layer_profile(np.zeros((0, 3)), np.zeros((0, 3), np.int32), 0.2)
    assert len(profile.area_mm2) == len(profile.perimeter_mm) == 0
