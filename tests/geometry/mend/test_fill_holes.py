"""Holes of known area and shape are found and closed: flat, curved, with islands, thousands."""

import math

import numpy as np
import pytest

from tests.geometry.mend.judges import accepted
from tests.shapes import (
    box,
    cube,
    cylinder,
    joined,
    moved,
    sphere,
    turned_inside_out,
    without_faces,
)
from viewer.geometry.mend.fill_holes import fill_holes
from viewer.geometry.mend.find_holes import find_holes, lone_triangles, measure_holes
from viewer.geometry.mesh import Mesh


def side(mesh: Mesh, axis: int) -> np.ndarray:
    return np.flatnonzero(mesh.face_normals[:, axis] > 0.5)


def test_a_hole_of_known_area_and_extent():
    part = box([0, 0, 0], [20, 30, 40])
    (hole,) = find_holes(without_faces(part, side(part, 2)))
    assert hole.flat
    assert hole.area_mm2 == pytest.approx(600.0)
    assert hole.extent_mm == pytest.approx(math.hypot(20.0, 30.0))
    np.testing.assert_allclose(hole.normal, [0, 0, 1], atol=1e-12)


@pytest.mark.parametrize("axis", [0, 1, 2])
def test_a_flat_side_is_closed_to_the_last_digit(axis):
    part = box([0, 0, 0], [20, 30, 40])
    done = fill_holes(without_faces(part, side(part, axis)))
    assert accepted(done.mesh) == ""
    assert done.mesh.signed_volume_mm3 == pytest.approx(24_000.0, rel=1e-12)
    assert done.mesh.face_count == 12


def test_the_end_of_a_cylinder():
    """The lid over a polygon of n sides has n − 2 faces, and the area n/2 · r² · sin(2π/n)."""
    part = cylinder(10.0, 30.0)
    top = np.flatnonzero((part.face_normals[:, 2] > 0.5) & (part.corners_mm[:, :, 2].min(1) > 29.9))
    sides = len(top)
    open_one = without_faces(part, top)
    (hole,) = find_holes(open_one)
    assert len(hole.corners) == sides
    area = 0.5 * sides * 100.0 * math.sin(2.0 * math.pi / sides)
    assert hole.area_mm2 == pytest.approx(area)
    done = fill_holes(open_one)
    assert accepted(done.mesh) == ""
    assert done.mesh.face_count == open_one.face_count + sides - 2
    assert done.mesh.signed_volume_mm3 == pytest.approx(part.signed_volume_mm3, rel=1e-12)


def test_a_lid_leaves_its_island_open_to_the_shaft_within():
    """A box with a shaft through it, both without their upper ends: one lid with a square hole."""
    outer, shaft = box([0, 0, 0], [30, 30, 10]), turned_inside_out(box([10, 10, 0], [20, 20, 10]))
    ends = np.flatnonzero(np.abs(outer.face_normals[:, 2]) > 0.5)
    through = np.flatnonzero(np.abs(shaft.face_normals[:, 2]) > 0.5)
    part = joined(without_faces(outer, ends), without_faces(shaft, through))
    assert len(find_holes(part)) == 4
    done = fill_holes(part)
    assert accepted(done.mesh) == ""
    assert done.mesh.signed_volume_mm3 == pytest.approx(9000.0 - 1000.0)


def test_a_cap_of_a_ball_is_closed_by_one_that_bulges():
    """A lid without a bulge would lose π h² (3r − h) / 3 (volume of a cap; MEM)."""
    ball = sphere(10.0, 4)
    part = without_faces(ball, np.flatnonzero(ball.corners_mm[:, :, 2].mean(axis=1) > 8.0))
    done = fill_holes(part).mesh
    assert accepted(done) == ""
    cap = math.pi * 4.0 * (30.0 - 2.0) / 3.0
    assert abs(done.signed_volume_mm3 - ball.signed_volume_mm3) < 0.15 * cap
    lid = np.unique(done.faces[part.face_count :])
    away = np.linalg.norm(done.vertices_mm[lid], axis=1)
    assert away.min() > 9.7
    assert away.max() < 10.3


