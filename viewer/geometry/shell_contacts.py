"""What it means that faces meet: shells that overlap or touch, a shell that meets itself."""

from dataclasses import dataclass

import numpy as np

from viewer.geometry.face_groups import join_rows
from viewer.geometry.mesh import Mesh
from viewer.geometry.self_intersections import SelfIntersections
from viewer.geometry.shells import Shells
from viewer.progress import Progress

_FLAT = 1.0 - 1e-6  # cosine between the normals of two faces that lie flat on each other
_SHEET_SHARE = 0.25  # of a shell's area that is not faced from the other side: half of a ball 0.5
SHEET_MM = 0.001  # mean thickness up to which a closed shell is a sheet


@dataclass(frozen=True, eq=False)
class ShellContacts:
    """Faces are int32, each once, ascending.

    crossing_faces : cross a face of their own shell
    overlapping_faces : cross a face of another shell; overlapping : number of such pairs of shells
    touching_faces : touch a shell which their own nowhere crosses; touching : pairs of shells
    edge_contact_faces : touch their own shell in a point or along an edge, and not only because
        a sliver between them is so thin
    opposite_faces : lie flat on a face of their own shell that faces the other way
    doubled_faces : lie flat on a face that faces the same way, in a shell they do not cross
    """

    crossing_faces: np.ndarray
    overlapping_faces: np.ndarray
    overlapping: int
    touching_faces: np.ndarray
    touching: int
    edge_contact_faces: np.ndarray
    opposite_faces: np.ndarray
    doubled_faces: np.ndarray


def sort_contacts(
    mesh: Mesh,
    shells: Shells,
    meeting: SelfIntersections,
    slivers: np.ndarray,
    progress: Progress | None = None,
) -> ShellContacts:
    """`ShellContacts` from the pairs of faces that meet.

    slivers : int32, faces so thin that lying on a neighbour means nothing, with or without area
    Raises Cancelled through `progress`.
    """
    progress = progress or Progress()
    shell, count = shells.shell_of_face, max(shells.count, 1)

    def shell_pairs(pairs):
        progress.check()
        ends = np.sort(shell[pairs], axis=1).astype(np.int64)
        return ends[:, 0] * count + ends[:, 1], ends[:, 0] == ends[:, 1]

    crossing = meeting.crossing
    is_sliver = np.zeros(mesh.face_count, bool)
    is_sliver[slivers] = True
    touching = meeting.touching[~is_sliver[meeting.touching].any(axis=1)]
    crossed, in_itself = shell_pairs(crossing)
    touched, on_itself = shell_pairs(touching)
    mesh.know_areas(progress, normals=True)
    one, other = touching.T
    cosine = np.einsum("ij,ij->i", mesh.face_normals[one], mesh.face_normals[other])
    cosine *= shells.orientation[one] * shells.orientation[other]
    progress.check()
    near_sliver = on_itself & _by_way_of_slivers(mesh, touching, slivers, progress)
    progress.check()
    aside = ~np.isin(touched, crossed[~in_itself])  # not a pair of shells that cross elsewhere
    doubled = aside & (cosine > _FLAT) & ~near_sliver
    opposite = on_itself & (cosine < -_FLAT)
    edges = on_itself & ~doubled & ~opposite & ~near_sliver
    apart = aside & ~on_itself & ~doubled
    progress.check()

    def faces_of(pairs):
        progress.check()
        return faces_named(pairs, mesh.face_count)

    return ShellContacts(
        faces_of(crossing[in_itself]),
        faces_of(crossing[~in_itself]),
        len(np.unique(crossed[~in_itself])),
        faces_of(touching[apart]),
        len(np.unique(touched[apart])),
        faces_of(touching[edges]),
        faces_of(touching[opposite]),
        faces_of(touching[doubled]),
    )


def faces_named(pairs: np.ndarray, face_count: int) -> np.ndarray:
    """int32, each of the faces in `pairs` ((k, 2) int32) once, ascending."""
    named = np.zeros(face_count, bool)
    named[pairs] = True
    return np.flatnonzero(named).astype(np.int32)


def bodies_of_shells(shells: Shells, meeting: SelfIntersections) -> np.ndarray:
    """(k,) int64: one number for shells that cross or touch, and for a body with its cavities."""
    pairs = [shells.shell_of_face[pairs] for pairs in (meeting.crossing, meeting.touching)]
    cavity = (shells.depth[shells.inner] % 2 == 1) & (
        shells.depth[shells.outer] == shells.depth[shells.inner] - 1
    )
    pairs.append(np.stack([shells.inner[cavity], shells.outer[cavity]], axis=1))
    return join_rows(shells.count, np.concatenate(pairs).astype(np.int32))


def _by_way_of_slivers(
    mesh: Mesh, pairs: np.ndarray, slivers: np.ndarray, progress: Progress
) -> np.ndarray:
    """(k,) bool: the two faces of a pair lie on different sides of slivers, and nothing else.

    They touch because a sliver has no width: were its corners one, the two would have more corners
    in common than they have, as neighbours do.
    """
    if not len(pairs) or not len(slivers):
        return np.zeros(len(pairs), bool)
    one, other = mesh.faces[pairs[:, 0]], mesh.faces[pairs[:, 1]]
    group = join_rows(len(mesh.vertices_mm), mesh.faces[slivers], progress)
    common, shrunk = (
        (a[:, :, None] == b[:, None, :]).any(axis=2).sum(axis=1)
        for a, b in ((one, other), (group[one], group[other]))
    )
    return (common < 2) & (shrunk > common)


def loose_sheets(
    mesh: Mesh, shells: Shells, progress: Progress | None = None
) -> tuple[np.ndarray, np.ndarray]:
    """Shells that enclose nothing: (k,) bool loose surfaces, (k,) bool sheets without thickness.

    A loose surface is open, and a good part of its area looks one way: the vector areas of its
    faces do not cancel out, as they would all around a body (CALC). A sheet without thickness is
    closed, but its volume is less than SHEET_MM times half of its area. Raises Cancelled.
    """
    progress = progress or Progress()
    mesh.know_areas(progress, normals=not shells.closed.all())
    shell, count = shells.shell_of_face, shells.count
    areas = mesh.face_areas_mm2
    total = np.bincount(shell, areas, count)
    progress.check()
    loose = ~shells.closed
    if loose.any():
        signed = areas * np.where(shells.rewound, -1.0, 1.0)
        left = []
        for k in range(3):
            progress.check()
            left.append(np.bincount(shell, signed * mesh.face_normals[:, k], count))
        loose &= np.linalg.norm(left, axis=0) > _SHEET_SHARE * total
    progress.check()
    thickness = 2.0 * np.abs(shells.volume_mm3) / np.maximum(total, 1e-300)
    return loose, shells.closed & (thickness < SHEET_MM)
