"""Sections of every layer against closed forms and against direct sections by trimesh."""

import manifold3d
import numpy as np
import pytest
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st
from trimesh.intersections import mesh_plane

from tests import shapes
from tests.few import few
from tests.shared_meshes import open_mesh
from viewer.errors import RequestProblem
from viewer.geometry.layer_profile import layer_moments, layer_profile
from viewer.geometry.mesh import Mesh
from viewer.geometry.pose import Pose, posed_vertices_mm, rotation_about_z
from viewer.geometry.prepared_part import prepare_part


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


REAL = ["trimesh-models/featuretype.STL", "so-arm100/Moving_Jaw_SO101.stl"]


def _real(name):
    read = trimesh.load_mesh(open_mesh(name))
    return prepare_part(Mesh(read.vertices, read.faces))


@pytest.mark.parametrize("name", REAL)
@pytest.mark.parametrize("up", [(0, 0, 1), (1, 2, 3), (-0.3, 0.8, -0.1)])
def test_like_polygons_of_a_real_part(name, up):
    """An independent library: the polygons of manifold3d's slices, holes and all."""
    part = _real(name)
    points = posed_vertices_mm(part.points_mm, Pose(up, 20.0))
    layer = points[:, 2].max() / 150.37
    profile = layer_moments(points, part.faces, layer)
    solid = manifold3d.Manifold(manifold3d.Mesh64(points, part.faces.astype(np.uint64)))
    assert solid.status() == manifold3d.Error.NoError
    for k in range(2, 150, 16):
        area, length, moment = 0.0, 0.0, np.zeros(2)
        for p in solid.slice((k + 0.5) * layer).to_polygons():
            q = np.roll(p, -1, axis=0)
            pieces = 0.5 * (p[:, 0] * q[:, 1] - p[:, 1] * q[:, 0])
            area += pieces.sum()
            length += np.linalg.norm(q - p, axis=1).sum()
            moment += pieces @ (p + q) / 3
        span = np.ptp(points, axis=0).max()
        assert profile.area_mm2[k] == pytest.approx(area, rel=1e-5)
        assert profile.perimeter_mm[k] == pytest.approx(length, rel=1e-5)
        assert profile.moment_mm3[k] == pytest.approx(moment, rel=1e-5, abs=1e-5 * area * span)


@pytest.mark.parametrize("name", REAL)
@pytest.mark.parametrize("up", [(0, 0, 1), (1, 2, 3)])
def test_layers_add_up_to_the_centre_of_mass(name, up):
    """An independent library: trimesh's volume and centre of mass."""
    part = _real(name)
    points = posed_vertices_mm(part.points_mm, Pose(up))
    solid = trimesh.Trimesh(points, part.faces, process=False)
    layer = points[:, 2].max() / 4000
    profile = layer_moments(points, part.faces, layer)
    area = profile.area_mm2
    height = (np.arange(len(area)) + 0.5) * layer
    assert area.sum() * layer == pytest.approx(solid.volume, rel=1e-3)
    centre = [*profile.moment_mm3.sum(axis=0), area @ height] / area.sum()
    assert centre == pytest.approx(solid.center_mass, abs=1e-3 * points[:, 2].max())


def test_moments_of_a_leaning_prism():
    """CALC: sections 400 mm² whose centre moves evenly by 20 over 60 in height, many planes a face.

    The walls meet all 600 planes, so this is the path of coefficients, cubic and all.
    """
    mesh = shapes.moved(shapes.sheared_prism(), [7, -3, 0])
    profile = layer_moments(mesh.vertices_mm, mesh.faces, 0.1)
    x = 17 + 20 * (np.arange(600) + 0.5) / 600
    assert profile.area_mm2 == pytest.approx(400, rel=1e-12)
    expected = np.column_stack([400 * x, np.full(600, 400 * 7.0)])
    assert profile.moment_mm3 == pytest.approx(expected, rel=1e-10)


def test_moments_of_a_slanting_cone():
    """CALC: r(z) shrinks as the axis drifts: moments are cubic in the height."""
    sides = 48
    points, faces = _posed(trimesh.creation.cone(10, 20, sections=sides), (0, 0, 1))
    points += [3, 5, 0]
    points[:, 0] += 0.4 * points[:, 2]
    profile = layer_moments(points, faces, 0.05)
    z = 20 * (np.arange(400) + 0.5) / 400
    area = sides / 2 * (10 - z / 2) ** 2 * np.sin(2 * np.pi / sides)
    expected = np.column_stack([area * (3 + 0.4 * z), area * 5])
    assert profile.moment_mm3 == pytest.approx(expected, rel=1e-9, abs=1e-9)


SHAPES = {
    "ring": shapes.torus(around=24, facets=16),
    "bracket": shapes.c_bracket(),
    "cavity": shapes.sealed_cavity(),
    "cone": shapes.cone(10, 25),
}
tops = st.tuples(*[st.floats(-1, 1)] * 3).filter(lambda v: np.linalg.norm(v) > 0.1)


@settings(max_examples=few(10, 25))
@given(st.sampled_from(sorted(SHAPES)), tops, st.floats(0, 360), st.floats(0.05, 3))
def test_turning_about_z_turns_the_moments_only(name, up, spin, layer):
    mesh = SHAPES[name]
    still = posed_vertices_mm(mesh.vertices_mm, Pose(up))
    turn = rotation_about_z(spin)
    one = layer_moments(still, mesh.faces, layer)
    other = layer_moments(still @ turn.T, mesh.faces, layer)
    slack = 1e-9 * one.area_mm2.max()
    assert other.area_mm2 == pytest.approx(one.area_mm2, rel=1e-8, abs=slack)
    assert other.perimeter_mm == pytest.approx(one.perimeter_mm, rel=1e-8, abs=1e-7)
    turned = one.moment_mm3 @ turn[:2, :2].T
    assert other.moment_mm3 == pytest.approx(turned, rel=1e-8, abs=100 * slack)


@settings(max_examples=few(10, 25))
@given(st.sampled_from(sorted(SHAPES)), tops, st.floats(0.2, 5), st.floats(0.05, 3))
def test_scaling_scales_and_both_functions_agree(name, up, factor, layer):
    mesh = SHAPES[name]
    points = posed_vertices_mm(mesh.vertices_mm, Pose(up))
    one = layer_moments(points, mesh.faces, layer)
    plain = layer_profile(points, mesh.faces, layer)
    assert (plain.area_mm2 == one.area_mm2).all()
    assert (plain.perimeter_mm == one.perimeter_mm).all()
    other = layer_moments(points * factor, mesh.faces, layer * factor)
    # A plane exactly through a level face may by rounding come to lie on its other side.
    near = np.abs(np.subtract.outer((np.arange(len(one.area_mm2)) + 0.5) * layer, points[:, 2]))
    clear = near.min(axis=1) > 1e-9
    slack = 1e-9 * one.area_mm2.max()
    for name_of, power in (("area_mm2", 2), ("perimeter_mm", 1), ("moment_mm3", 3)):
        expected = getattr(one, name_of)[clear] * factor**power
        got = getattr(other, name_of)[: len(clear)][clear]
        assert got == pytest.approx(expected, rel=1e-8, abs=100 * slack * factor**power)
