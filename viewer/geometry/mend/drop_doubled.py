"""Step: drop faces that are there twice.

Two copies facing against each other enclose nothing and go both; of copies facing alike one stays.
A copy only goes if the surface is no worse for it: the second face of a body that lies flat against
another's inside is needed by that body.
"""

from collections import defaultdict

import numpy as np

from viewer.geometry.face_faults import find_face_faults
from viewer.geometry.known_of_mesh import shells_of
from viewer.geometry.mend.mended import MendedMesh, kept_faces, unchanged
from viewer.geometry.mesh import Mesh
from viewer.progress import Progress

Edge = tuple[int, int]


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
    if not len(find_face_faults(mesh).duplicate):
        return unchanged(mesh)
    groups = _groups(mesh)
    kept = np.ones(mesh.face_count, bool)
    _drop_odd_copies(mesh.faces, kept, groups)
    against, spare = [], []
    for sides in groups:
        forwards, backwards = ([face for face in side if kept[face]] for side in sides)
        pairs = min(len(forwards), len(backwards))
        against += [*forwards[len(forwards) - pairs :], *backwards[len(backwards) - pairs :]]
        spare += [*forwards[: len(forwards) - pairs][1:], *backwards[: len(backwards) - pairs][1:]]
    kept[against] = False
    _keep_whole_sheets(mesh, kept, groups, single_sheets)
    progress.report(0.5, "Dropping doubled faces")
    sums = _edge_sums(mesh.faces, spare)
    for patch in _patches(mesh.faces, spare):
        change: dict[Edge, int] = defaultdict(int)
        for face in patch:
            for edge, sign in _edges(mesh.faces[face]):
                change[edge] -= sign
        better = sum(abs(sums[edge]) - abs(sums[edge] + by) for edge, by in change.items())
        if better >= 0:
            kept[patch] = False
            for edge, by in change.items():
                sums[edge] += by
    return kept_faces(mesh, kept) if not kept.all() else unchanged(mesh)


def _groups(mesh: Mesh) -> list[tuple[list[int], list[int]]]:
    """For each triple of corners that several faces have: the faces wound one way, and the other.

    The first list begins with the first face of the group.
    """
    duplicate = find_face_faults(mesh).duplicate
    at_duplicate = np.zeros(len(mesh.vertices_mm), bool)
    at_duplicate[mesh.faces[duplicate]] = True
    found: dict[Edge, tuple[list[int], list[int]]] = {}
    for face in np.flatnonzero(at_duplicate[mesh.faces].all(axis=1)).tolist():
        corners = mesh.faces[face].tolist()
        if len(set(corners)) < 3:
            continue
        first = corners.index(min(corners))
        a, b, c = corners[first], corners[first - 2], corners[first - 1]
        sides = found.setdefault((a, min(b, c), max(b, c)), ([], []))
        sides[b > c].append(face)
    return [sides for sides in found.values() if len(sides[0]) + len(sides[1]) > 1]


def _drop_odd_copies(faces, kept, groups):
    """Drop the later one of two copies where that lets fewer edges have an odd number of faces.

    This does not ask how the copies are wound: in an unmended file they may be wound anyhow.
    """
    copies = [max(each) for each in ([*one, *other] for one, other in groups) if len(each) == 2]
    if not copies:
        return
    count: dict[Edge, int] = defaultdict(int)
    near = np.zeros(int(faces.max()) + 1, bool)
    near[faces[copies]] = True
    for face in np.flatnonzero(near[faces].sum(axis=1) > 1):
        for edge, _ in _edges(faces[face]):
            count[edge] += 1
    for patch in _patches(faces, copies):
        change: dict[Edge, int] = defaultdict(int)
        for face in patch:
            for edge, _ in _edges(faces[face]):
                change[edge] += 1
        if sum(count[edge] % 2 - (count[edge] - by) % 2 for edge, by in change.items()) > 0:
            kept[patch] = False


def _keep_whole_sheets(mesh, kept, groups, single_sheets):
    """Put back shells that would vanish altogether: one side of them, or both."""
    shell = shells_of(mesh).shell_of_face
    left = np.bincount(shell[kept], minlength=shell.max() + 1)
    vanished = left == 0
    for forwards, backwards in groups:
        both = [*forwards, *backwards]
        if vanished[shell[both]].all():
            kept[[min(both)] if single_sheets else both] = True


def _edges(corners) -> list[tuple[Edge, int]]:
    a, b, c = (int(corner) for corner in corners)
    return [((min(e), max(e)), 1 if e[0] < e[1] else -1) for e in ((a, b), (b, c), (c, a))]


def _edge_sums(faces, spare) -> dict[Edge, int]:
    """For edges near the faces `spare`: how many more faces run along them upwards than down."""
    near = np.zeros(int(faces.max()) + 1, bool)
    near[faces[spare]] = True
    sums: dict[Edge, int] = defaultdict(int)
    for face in np.flatnonzero(near[faces].sum(axis=1) > 1):
        for edge, sign in _edges(faces[face]):
            sums[edge] += sign
    return sums


def _patches(faces, spare) -> list[list[int]]:
    """The faces `spare` in groups that hang together along edges."""
    at_edge: dict[Edge, list[int]] = defaultdict(list)
    for face in spare:
        for edge, _ in _edges(faces[face]):
            at_edge[edge].append(face)
    waiting, patches = set(spare), []
    while waiting:
        patch = [waiting.pop()]
        for face in patch:
            for edge, _ in _edges(faces[face]):
                for other in at_edge[edge]:
                    if other in waiting:
                        waiting.remove(other)
                        patch.append(other)
        patches.append(patch)
    return patches