def test_thousands_of_missing_facets():
    ball = sphere(10.0, 6)
    gone, taken = [], np.zeros(len(ball.vertices_mm), bool)
    for face in range(0, ball.face_count, 7):  # none of which meets another
        if not taken[ball.faces[face]].any():
            gone.append(face)
            taken[ball.faces[face]] = True
    assert len(gone) > 4000
    part = without_faces(ball, gone)
    assert len(find_holes(part)) == len(gone)
    done = fill_holes(part)
    assert accepted(done.mesh) == ""
    assert done.mesh.face_count == ball.face_count
    assert done.mesh.signed_volume_mm3 == pytest.approx(ball.signed_volume_mm3, rel=1e-12)
    # Each lid has the class of a face beside it: they share an edge.
    beside = part.faces[done.origin_face[part.face_count :]]
    shared = [len(set(a) & set(b)) for a, b in zip(beside.tolist(),
              done.faces[part.face_count :].tolist(), strict=True)]  # fmt: skip
    assert set(shared) == {2}


def test_wide_or_curved_holes_stay_if_only_small_flat_ones_are_asked_for():
    part = cube(20.0)
    open_cube = without_faces(part, side(part, 2))
    assert fill_holes(open_cube, extent_up_to_mm=28.0).mesh is open_cube
    assert fill_holes(open_cube, extent_up_to_mm=28.5).mesh.face_count == 12
    ball = sphere(10.0, 4)
    open_ball = without_faces(ball, np.flatnonzero(ball.corners_mm[:, :, 2].mean(axis=1) > 8.0))
    assert fill_holes(open_ball, flat_only=True).mesh is open_ball
    pair = joined(open_ball, moved(open_cube, (40, 0, 0)))
    done = fill_holes(pair, flat_only=True).mesh
    assert done.face_count == pair.face_count + 2


@pytest.mark.parametrize("seed", range(6))
def test_holes_of_three_corners_are_closed_as_all_others_are(seed, monkeypatch):
    """Told apart and closed all at once; one by one, as any hole, gives the same lids."""
    rng = np.random.default_rng(seed)
    part = joined(box([0] * 3, [20] * 3), sphere(30.0, 3))
    gone = rng.choice(part.face_count, 60 if seed else 1, replace=False)
    open_one = without_faces(part, gone)
    at_once = fill_holes(open_one)
    holes = measure_holes(open_one)
    lone = lone_triangles(holes)
    assert lone.any()
    assert (holes.sizes[lone] == 3).all()
    monkeypatch.setattr(
        "viewer.geometry.mend.fill_holes.lone_triangles", lambda found: np.zeros_like(lone)
    )
    one_by_one = fill_holes(open_one)
    assert at_once.mesh.face_count == one_by_one.mesh.face_count
    assert accepted(at_once.mesh) == accepted(one_by_one.mesh)
    assert at_once.mesh.signed_volume_mm3 == pytest.approx(one_by_one.mesh.signed_volume_mm3)

    def simple_lids(done):
        places = done.vertices_mm.round(6)[done.faces]
        wanted = {tuple(sorted(map(tuple, open_one.vertices_mm.round(6)[holes.one(k).corners])))
                  for k in np.flatnonzero(lone)}  # fmt: skip
        rows = {tuple(sorted(map(tuple, row))): int(face)
                for row, face in zip(places, done.origin_face, strict=True)}  # fmt: skip
        return {key: rows[key] for key in wanted}

    def apart_mm(lid, face):
        """From the middle of a lid to that of the edge across which a face lies."""
        corners = set(map(tuple, open_one.vertices_mm.round(6)[open_one.faces[face]]))
        first, second = corners & set(lid)
        return np.linalg.norm(np.mean(lid, axis=0) - np.mean([first, second], axis=0))

    mine, others = simple_lids(at_once), simple_lids(one_by_one)
    assert mine.keys() == others.keys()
    for lid, face in mine.items():  # two may be equally near
        assert apart_mm(lid, face) == pytest.approx(apart_mm(lid, others[lid]), abs=1e-5)


def test_a_flake_of_three_corners_within_a_hole_is_left_to_the_ring_around_it():
    """The flake's own rim runs the other way round inside the hole: no hole by itself."""
    part = box([0, 0, 0], [20, 20, 20])
    open_one = without_faces(part, side(part, 2))
    flake = Mesh(np.array([[8.0, 8, 20], [12, 8, 20], [10, 12, 20]]), np.array([[0, 1, 2]]))
    holes = measure_holes(joined(open_one, flake))
    assert sorted(holes.sizes.tolist()) == [3, 4]
    assert not lone_triangles(holes).any()
    assert accepted(fill_holes(joined(open_one, flake)).mesh) == ""
