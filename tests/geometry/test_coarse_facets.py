"""How far flats lie from their curve, against the sagitta of a chord (CALC)."""

import numpy as np
import pytest
import trimesh

from tests.shapes import box, extruded, turned_profile
from viewer.geometry.coarse_facets import LEAST_MM, chord_errors_mm
from viewer.geometry.face_neighbours import face_neighbours
from viewer.geometry.mesh import Mesh
from viewer.geometry.mesh_health import check_mesh


def errors(mesh):
    neighbours = face_neighbours(mesh.faces)
    return chord_errors_mm(mesh.vertices_mm, mesh.faces, neighbours, mesh.face_normals)


def sagitta(radius, sides):
    """R·(1 − cos(π/n)): how far the middle of a side of an n-gon lies inside its circle."""
    return radius * (1 - np.cos(np.pi / sides))


@pytest.mark.parametrize("sides", [12, 16, 32, 64, 200])
@pytest.mark.parametrize("radius", [3.0, 25.0])
def test_a_cylinder_of_so_many_sides(sides, radius):
    tube = turned_profile([(radius, 0.0), (radius, 30.0)], sides)
    upright = np.abs(tube.face_normals[:, 2]) < 0.5
    wanted = sagitta(radius, sides)
    assert errors(tube)[upright] == pytest.approx(wanted if wanted > LEAST_MM else 0, rel=1e-5)
    assert (errors(tube)[~upright] == 0).all()


@pytest.mark.parametrize("level", [2, 3, 4])
def test_an_icosphere_lies_inside_its_ball_by_about_so_much(level):
    """The middle of each face is the point farthest inside; both kinds of chord are near it."""
    made = trimesh.creation.icosphere(level, 20.0)
    inside = 20.0 - np.linalg.norm(made.triangles_center, axis=1)
    ours = errors(Mesh(made.vertices, made.faces))
    assert ours.max() < 1.5 * inside.max()
    assert np.median(ours) > 0.25 * np.median(inside)


def test_flat_parts_chamfers_and_planes_between_roundings_are_no_curves():
    assert errors(box([0] * 3, [20] * 3)).max() == 0
    chamfered = [(0, 0), (40, 0), (40, 19), (38, 20), (2, 20), (0, 19)]  # 26.6° from the top
    assert errors(extruded(chamfered, 20)).max() == 0
    roof = [(0, 0), (40, 0), (40, 10), (20, 15), (0, 10)]  # 28° at the ridge
    assert errors(extruded(roof, 20)).max() == 0
    turn = np.radians(np.linspace(0, 90, 10))
    rounded = [(0, 0), (40, 0), (40, 18)]
    rounded += [(38 + 2 * np.cos(a), 18 + 2 * np.sin(a)) for a in turn[1:]] + [(0, 20)]
    found = errors(extruded(rounded, 20))
    assert found.max() == pytest.approx(sagitta(2.0, 36), rel=0.01)  # of the rounding alone


def test_the_layer_decides():
    """64 sides of radius 25 lie 0.030 mm inside: coarser than a quarter of 0.1, not of 0.2."""
    tube = turned_profile([(25.0, 0.0), (25.0, 30.0)], 64)
    assert check_mesh(tube, layer_mm=0.2).faults == ()
    (fault,) = check_mesh(tube, layer_mm=0.1).faults
    assert (fault.kind, fault.count, fault.gravity) == ("coarse_facets", 128, "harmless")
    assert (fault.from_mm, fault.to_mm) == (0, 30)
    assert "0.03 mm" in fault.advice
    assert check_mesh(tube, layer_mm=0.1).verdict == "sound"
