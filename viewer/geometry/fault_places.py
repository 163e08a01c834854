"""The places at which one kind of fault sits, for markers and for looking there."""

from dataclasses import dataclass

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.mesh import Mesh
from viewer.geometry.near_cells import near_groups
from viewer.geometry.union_find import join_groups, lowest_of_group

CELLS = 24  # along the diagonal of the part's box: faces in neighbouring cells are one place
MOST_PLACES = 40


@dataclass(frozen=True, eq=False)
class Place:
    """A group of faces that lie close together.

    centre_mm : (3,) float64 in part coordinates, on the part: the face next to the group's middle
    radius_mm : of a ball about it that holds every corner of the faces
    normal : (3,) float64, mean of the faces' normals, shorter than 1 where they differ
    faces : (k,) int64
    """

    centre_mm: np.ndarray
    radius_mm: float
    normal: np.ndarray
    faces: np.ndarray


def fault_places(mesh: Mesh, faces: np.ndarray) -> tuple[Place, ...]:
    """Groups of `faces` ((k,) int) that share corners or lie close together.

    Those of most faces come first; at most MOST_PLACES.
    """
    faces = np.asarray(faces, np.int64)
    if not len(faces):
        return ()
    middles = mesh.vertices_mm[mesh.faces[faces]].mean(axis=1)
    low, high = mesh.box_mm
    cell_mm = max(float(np.linalg.norm(high - low)) / CELLS, 1e-9)
    near = near_groups(middles, cell_mm)
    corners = np.unique(mesh.faces[faces], return_inverse=True)[1].reshape(-1, 3)
    group = np.unique(_joined(near, corners), return_inverse=True)[1]
    sizes = np.bincount(group)
    largest = np.argsort(-sizes, kind="stable")[:MOST_PLACES]
    return tuple(_place(mesh, faces[group == g], middles[group == g]) for g in largest)


@compiled
def _joined(near, corners):
    """(k,) one number for all faces that share a group `near` or a corner, directly or not."""
    groups = near.max() + 1
    parent = np.arange(groups + corners.max() + 1)
    for f in range(len(near)):
        for k in range(3):
            join_groups(parent, near[f], groups + corners[f, k])
    joined = np.empty_like(near)
    for f in range(len(near)):
        joined[f] = lowest_of_group(parent, near[f])
    return joined


def _place(mesh: Mesh, faces: np.ndarray, middles: np.ndarray) -> Place:
    near = np.argmin(np.linalg.norm(middles - middles.mean(axis=0), axis=1))
    centre = middles[near]
    corners = mesh.vertices_mm[mesh.faces[faces]].reshape(-1, 3)
    radius = float(np.linalg.norm(corners - centre, axis=1).max())
    return Place(centre, radius, np.asarray(mesh.face_normals[faces], float).mean(axis=0), faces)
