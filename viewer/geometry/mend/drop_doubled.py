"""Step: drop faces that are there twice.

Two copies facing against each other enclose nothing and go both; of copies facing alike one stays.
A copy only goes if the surface is no worse for it: the second face of a body that lies flat against
another's inside is needed by that body. So do patches that are there twice, but cut into other
triangles (`recut_patches`).
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.face_faults import find_face_faults
from viewer.geometry.known_of_mesh import shells_of
from viewer.geometry.mend.edge_sums import edge_sums
from viewer.geometry.mend.mended import MendedMesh, after, kept_faces, unchanged
from viewer.geometry.mend.recut_patches import drop_loose_copies, drop_twin_patches
from viewer.geometry.merge_vertices import merge_vertices
from viewer.geometry.mesh import Mesh
from viewer.progress import Progress


def drop_doubled(
    mesh: Mesh, single_sheets: bool = False, progress: Progress | None = None
) -> MendedMesh:
    """The mesh without doubled faces.

    single_sheets : of a shell that is doubled all over (a sheet doubled back, without thickness)
        one side stays, so that it can be thickened; otherwise such a shell is left as it is
    Raises Cancelled.
    """
    progress = progress or Progress()
    progress.report(0.0, "Looking for doubled faces")
    # Patches first: a copy may be cut like the surface in some places only.
    done = drop_twin_patches(mesh, progress.part(0.0, 0.4))
    done = after(done, _without_copies(done.mesh, single_sheets, progress.part(0.4, 0.7)))
    return after(done, drop_loose_copies(done.mesh, progress.part(0.7, 1.0)))


class _Copies(NamedTuple):
    """Faces that share their three corners with others.

    faces : (k,) int64, by group, then by winding, then ascending
    group : (k,) int64, a number for the three corners, from 0
    backwards : (k,) bool, how they are wound, as seen from the corners in ascending order
    """

    faces: np.ndarray
    group: np.ndarray
    backwards: np.ndarray

    def among(self, chosen: np.ndarray) -> "_Copies":
        return _Copies(*(values[chosen] for values in self))


def _without_copies(mesh: Mesh, single_sheets: bool, progress: Progress) -> MendedMesh:
    copies = _find_copies(mesh)
    if not len(copies.faces):
        return unchanged(mesh)
    progress.check()
    kept = np.ones(mesh.face_count, bool)
    _drop_odd_copies(mesh.faces, kept, copies)
    progress.check()
    there = copies.among(kept[copies.faces])
    side = 2 * there.group + there.backwards
    first_of_side = np.searchsorted(side, side)
    rank = np.arange(len(side)) - first_of_side
    sizes = np.bincount(side, minlength=2 * int(copies.group.max()) + 2)
    beyond = sizes[side] - np.minimum(sizes[side], sizes[side ^ 1])  # their number without partner
    kept[there.faces[rank >= beyond]] = False
    spare = there.faces[(rank > 0) & (rank < beyond)]
    _keep_whole_sheets(mesh, kept, copies, single_sheets, progress)
    progress.report(0.5, "Dropping doubled faces")
    if len(spare):
        found = edge_sums(mesh.faces, kept, spare)
        kept[spare[found.nearer_to_closed()[found.patch] >= 0]] = False
    return kept_faces(mesh, kept) if not kept.all() else unchanged(mesh)


def _find_copies(mesh: Mesh) -> _Copies:
    duplicate = find_face_faults(mesh).duplicate
    at_duplicate = np.zeros(len(mesh.vertices_mm), bool)
    at_duplicate[mesh.faces[duplicate]] = True
    few = np.flatnonzero(at_duplicate[mesh.faces].all(axis=1))
    a, b, c = mesh.faces[few].T
    few = few[(a != b) & (b != c) & (c != a)]
    corners = mesh.faces[few]
    ordered = np.sort(corners, axis=1)
    lowest = corners.argmin(axis=1)
    next_one = corners[np.arange(len(few)), (lowest + 1) % 3]
    # Whole numbers are exact in float64, so that rows of them can be told apart like positions.
    group = merge_vertices(ordered.astype(np.float64))[1].astype(np.int64)
    several = np.bincount(group)[group] > 1 if len(few) else np.empty(0, bool)
    group = np.unique(group[several], return_inverse=True)[1]
    backwards = (next_one != ordered[:, 1])[several]
    order = np.lexsort((backwards, group))
    return _Copies(few[several][order], group[order], backwards[order])


def _drop_odd_copies(faces: np.ndarray, kept: np.ndarray, copies: _Copies) -> None:
    """Drop the later one of two copies where that lets fewer edges have an odd number of faces.

    This does not ask how the copies are wound: in an unmended file they may be wound anyhow.
    """
    number = np.bincount(copies.group)
    later = np.zeros(len(number), np.int64)
    np.maximum.at(later, copies.group, copies.faces)
    chosen = later[number == 2]
    if len(chosen):
        found = edge_sums(faces, kept, chosen)
        kept[chosen[found.odd_edges_fewer()[found.patch] > 0]] = False


def _keep_whole_sheets(
    mesh: Mesh, kept: np.ndarray, copies: _Copies, single_sheets: bool, progress: Progress
) -> None:
    """Put back shells that would vanish altogether: one side of them, or both."""
    shell = shells_of(mesh, progress).shell_of_face
    vanished = np.bincount(shell[kept], minlength=shell.max() + 1) == 0
    stays = ~vanished[shell[copies.faces]]
    whole = np.bincount(copies.group, stays) == 0
    back = copies.among(whole[copies.group])
    if single_sheets:
        first = np.full(len(whole), mesh.face_count, np.int64)
        np.minimum.at(first, back.group, back.faces)
        kept[first[whole]] = True
    else:
        kept[back.faces] = True
