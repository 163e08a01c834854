"""Faces that cross: against exact rational arithmetic, and what must never be reported."""

from fractions import Fraction

import numpy as np
import pytest
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.few import few
from viewer.errors import Cancelled
from viewer.geometry.mesh import Mesh
from viewer.geometry.self_intersections import find_self_intersections
from viewer.geometry.trowel_grip import trowel_grip
from viewer.progress import Progress


def joined(*parts):
    whole = trimesh.util.concatenate(parts)
    return Mesh(whole.vertices, whole.faces)


def box(size=(1, 1, 1), at=(0, 0, 0)):
    made = trimesh.creation.box(size)
    made.apply_translation(at)
    return made


def exact_crossings(mesh):
    """Pairs of faces without a common vertex of which an edge of one pierces the other.

    Independent oracle: signs of determinants in rational arithmetic, after a box test in numpy.
    """
    corners = mesh.corners_mm
    low, high = corners.min(axis=1), corners.max(axis=1)
    pairs = set()
    for i in range(mesh.face_count):
        near = np.flatnonzero((low[i + 1 :] <= high[i]).all(1) & (high[i + 1 :] >= low[i]).all(1))
        for j in near + i + 1:
            if not set(mesh.faces[i]) & set(mesh.faces[j]):
                one, other = exact(corners[i]), exact(corners[j])
                if any(pierces(one, other, k) or pierces(other, one, k) for k in range(3)):
                    pairs.add((i, int(j)))
    return pairs


def exact(triangle):
    return [[Fraction(float(x)) for x in corner] for corner in triangle]


def side(a, b, c, d):
    u, v, w = ([q[k] - a[k] for k in range(3)] for q in (b, c, d))
    volume = (
        u[0] * (v[1] * w[2] - v[2] * w[1])
        - u[1] * (v[0] * w[2] - v[2] * w[0])
        + u[2] * (v[0] * w[1] - v[1] * w[0])
    )
    return (volume > 0) - (volume < 0)


def pierces(triangle, other, k):
    p, q = other[k], other[(k + 1) % 3]
    if side(*triangle, p) * side(*triangle, q) >= 0:
        return False
    a, b, c = triangle
    turns = {side(p, q, a, b), side(p, q, b, c), side(p, q, c, a)}
    return turns in ({1}, {-1})


@pytest.mark.parametrize("level", [1, 2, 3])
def test_two_overlapping_spheres_against_exact_arithmetic(level):
    one, other = trimesh.creation.icosphere(level, 10.0), trimesh.creation.icosphere(level, 10.0)
    other.apply_translation((7.3, 2.1, 1.7))
    mesh = joined(one, other)
    found = find_self_intersections(mesh)
    assert {tuple(pair) for pair in found.crossing.tolist()} == exact_crossings(mesh)
    assert len(found.crossing) > 20
    assert len(found.touching) == 0


@given(seed=st.integers(0, 10**6))
@settings(max_examples=few(10, 40), deadline=None)
def test_loose_triangles_against_exact_arithmetic(seed):
    points = np.random.default_rng(seed).uniform(-1, 1, (60, 3))
    mesh = Mesh(points, np.arange(60).reshape(-1, 3))
    found = find_self_intersections(mesh)
    assert {tuple(pair) for pair in found.crossing.tolist()} == exact_crossings(mesh)


@given(seed=st.integers(0, 10**6), turn=st.integers(0, 10**6))
@settings(max_examples=20, deadline=None)
def test_turning_the_part_changes_nothing(seed, turn):
    points = np.random.default_rng(seed).uniform(-1, 1, (45, 3))
    faces = np.arange(45).reshape(-1, 3)
    matrix = trimesh.transformations.random_rotation_matrix(
        np.random.default_rng(turn).uniform(size=3)
    )[:3, :3]
    before = find_self_intersections(Mesh(points, faces)).crossing
    after = find_self_intersections(Mesh(points @ matrix.T, faces)).crossing
    assert np.array_equal(before, after)


@pytest.mark.parametrize(
    "made",
    [
        trimesh.creation.icosphere(3, 10.0),
        trimesh.creation.box((20, 20, 20)).subdivide().subdivide(),  # exactly level neighbours
        trimesh.creation.annulus(5, 10, 3),
        trimesh.creation.torus(20, 5, 64, 32),
        trimesh.creation.cylinder(10, 3, sections=200),  # fans of needles
    ],
    ids=["sphere", "divided cube", "ring", "torus", "disc"],
)
@pytest.mark.parametrize("shift_mm", [0.0, 10_000.0])
def test_sound_shapes_have_none(made, shift_mm):
    found = find_self_intersections(Mesh(made.vertices + shift_mm, made.faces))
    assert len(found.crossing) == 0
    assert len(found.touching) == 0


