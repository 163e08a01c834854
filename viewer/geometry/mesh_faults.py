"""Everything that is wrong with a mesh whichever way it lies, with the faces concerned."""

from dataclasses import dataclass

import numpy as np

from viewer.geometry.edge_faults import EdgeFaults, OpenLoops, find_edge_faults, find_open_loops
from viewer.geometry.face_faults import FaceFaults, find_face_faults
from viewer.geometry.known_of_mesh import neighbours_of, shells_of
from viewer.geometry.mesh import Mesh
from viewer.geometry.self_intersections import (
    SelfIntersections,
    find_self_intersections,
    float32_step_mm,
)
from viewer.geometry.shells import Shells
from viewer.geometry.weld_cracks import weld_cracks
from viewer.progress import Progress

SPECK_MM = 2.0  # box diagonal up to which a loose shell is a speck, if also …
SPECK_SHARE = 1e-3  # … its volume is no more than this share of the largest shell's


@dataclass(frozen=True, eq=False)
class MeshFaults:
    """Faults of a mesh; faces and vertices are indices into the mesh as given.

    touching_faces : int32, faces that touch a shell which their own shell nowhere crosses
    speck_faces : int32, faces of tiny shells that touch nothing; specks : their number
    used : vertices that faces use, int64; None where all are used
    """

    edges: EdgeFaults
    loops: OpenLoops
    faces: FaceFaults
    shells: Shells
    intersections: SelfIntersections
    crossing_faces: np.ndarray
    touching_faces: np.ndarray
    specks: int
    speck_faces: np.ndarray
    used: np.ndarray | None


def find_mesh_faults(mesh: Mesh, progress: Progress | None = None) -> MeshFaults:
    """All faults of a mesh that do not depend on its pose.

    Corners on open edges that lie within one step of float32 are joined first (`weld_cracks`): a
    crack of nanometres is no fault. Raises Cancelled through `progress`.
    """
    progress = progress or Progress()
    progress.report(0.0, "Looking along the edges")
    is_used = np.zeros(len(mesh.vertices_mm), bool)
    is_used[mesh.faces] = True
    used = None if is_used.all() else np.flatnonzero(is_used)
    edges = find_edge_faults(mesh.faces)
    if len(edges.open):
        within = float32_step_mm(mesh.box_mm)
        welded = weld_cracks(mesh.vertices_mm, mesh.faces, edges.open, within)
        if welded is not mesh.faces:
            mesh = Mesh(mesh.vertices_mm, welded)
            edges = find_edge_faults(mesh.faces)
    loops = find_open_loops(mesh.vertices_mm, edges.open)
    progress.report(0.1, "Looking at every face")
    faces = find_face_faults(mesh)
    progress.report(0.15, "Telling the shells apart")
    neighbours, shells = neighbours_of(mesh), shells_of(mesh, progress)
    progress.report(0.3, "Looking for faces that cross")
    meeting = find_self_intersections(mesh, neighbours, progress.part(0.3, 1.0))
    shell = shells.shell_of_face
    specks = _specks(mesh, shells, meeting)
    return MeshFaults(
        edges,
        loops,
        faces,
        shells,
        meeting,
        np.unique(meeting.crossing),
        np.unique(meeting.touching[_only_touching(shells, meeting)]),
        int(specks.sum()),
        np.flatnonzero(specks[shell]).astype(np.int32) if len(specks) else np.empty(0, np.int32),
        used,
    )


def _only_touching(shells: Shells, meeting: SelfIntersections) -> np.ndarray:
    """(l,) bool: touching pairs of faces from two shells that nowhere cross."""
    crossing, touching = (
        np.sort(shells.shell_of_face[pairs], axis=1).astype(np.int64) @ [shells.count, 1]
        for pairs in (meeting.crossing, meeting.touching)
    )
    one, other = np.divmod(touching, max(shells.count, 1))
    return (one != other) & ~np.isin(touching, crossing)


def _specks(mesh: Mesh, shells: Shells, meeting: SelfIntersections) -> np.ndarray:
    """(k,) bool: tiny shells that share no corner with another, meet none and lie inside none."""
    if shells.count < 2:
        return np.zeros(shells.count, bool)
    size = np.linalg.norm(shells.boxes_mm[:, 1] - shells.boxes_mm[:, 0], axis=1)
    volume = np.abs(shells.volume_mm3)
    loose = np.ones(shells.count, bool)
    for pairs in (meeting.crossing, meeting.touching):
        ends = shells.shell_of_face[pairs]
        loose[ends[ends[:, 0] != ends[:, 1]].ravel()] = False
    at_vertex = np.full(len(mesh.vertices_mm), -1, np.int32)
    at_vertex[mesh.faces] = shells.shell_of_face[:, None]  # the last shell there
    last = at_vertex[mesh.faces]
    shared = last != shells.shell_of_face[:, None]
    loose[last[shared]] = False
    loose[shells.shell_of_face[shared.any(axis=1)]] = False
    small = (size <= SPECK_MM) & (volume <= SPECK_SHARE * volume.max())
    return small & loose & (shells.depth == 0)
