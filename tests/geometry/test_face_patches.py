"""Groups of faces: each face in one, each hangs together, each within its ball."""

import numpy as np
import pytest
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import connected_components

from tests.shapes import cube, joined, moved, sphere, without_faces
from viewer.geometry.brush_stroke import BrushStroke
from viewer.geometry.face_neighbours import face_neighbours
from viewer.geometry.face_patches import FACES_EACH, face_patches
from viewer.geometry.mesh import Mesh
from viewer.geometry.refined_classes import paint_stroke


def check(mesh: Mesh, neighbours: np.ndarray, patches) -> None:
    count = len(patches.balls_mm)
    assert np.array_equal(np.sort(patches.members), np.arange(mesh.face_count))
    sizes = np.diff(patches.starts)
    assert np.array_equal(sizes, np.bincount(patches.group, minlength=count))
    assert np.array_equal(patches.group[patches.members], np.repeat(np.arange(count), sizes))
    # By an independent library: linked only within groups, there are as many parts as groups.
    face, k = np.nonzero(neighbours >= 0)
    beside = neighbours[face, k]
    within = patches.group[face] == patches.group[beside]
    ones = np.ones(np.count_nonzero(within))
    shape = (mesh.face_count, mesh.face_count)
    links = coo_matrix((ones, (face[within], beside[within])), shape=shape)
    assert connected_components(links, directed=False)[0] == count
    pairs = np.unique(
        np.stack([patches.group[face[~within]], patches.group[beside[~within]]], axis=1), axis=0
    )
    told = np.repeat(np.arange(count), np.diff(patches.beside_starts))
    listed = np.stack([told, patches.beside], axis=1)
    assert np.array_equal(listed[np.lexsort(listed.T[::-1])], pairs)
    # Each edge between two groups once from either side, with the face beyond it.
    which = np.repeat(np.arange(len(listed)), np.diff(patches.across_starts))
    told = np.column_stack([listed[which], patches.across])
    edges = np.stack([patches.group[face[~within]], patches.group[beside[~within]]], axis=1)
    wanted = np.column_stack([edges, beside[~within]])
    assert np.array_equal(told[np.lexsort(told.T)], wanted[np.lexsort(wanted.T)])
    away = mesh.corners_mm - patches.balls_mm[patches.group, None, :3]
    assert np.all(patches.balls_mm[patches.group, 3] + 1e-9 >= np.linalg.norm(away, axis=2).T)


@pytest.mark.parametrize(
    "mesh",
    [cube(), sphere(10.0, 4), joined(sphere(5.0, 3), moved(sphere(3.0, 3), (20, 0, 0))),
     without_faces(sphere(10.0, 3), range(40, 60))],
)  # fmt: skip
def test_groups_hang_together_and_lie_in_their_balls(mesh):
    neighbours = face_neighbours(mesh.faces)
    patches = face_patches(mesh.vertices_mm, mesh.faces, neighbours)
    check(mesh, neighbours, patches)
    sizes = np.diff(patches.starts)
    assert sizes.max() < 2 * FACES_EACH
    # What was left over between others has joined them: few are smaller than half of the most.
    assert len(sizes) <= max(2 * mesh.face_count / FACES_EACH, 2)


def test_pieces_stay_in_the_group_of_their_face():
    mesh = cube(20.0)
    neighbours = face_neighbours(mesh.faces)
    whole = face_patches(mesh.vertices_mm, mesh.faces, neighbours)
    stroke = BrushStroke(mesh, neighbours, 4.0)
    stroke.add(0, mesh.corners_mm[0].mean(axis=0))
    pieces, _ = paint_stroke(stroke, np.zeros(12, np.uint8), 1)
    cut = Mesh(pieces.vertices_mm, pieces.faces)
    check(cut, pieces.neighbours, whole.of_pieces(pieces.parents, pieces.neighbours))