def test_sound_shapes_turned_and_rounded_to_float32_have_none():
    made = trimesh.creation.box((20, 20, 20)).subdivide().subdivide().subdivide()
    turn = trimesh.transformations.random_rotation_matrix(np.array([0.3, 0.6, 0.9]))
    made.apply_transform(turn)
    found = find_self_intersections(Mesh(made.vertices.astype(np.float32), made.faces))
    assert len(found.crossing) == 0
    assert len(found.touching) == 0


def test_the_grip_does_not_cross_itself():
    found = find_self_intersections(trowel_grip(1.0)[0])
    assert len(found.crossing) == 0
    assert len(found.touching) == 0


@pytest.mark.parametrize("at", [(1, 0, 0), (1, 0.3, 0.2), (1, 1, 0), (1, 1, 1), (0.3, 0.2, 1)])
def test_boxes_that_only_touch_are_told_apart(at):
    found = find_self_intersections(joined(box(), box(at=at)))
    assert len(found.crossing) == 0
    assert len(found.touching) > 0


def test_boxes_a_hundredth_apart_do_not_meet():
    found = find_self_intersections(joined(box(), box(at=(1.01, 0.3, 0.2))))
    assert len(found.crossing) == len(found.touching) == 0


def test_boxes_a_hundredth_into_each_other_cross():
    found = find_self_intersections(joined(box(), box(at=(0.99, 0.3, 0.2))))
    assert len(found.crossing) > 0


def test_a_surface_that_goes_on_beyond_its_edge_in_the_other_crosses_it():
    """A tent whose ridge line lies exactly in a plate, one slope above it, one below (CALC)."""
    vertices = [
        (-5, -5, 0), (5, -5, 0), (0, 6, 0),  # plate
        (-1, 0, 0), (1, 0, 0), (0, 1, 2), (0, -1, -2),  # a bent sheet through it
    ]  # fmt: skip
    through = find_self_intersections(Mesh(vertices, [[0, 1, 2], [3, 4, 5], [4, 3, 6]]))
    assert through.crossing.tolist() == [[0, 1], [0, 2]]
    vertices[6] = (0, -1, 2)
    resting = find_self_intersections(Mesh(vertices, [[0, 1, 2], [3, 4, 5], [4, 3, 6]]))
    assert len(resting.crossing) == 0
    assert resting.touching.tolist() == [[0, 1], [0, 2]]


def test_neighbours_that_share_one_corner_can_cross():
    vertices = [(0, 0, 0), (4, -1, 0), (4, 1, 0), (3, 0, -1), (3, 0, 1)]
    found = find_self_intersections(Mesh(vertices, [[0, 1, 2], [0, 3, 4]]))
    assert found.crossing.tolist() == [[0, 1]]
    apart = [(0, 0, 0), (4, -1, 0), (4, 1, 0), (-3, 0, -1), (-3, 0, 1)]
    found = find_self_intersections(Mesh(apart, [[0, 1, 2], [0, 3, 4]]))
    assert len(found.crossing) == len(found.touching) == 0


def test_a_flap_folded_flat_onto_its_neighbour_touches_it():
    vertices = [(0, 0, 0), (2, 0, 0), (0, 2, 0), (1, 1, 0)]
    found = find_self_intersections(Mesh(vertices, [[0, 1, 2], [1, 0, 3]]))
    assert found.touching.tolist() == [[0, 1]]


def test_nothing_and_one_face_have_none():
    assert len(find_self_intersections(Mesh(np.zeros((0, 3)), np.zeros((0, 3)))).crossing) == 0
    assert len(find_self_intersections(Mesh(np.eye(3), [[0, 1, 2]])).crossing) == 0


def test_cancel_is_heard():
    progress = Progress()
    progress.cancel()
    mesh = joined(box(), box(at=(0.5, 0.5, 0.5)))
    with pytest.raises(Cancelled):
        find_self_intersections(mesh, progress=progress)


def test_progress_rises_to_the_end():
    seen = []
    made = trimesh.creation.icosphere(6, 10.0)
    find_self_intersections(
        Mesh(made.vertices, made.faces), progress=Progress(lambda share, _: seen.append(share))
    )
    assert len(seen) > 3
    assert seen == sorted(seen)
    assert seen[-1] == pytest.approx(1.0)


def test_room_grows_when_everything_crosses():
    """300 + 300 long strips laid across each other: 90,000 crossings, all exact (CALC)."""
    count = 300
    at = np.linspace(0, 1, count)
    one = np.stack([[(x, -1, -0.1), (x, 2, -0.1), (x + 1e-4, 0.5, 0.3)] for x in at])
    other = np.stack([[(-1, y, 0), (2, y, 0), (0.5, y + 1e-4, 0.001)] for y in at])
    corners = np.concatenate([one, other])
    found = find_self_intersections(
        Mesh(corners.reshape(-1, 3), np.arange(6 * count).reshape(-1, 3))
    )
    assert len(found.crossing) == count * count
    assert len(np.unique(found.crossing, axis=0)) == count * count
    assert (found.crossing[:, 0] < count).all()
    assert (found.crossing[:, 1] >= count).all()
