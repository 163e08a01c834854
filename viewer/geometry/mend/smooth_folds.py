"""Step: cut out a fold where the surface crosses itself, and close the place smoothly.

Local cutting and filling, after Attene 2010, "A lightweight approach to repairing digitized
polygon meshes" (from memory): faces that cross others of their own shell go, with the faces around
them; a second and third try take a wider ring.
"""

import numpy as np

from viewer.geometry.known_of_mesh import shells_of
from viewer.geometry.mend.faults_left import crossings_of
from viewer.geometry.mend.fill_holes import fill_holes
from viewer.geometry.mend.mended import MendedMesh, after, kept_faces, unchanged
from viewer.geometry.mesh import Mesh
from viewer.progress import Progress

MOST_SHARE = 0.2  # of all faces: with more of them crossing, little of the part would be left
MOST_CHANGE = 0.01  # of the volume: a fold is smaller; more would reshape the part
_RINGS = (1, 2, 3)


def own_crossings(mesh: Mesh, progress: Progress | None = None) -> np.ndarray:
    """Faces (int32) that cross another face of their own shell."""
    pairs = crossings_of(mesh, progress).crossing
    shell = shells_of(mesh, progress).shell_of_face
    return np.unique(pairs[shell[pairs[:, 0]] == shell[pairs[:, 1]]])


def smooth_folds(mesh: Mesh, progress: Progress | None = None) -> MendedMesh:
    """The mesh with folds cut out and closed; unchanged where that leaves as many crossings,
    or would change the volume by more than `MOST_CHANGE`.

    Raises Cancelled.
    """
    progress = progress or Progress()
    crossing = own_crossings(mesh, progress.part(0.0, 0.2))
    best = unchanged(mesh)
    for turn, rings in enumerate(_RINGS):
        if not len(crossing) or len(crossing) > MOST_SHARE * mesh.face_count:
            break
        part = progress.part(0.2 + 0.8 * turn / 3, 0.2 + 0.8 * (turn + 1) / 3)
        made = _cut_and_filled(best.mesh, crossing, rings, part)
        left = own_crossings(made.mesh, part.part(0.6, 1.0))
        change = abs(made.mesh.signed_volume_mm3 - mesh.signed_volume_mm3)
        reshaped = change > MOST_CHANGE * abs(mesh.signed_volume_mm3)
        if len(left) < len(crossing) and not reshaped:
            best, crossing = after(best, made), left
    return best


def _cut_and_filled(mesh, crossing, rings, progress):
    gone = np.zeros(mesh.face_count, bool)
    gone[crossing] = True
    at_vertex = np.zeros(len(mesh.vertices_mm), bool)
    for _ in range(rings):
        at_vertex[mesh.faces[gone]] = True
        gone |= at_vertex[mesh.faces].any(axis=1)
    rest = kept_faces(mesh, ~gone)
    # Shreds that hang on nothing once the fold is out go with it.
    shell = shells_of(rest.mesh, progress).shell_of_face
    old = shells_of(mesh).shell_of_face[rest.origin_face]
    size = np.bincount(shell)
    largest = np.zeros(old.max(initial=0) + 1, np.int64)
    np.maximum.at(largest, old, size[shell])
    touched = np.isin(old, np.unique(shells_of(mesh).shell_of_face[gone]))
    rest = after(rest, kept_faces(rest.mesh, ~(touched & (size[shell] < 0.05 * largest[old]))))
    return after(rest, fill_holes(rest.mesh, progress=progress.part(0.1, 0.6)))
