"""Everything that is wrong with a mesh whichever way it lies, with the faces concerned."""

from copy import copy
from dataclasses import dataclass

import numpy as np

from viewer.geometry.coarse_facets import chord_errors_mm
from viewer.geometry.edge_faults import EdgeFaults, OpenLoops, find_open_loops
from viewer.geometry.face_faults import FaceFaults, find_face_faults
from viewer.geometry.face_tree import SortedFaces, sort_faces
from viewer.geometry.known_of_mesh import neighbours_of, shells_of
from viewer.geometry.mesh import Mesh
from viewer.geometry.self_intersections import (
    SelfIntersections,
    find_self_intersections,
    near_distance_mm,
)
from viewer.geometry.shell_contacts import (
    ShellContacts,
    faces_named,
    loose_sheets,
    sort_contacts,
)
from viewer.geometry.shells import Shells
from viewer.geometry.vertex_faults import find_split_vertices
from viewer.geometry.weld_cracks import weld_mesh
from viewer.progress import Progress

SPECK_MM = 2.0  # box diagonal up to which a loose shell is a speck, if also …
SPECK_SHARE = 1e-3  # … its volume is no more than this share of the largest shell's


@dataclass(frozen=True, eq=False)
class MeshFaults:
    """Faults of a mesh; faces and vertices are indices into the mesh as given.

    mesh : the mesh as it was looked at, cracks of nanometres joined; never the very object that
        was asked about, which would then live as long as what is remembered about it
    neighbours : (m, 3) int32, of that mesh
    split_vertices : int32, vertices where several fans of faces meet
    crossing_faces : int32, faces that cross another, of their own shell or of another
    touching_faces : int32, faces that touch a shell which their own shell nowhere crosses
    specks : number of tiny shells that touch nothing; is_speck : (shells,) bool
    loose, sheets : (shells,) bool, open shells that enclose nothing; closed ones without thickness
    chord_errors_mm : (m,) float32, distance of each face from the curve it stands for
    used : vertices that faces use, int64; None where all are used
    """

    mesh: Mesh
    neighbours: np.ndarray
    edges: EdgeFaults
    loops: OpenLoops
    split_vertices: np.ndarray
    faces: FaceFaults
    shells: Shells
    intersections: SelfIntersections
    crossing_faces: np.ndarray
    contacts: ShellContacts
    is_speck: np.ndarray
    loose: np.ndarray
    sheets: np.ndarray
    chord_errors_mm: np.ndarray
    used: np.ndarray | None

    @property
    def touching_faces(self) -> np.ndarray:
        """See above."""
        return self.contacts.touching_faces

    @property
    def specks(self) -> int:
        """See above."""
        return int(self.is_speck.sum())

    def faces_of_shells(self, wanted: np.ndarray) -> np.ndarray:
        """The faces, int32, of the `wanted` shells ((shells,) bool)."""
        if not wanted.any():
            return np.empty(0, np.int32)
        return np.flatnonzero(wanted[self.shells.shell_of_face]).astype(np.int32)


def find_mesh_faults(mesh: Mesh, progress: Progress | None = None) -> MeshFaults:
    """All faults of a mesh that do not depend on its pose or on the machine.

    Corners on open edges that lie within one step of float32 are joined first (`weld_cracks`): a
    crack of nanometres is no fault. Raises Cancelled through `progress`.
    """
    return find_faults_and_sort(mesh, progress)[0]


def find_faults_and_sort(
    mesh: Mesh, progress: Progress | None = None
) -> tuple[MeshFaults, SortedFaces | None]:
    """As `find_mesh_faults`, and the tree over the faces that was built for it, if there are any.

    The tree is handed on rather than kept: it takes some 130 bytes a face.
    """
    progress = progress or Progress()
    progress.report(0.0, "Looking along the edges")
    is_used = np.zeros(len(mesh.vertices_mm), bool)
    is_used[mesh.faces] = True
    used = None if is_used.all() else np.flatnonzero(is_used)
    progress.check()
    mesh, edges = weld_mesh(mesh, progress)
    loops = find_open_loops(mesh.vertices_mm, edges.open, progress)
    progress.report(0.1, "Looking at every face")
    faces = find_face_faults(mesh, progress)
    progress.report(0.15, "Telling the shells apart")
    neighbours = neighbours_of(mesh, progress)
    shells = shells_of(mesh, progress)
    progress.report(0.2, "Looking at every corner")
    split = find_split_vertices(mesh.faces, neighbours, len(mesh.vertices_mm), progress)
    progress.report(0.22, "Looking for coarse curves")
    mesh.know_areas(progress, normals=True)
    errors = chord_errors_mm(mesh.vertices_mm, mesh.faces, neighbours, mesh.face_normals, progress)
    progress.report(0.25, "Looking for faces that cross")
    near = near_distance_mm(mesh.box_mm)
    ordered = sort_faces(mesh, near, progress) if mesh.face_count else None
    meeting = find_self_intersections(mesh, neighbours, progress.part(0.25, 1.0), ordered)
    progress.check()
    loose, sheets = _surfaces_that_enclose_nothing(mesh, shells, faces, progress)
    contacts = sort_contacts(mesh, shells, meeting, faces.too_thin, progress)
    specks = find_specks(mesh, shells, meeting, progress)
    crossing = faces_named(meeting.crossing, mesh.face_count)
    progress.check()
    found = MeshFaults(
        copy(mesh),
        neighbours,
        edges,
        loops,
        split,
        faces,
        shells,
        meeting,
        crossing,
        contacts,
        specks,
        loose,
        sheets,
        errors,
        used,
    )
    return found, ordered


def _surfaces_that_enclose_nothing(
    mesh: Mesh, shells: Shells, faces: FaceFaults, progress: Progress
) -> tuple[np.ndarray, np.ndarray]:
    """(shells,) bool each: open shells and closed ones without thickness."""
    loose, sheets = loose_sheets(mesh, shells, progress)
    # A patch that is there twice is a duplicate, not a surface of its own.
    own = np.bincount(np.delete(shells.shell_of_face, faces.duplicate), minlength=shells.count) > 0
    progress.check()
    return loose & own, sheets


def find_specks(
    mesh: Mesh, shells: Shells, meeting: SelfIntersections, progress: Progress | None = None
) -> np.ndarray:
    """(k,) bool: tiny shells that share no corner with another, meet none and lie inside none."""
    progress = progress or Progress()
    if shells.count < 2:
        return np.zeros(shells.count, bool)
    size = np.linalg.norm(shells.boxes_mm[:, 1] - shells.boxes_mm[:, 0], axis=1)
    volume = np.abs(shells.volume_mm3)
    loose = np.ones(shells.count, bool)
    for pairs in (meeting.crossing, meeting.touching):
        ends = shells.shell_of_face[pairs]
        loose[ends[ends[:, 0] != ends[:, 1]].ravel()] = False
    at_vertex = np.full(len(mesh.vertices_mm), -1, np.int32)
    progress.check()
    at_vertex[mesh.faces] = shells.shell_of_face[:, None]  # the last shell there
    progress.check()
    last = at_vertex[mesh.faces]
    progress.check()
    shared = last != shells.shell_of_face[:, None]
    loose[last[shared]] = False
    progress.check()
    loose[shells.shell_of_face[shared.any(axis=1)]] = False
    small = (size <= SPECK_MM) & (volume <= SPECK_SHARE * volume.max())
    return small & loose & (shells.depth == 0)
