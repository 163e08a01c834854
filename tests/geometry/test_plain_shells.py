"""Neighbours and shells in plain numpy against those of the kernels."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests import shapes
from tests.few import few
from viewer.geometry.face_neighbours import face_neighbours
from viewer.geometry.kernel_cache import SETTING
from viewer.geometry.known_of_mesh import get_to_know, neighbours_of, shells_of, shells_to_draw
from viewer.geometry.mesh import Mesh
from viewer.geometry.plain_lines import crossings
from viewer.geometry.plain_shells import connected, face_pairs, neighbours_of_pairs, plain_shells
from viewer.geometry.shells import find_shells


def two_cubes_at_an_edge() -> Mesh:
    """Two cubes that share the vertices of one edge: four faces meet there."""
    pair = shapes.joined(shapes.box([0] * 3, [10] * 3), shapes.box([10, 10, 0], [20, 20, 10]))
    vertices, merged = np.unique(pair.vertices_mm, axis=0, return_inverse=True)
    return Mesh(vertices, merged.reshape(-1)[pair.faces])


def moebius_band(sides: int = 30) -> Mesh:
    turn = np.linspace(0, 2 * np.pi, sides, endpoint=False)
    rims = []
    for across in (-3, 3):
        radius = 20 + across * np.cos(turn / 2)
        rims.append([radius * np.cos(turn), radius * np.sin(turn), across * np.sin(turn / 2)])
    vertices = np.concatenate([np.transpose(rim) for rim in rims])
    i = np.arange(sides)
    j = (i + 1) % sides
    last = i == sides - 1
    a, b = np.where(last, j + sides, j), np.where(last, j, j + sides)
    faces = np.vstack([np.column_stack([i, a, b]), np.column_stack([i, b, i + sides])])
    return Mesh(vertices, faces)


PARTS = {
    "cube": shapes.cube(),
    "inside out": shapes.turned_inside_out(shapes.torus(around=20, facets=12)),
    "cavity": shapes.sealed_cavity(),
    "cavity faces outward": shapes.joined(
        shapes.box([0] * 3, [20] * 3), shapes.box([5] * 3, [15] * 3)
    ),
    "a body in a cavity": shapes.joined(shapes.sealed_cavity(), shapes.box([8] * 3, [12] * 3)),
    "a body at the wall of a cavity": shapes.joined(
        shapes.sealed_cavity(), shapes.box([8, 8, 5], [12, 12, 12])
    ),
    "touching": shapes.post_touching_cap(),
    "overlapping": shapes.post_inside_cap(),
    "repeated": shapes.joined(shapes.cube(), shapes.cube()),
    "open": shapes.without_faces(shapes.sphere(10, 2), [5]),
    "cubes at an edge": two_cubes_at_an_edge(),
    "no consistent winding": moebius_band(),
    "a face twice": shapes.joined(shapes.cube(), Mesh([[0, 0, 0], [1, 0, 0]], [[0, 1, 1]])),
}


@pytest.mark.parametrize("name", PARTS)
def test_shells_are_those_of_the_kernels(name):
    mesh = PARTS[name]
    pairs = face_pairs(mesh.faces)
    assert np.array_equal(neighbours_of_pairs(mesh.face_count, pairs), face_neighbours(mesh.faces))
    plain, fast = plain_shells(mesh.vertices_mm, mesh.faces, pairs), find_shells(mesh)
    area = mesh.face_areas_mm2 > 0
    assert np.array_equal(plain.orientation[area], fast.orientation[area])
    assert np.array_equal(plain.rewound[area], fast.rewound[area])
    shells, first = np.unique(plain.shell_of_face[area], return_index=True)
    same = fast.shell_of_face[area][first]
    assert np.array_equal(same[np.searchsorted(shells, plain.shell_of_face[area])],
                          fast.shell_of_face[area])  # fmt: skip
    assert np.array_equal(plain.closed[shells], fast.closed[same])
    assert plain.flipped.sum() == fast.inward_shells


@settings(max_examples=few(16, 50), deadline=None)
@given(st.integers(1, 60), st.lists(st.tuples(st.integers(0, 59), st.integers(0, 59))))
def test_connected_numbers_are_those_of_a_walk(count, pairs):
    """Against a search from each number in turn."""
    pairs = [(a % count, b % count) for a, b in pairs]
    beside = {k: set() for k in range(count)}
    for a, b in pairs:
        beside[a].add(b)
        beside[b].add(a)
    expected = [-1] * count
    for seed in range(count):
        reached = [seed] if expected[seed] < 0 else []
        while reached:
            here = reached.pop()
            if expected[here] < 0:
                expected[here] = seed
                reached += beside[here]
    one, other = (np.array([pair[k] for pair in pairs], np.int64) for k in range(2))
    assert connected(count, one, other).tolist() == expected


@settings(max_examples=few(16, 50), deadline=None)
@given(st.sampled_from(sorted(PARTS)), st.integers(0, 10_000), st.integers(1, 400))
def test_every_line_leaves_a_closed_part_as_often_as_it_enters(name, seed, lines):
    mesh = PARTS[name]
    fast = find_shells(mesh)
    if not fast.closed.all():
        return
    rng = np.random.default_rng(seed)
    places = rng.uniform(mesh.box_mm[0, :2] - 1, mesh.box_mm[1, :2] + 1, (lines, 2))
    met = crossings(mesh.vertices_mm, mesh.faces, places)
    assert not np.bincount(met.line, met.sign, lines).any()
    assert (np.diff(met.line) >= 0).all()
    assert (np.diff(met.z_mm)[np.diff(met.line) == 0] >= 0).all()


def test_crossings_of_a_cube_are_its_floor_and_its_ceiling():
    met = crossings(shapes.cube().vertices_mm, shapes.cube().faces, np.array([[1, 2], [30, 0.0]]))
    assert met.line.tolist() == [0, 0]
    assert met.z_mm == pytest.approx([-10, 10])
    assert met.sign.tolist() == [1, -1]


def test_a_part_opened_before_the_kernels_are_ready_is_known_by_plain_numpy(monkeypatch, tmp_path):
    """What is drawn is right at once; what is measured later comes from the kernels."""
    monkeypatch.setenv(SETTING, str(tmp_path))
    mesh = shapes.turned_inside_out(shapes.torus(around=20, facets=12))
    get_to_know(mesh)
    assert not neighbours_of(mesh).flags.writeable
    assert np.array_equal(neighbours_of(mesh), face_neighbours(mesh.faces))
    assert (shells_to_draw(mesh).orientation == -1).all()
    assert shells_to_draw(mesh).closed.all()
    assert shells_of(mesh).cavities == 0  # only the kernels' shells know
    assert shells_to_draw(mesh) is shells_of(mesh)
