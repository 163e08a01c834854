"""The faults that mending can do something about, looked for once in each mesh.

Of all that the check finds, mending needs what follows from edges, shells and crossings; corners
where fans meet, coarse curves and the like take as long again and change no step.
"""

from dataclasses import dataclass
from weakref import WeakKeyDictionary

import numpy as np

from viewer.geometry.face_faults import FaceFaults, find_face_faults
from viewer.geometry.known_of_mesh import neighbours_of, shells_of
from viewer.geometry.mesh import Mesh
from viewer.geometry.mesh_faults import MeshFaults, find_specks
from viewer.geometry.self_intersections import (
    SelfIntersections,
    find_self_intersections,
)
from viewer.geometry.shell_contacts import ShellContacts, sort_contacts
from viewer.geometry.shells import Shells
from viewer.geometry.weld_cracks import weld_mesh
from viewer.progress import Progress


@dataclass(frozen=True, eq=False)
class FaultsLeft:
    """Counts of faults, and the pairs of faces that cross.

    All as in `MeshFaults`, cracks of nanometres joined. touching_faces : faces that touch another
    shell; doubled_faces : faces that lie flat on others; turned_faces : wound against their shell
    crossing : (k, 2) int32, pairs of faces; in_one_shell : (k,) bool, of the same shell
    """

    open_edges: int
    crowded_edges: int
    flipped_edges: int
    degenerate_faces: int
    duplicate_faces: int
    inward_shells: int
    turned_faces: int
    crossing_faces: int
    touching_faces: int
    doubled_faces: int
    specks: int
    crossing: np.ndarray
    in_one_shell: np.ndarray

    @property
    def any(self) -> bool:
        """Whether there is anything that a step might mend."""
        return bool(
            self.open_edges or self.crowded_edges or self.flipped_edges
            or self.degenerate_faces or self.duplicate_faces or self.doubled_faces
            or self.inward_shells or self.turned_faces
            or self.crossing_faces or self.touching_faces or self.specks
        )  # fmt: skip


_crossings: WeakKeyDictionary[Mesh, SelfIntersections] = WeakKeyDictionary()
_left: WeakKeyDictionary[Mesh, FaultsLeft] = WeakKeyDictionary()


def crossings_of(mesh: Mesh, progress: Progress | None = None) -> SelfIntersections:
    """See `find_self_intersections`. Raises Cancelled."""
    known = _crossings.get(mesh)
    if known is None:
        known = find_self_intersections(mesh, neighbours_of(mesh), progress)
        _crossings[mesh] = known
    return known


def find_faults_left(mesh: Mesh, progress: Progress | None = None) -> FaultsLeft:
    """The faults of a mesh that mending can do something about. Raises Cancelled."""
    known = _left.get(mesh)
    if known is None:
        known = _left[mesh] = _find(mesh, progress or Progress())
    return known


def faults_left_of(faults: MeshFaults) -> FaultsLeft:
    """The same from a check that was made already."""
    edges = len(faults.edges.open), len(faults.edges.crowded), len(faults.edges.flipped)
    return _counted(
        edges, faults.faces, faults.shells, faults.intersections, faults.contacts, faults.specks
    )


def _find(mesh: Mesh, progress: Progress) -> FaultsLeft:
    progress.report(0.0, "Looking for what is left")
    mesh, edges = weld_mesh(mesh, progress)
    faces = find_face_faults(mesh, progress)
    shells = shells_of(mesh, progress)
    meeting = crossings_of(mesh, progress.part(0.2, 0.9))
    contacts = sort_contacts(mesh, shells, meeting, faces.too_thin, progress)
    progress.check()
    specks = int(find_specks(mesh, shells, meeting, progress).sum())
    counts = len(edges.open), len(edges.crowded), len(edges.flipped)
    return _counted(counts, faces, shells, meeting, contacts, specks)


def _counted(
    edges: tuple[int, int, int],
    faces: FaceFaults,
    shells: Shells,
    meeting: SelfIntersections,
    contacts: ShellContacts,
    specks: int,
) -> FaultsLeft:
    pairs = meeting.crossing
    shell = shells.shell_of_face
    return FaultsLeft(
        *edges,
        len(faces.degenerate),
        len(faces.duplicate),
        int(shells.inward_shells),
        int(np.count_nonzero(shells.orientation < 0)),
        len(np.unique(pairs)),
        len(contacts.touching_faces),
        len(contacts.doubled_faces),
        specks,
        pairs,
        shell[pairs[:, 0]] == shell[pairs[:, 1]],
    )
