"""Shells, nesting and winding of made shapes; row 31 of the check values."""

import numpy as np
import pytest

from tests import shapes
from viewer.geometry.face_neighbours import face_neighbours
from viewer.geometry.merge_vertices import merge_vertices
from viewer.geometry.mesh import Mesh
from viewer.geometry.shells import find_shells


def mended(mesh: Mesh) -> Mesh:
    """The mesh as the shells say it should be wound."""
    turned = find_shells(mesh).orientation < 0
    return Mesh(mesh.vertices_mm, np.where(turned[:, None], mesh.faces[:, [0, 2, 1]], mesh.faces))


def test_cube_of_12_triangles():
    """Row 31 (CALC): V 8, E 18, χ 2; with one face deleted, 3 open edges."""
    cube = shapes.cube()
    shells = find_shells(cube)
    assert (shells.count, shells.cavities, shells.inward_shells) == (1, 0, 0)
    assert shells.closed.all()
    assert shells.volume_mm3 == pytest.approx([8000])
    edges = {tuple(sorted((f[k], f[(k + 1) % 3]))) for f in cube.faces.tolist() for k in range(3)}
    assert len(cube.vertices_mm) - len(edges) + cube.face_count == 2
    opened = shapes.without_faces(cube, [5])
    assert np.count_nonzero(face_neighbours(opened.faces) < 0) == 3
    assert not find_shells(opened).closed.any()


@pytest.mark.parametrize("outer_flipped", [False, True])
@pytest.mark.parametrize("inner_flipped", [False, True])
def test_cavity_whatever_the_file_says(outer_flipped, inner_flipped):
    outer, inner = shapes.box([0] * 3, [20] * 3), shapes.box([5] * 3, [15] * 3)
    outer = shapes.turned_inside_out(outer) if outer_flipped else outer
    inner = shapes.turned_inside_out(inner) if inner_flipped else inner
    both = shapes.joined(outer, inner)
    shells = find_shells(both)
    assert shells.depth.tolist() == [0, 1]
    assert shells.cavities == 1
    assert shells.flipped.tolist() == [outer_flipped, not inner_flipped]
    assert mended(both).signed_volume_mm3 == pytest.approx(8000 - 1000)


def test_body_in_a_cavity_in_a_body():
    cubes = [shapes.box([c] * 3, [20 - c] * 3) for c in (0, 3, 6)]
    shells = find_shells(shapes.joined(*cubes))
    assert shells.depth.tolist() == [0, 1, 2]
    assert shells.flipped.tolist() == [False, True, False]


@pytest.mark.parametrize(
    ("low", "high"),
    [
        ([10, 5, 5], [30, 15, 15]),  # overlaps
        ([20, 0, 0], [40, 20, 20]),  # touches from outside
        ([5, 5, 0], [15, 15, 5]),  # touches the wall from inside
        ([0, 0, 0], [20, 20, 20]),  # repeats
        ([25, 5, 5], [35, 15, 15]),  # stands beside
    ],
)
def test_what_overlaps_or_touches_is_not_nested(low, high):
    shells = find_shells(shapes.joined(shapes.box([0] * 3, [20] * 3), shapes.box(low, high)))
    assert shells.depth.tolist() == [0, 0]
    assert shells.inward_shells == 0


def test_body_that_touches_the_wall_of_its_cavity():
    solids = shapes.joined(
        shapes.box([0] * 3, [20] * 3), shapes.box([5] * 3, [15] * 3), shapes.box([7, 7, 5], [8] * 3)
    )
    assert find_shells(solids).depth.tolist() == [0, 1, 2]


def test_a_part_in_the_bay_of_another_is_outside_it():
    """The box of the small one lies in the box of the bracket, the solid does not."""
    pair = shapes.joined(shapes.c_bracket(), shapes.box([20, 5, 10], [30, 15, 20]))
    assert find_shells(pair).depth.tolist() == [0, 0]


def test_random_faces_turned_over_are_turned_back():
    torus = shapes.torus(around=40, facets=30)
    turned = np.random.default_rng(1).random(torus.face_count) < 0.3
    mixed = Mesh(torus.vertices_mm, np.where(turned[:, None], torus.faces[:, ::-1], torus.faces))
    shells = find_shells(mixed)
    assert np.array_equal(shells.rewound, turned)
    assert mended(mixed).signed_volume_mm3 == pytest.approx(torus.signed_volume_mm3)


def test_open_shells_keep_the_file_unless_clearly_inside_out():
    bowl = shapes.without_faces(shapes.sphere(10, 3), range(20))
    assert find_shells(bowl).orientation.min() == 1
    assert find_shells(shapes.turned_inside_out(bowl)).orientation.max() == -1
    sheet = Mesh([[0, 0, 0], [1, 0, 0], [1, 1, 0], [0, 1, 0.1]], [[0, 2, 1], [0, 3, 2]])
    assert find_shells(sheet).orientation.tolist() == [1, 1]


def test_two_boxes_that_share_merged_corners_stay_two_solids():
    stacked = shapes.joined(shapes.box([0] * 3, [20] * 3), shapes.box([0, 0, 20], [20, 20, 40]))
    vertices, faces = merge_vertices(stacked.corners_mm.reshape(-1, 3))
    merged = Mesh(vertices, faces.reshape(-1, 3))
    assert len(merged.vertices_mm) == 12
    shells = find_shells(merged)
    assert shells.volume_mm3 == pytest.approx([8000, 8000])
    assert shells.closed.all()


def test_a_moebius_band_cannot_be_wound():
    turns = np.linspace(0, 2 * np.pi, 24, endpoint=False)
    rim = [
        [
            (3 + s * np.cos(t / 2)) * np.cos(t),
            (3 + s * np.cos(t / 2)) * np.sin(t),
            s * np.sin(t / 2),
        ]
        for t in turns
        for s in (-1, 1)
    ]
    faces = []
    for i in range(24):
        a, b = 2 * i, 2 * i + 1
        c, d = (2 * i + 2, 2 * i + 3) if i < 23 else (1, 0)
        faces += [[a, c, d], [a, d, b]]
    shells = find_shells(Mesh(rim, faces))
    assert shells.count == 1
    assert not shells.closed.any()
    assert (shells.orientation == 1).all()


def test_faces_without_area_join_a_shell_and_open_nothing():
    cube = shapes.cube()
    degenerate = [[0, 0, 1], [2, 2, 2]]
    shells = find_shells(Mesh(cube.vertices_mm, np.vstack([cube.faces, degenerate])))
    assert shells.count == 1
    assert shells.closed.all()
    assert shells.shell_of_face.tolist() == [0] * 14
