"""How far surfaces lie apart: closed forms, an independent library, and what must always hold."""

import math

import numpy as np
import pytest
import trimesh

from tests.geometry.mend.judges import distances_mm
from tests.shapes import box, cube, joined, moved, scaled, sphere, turned_inside_out
from viewer.errors import Cancelled
from viewer.geometry.deviation import find_deviation, one_way
from viewer.geometry.mesh import Mesh
from viewer.progress import Progress


def plane(side: float, height: float) -> Mesh:
    corners = [(0, 0, height), (side, 0, height), (side, side, height), (0, side, height)]
    return Mesh(np.array(corners, float), [(0, 1, 2), (0, 2, 3)])


def test_parallel_planes_lie_their_gap_apart():
    found = find_deviation(plane(20.0, 0.0), plane(20.0, 0.3))
    for way in (found.new, found.old):
        for value in (way.max_mm, way.share_95_mm, way.mean_mm, *way.face_mm):
            assert value == pytest.approx(0.3, rel=1e-6)


def test_a_tilted_plane_has_the_mean_and_the_share_of_a_ramp():
    """z = x / 100 over a square of 20 · 20 mm: 0 to 0.2, mean 0.1, 95 % within 0.19, all times the
    cosine of the tilt, since distance is measured square to the surface (CALC).
    """
    flat = plane(60.0, 0.0)
    ramp = Mesh(
        np.array([(20, 20, 0), (40, 20, 0.2), (40, 40, 0.2), (20, 40, 0)], float),
        [(0, 1, 2), (0, 2, 3)],
    )
    way = one_way(ramp, flat)
    assert way.max_mm == pytest.approx(0.2)
    assert way.mean_mm == pytest.approx(0.1, rel=1e-3)
    assert way.share_95_mm == pytest.approx(0.19, rel=1e-3)


def test_balls_in_one_middle_lie_the_difference_of_their_radii_apart():
    inner, outer = sphere(10.0, 6), sphere(10.5, 6)
    found = find_deviation(inner, outer)
    assert found.new.max_mm == pytest.approx(0.5, abs=0.001)  # facets: 10.5 · (1 − cos 0.9°)
    assert found.new.mean_mm == pytest.approx(0.5, abs=0.001)
    assert found.old.mean_mm == pytest.approx(0.5, abs=0.001)


def test_a_faceted_ball_lies_off_the_round_one_by_the_height_of_its_facets():
    """The middle of a facet with corners at radius r and side s: r − √(r² − s²/3) (CALC)."""
    coarse, fine = sphere(10.0, 2), sphere(10.0, 6)
    sides = np.linalg.norm(coarse.corners_mm - np.roll(coarse.corners_mm, 1, axis=1), axis=2)
    highest = 10.0 - math.sqrt(100.0 - sides.max() ** 2 / 3.0)
    way = one_way(coarse, fine)
    assert 0.7 * highest < way.max_mm <= 1.05 * highest
    assert way.mean_mm < way.share_95_mm < way.max_mm


def test_what_was_dropped_shows_from_the_old_surface_only():
    bit = moved(cube(1.0), (0.0, 0.0, 15.0))
    found = find_deviation(joined(cube(20.0), bit), cube(20.0))
    assert found.new.max_mm < 1e-12
    assert found.old.max_mm == pytest.approx(5.5)  # the top of the bit over the cube (CALC)
    assert found.max_mm == found.old.max_mm
    assert np.flatnonzero(found.old.face_mm > 1.0).tolist() == list(range(12, 24))


def test_mean_share_and_largest_equal_those_of_a_library():
    """trimesh draws its own random places on the surface and finds their distances by itself."""
    mesh, other = sphere(5.0, 4), box([-3, -4, -2], [6, 4, 3])
    body = trimesh.Trimesh(mesh.vertices_mm, mesh.faces, process=False)
    places, _ = trimesh.sample.sample_surface(body, 20_000, seed=7)
    distances, at_vertices = distances_mm(other, places), distances_mm(other, mesh.vertices_mm)
    way = one_way(mesh, other)
    assert way.mean_mm == pytest.approx(distances.mean(), rel=0.02)
    assert way.share_95_mm == pytest.approx(np.quantile(distances, 0.95), rel=0.02)
    assert at_vertices.max() - 1e-9 <= way.max_mm < at_vertices.max() + 0.01
    expected = at_vertices[mesh.faces].max(axis=1)
    assert (way.face_mm >= expected - 1e-6).all()
    assert (way.face_mm <= expected + 0.35).all()  # no place on a facet is farther from a corner


def test_a_surface_lies_on_itself_however_it_is_wound_or_cut():
    mesh = sphere(10.0, 4)
    for other in (mesh, turned_inside_out(mesh), Mesh(mesh.vertices_mm, mesh.faces[::-1])):
        assert find_deviation(mesh, other).max_mm < 1e-9


def test_it_grows_with_the_part_and_is_the_same_from_either_end():
    a, b = cube(20.0), moved(sphere(11.0, 4), (0.3, 0.2, 0.1))
    found, back = find_deviation(a, b), find_deviation(b, a)
    assert (found.new.max_mm, found.old.mean_mm) == (back.old.max_mm, back.new.mean_mm)
    tenfold = find_deviation(scaled(a, 10.0), scaled(b, 10.0))
    assert tenfold.max_mm == pytest.approx(10.0 * found.max_mm, rel=1e-9)
    assert tenfold.mean_mm == pytest.approx(10.0 * found.mean_mm, rel=1e-9)


def test_nothing_lies_off_nothing_and_a_cancel_is_heard():
    empty = Mesh(np.zeros((0, 3)), np.zeros((0, 3), int))
    assert find_deviation(empty, cube()).max_mm == 0.0
    assert find_deviation(cube(), empty).max_mm == 0.0
    stopped = Progress()
    stopped.cancel()
    with pytest.raises(Cancelled):
        find_deviation(cube(), sphere(), stopped)
