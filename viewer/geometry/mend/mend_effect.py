"""What a mending step changes, told before it is taken."""

from dataclasses import dataclass

import numpy as np

from viewer.geometry.mend.faults_left import FaultsLeft, find_faults_left
from viewer.geometry.mend.mended import MendedMesh
from viewer.geometry.mend.steps import Step, take
from viewer.geometry.merge_vertices import merge_vertices
from viewer.geometry.mesh import Mesh
from viewer.geometry.nearest_face import nearest_faces
from viewer.progress import Progress


@dataclass(frozen=True, eq=False)
class MendEffect:
    """What a step changes.

    largest_moved_mm : the farthest that new surface lies from the old
    left : faults afterwards
    """

    mended: MendedMesh
    faces_before: int
    faces_after: int
    volume_before_mm3: float
    volume_after_mm3: float
    area_before_mm2: float
    area_after_mm2: float
    largest_moved_mm: float
    left: FaultsLeft


def preview(step: Step, mesh: Mesh, progress: Progress | None = None) -> MendEffect:
    """What a step would change; the mesh stays as it is. Raises Cancelled."""
    progress = progress or Progress()
    mended = take(step, mesh, progress.part(0.0, 0.5))
    new = mended.mesh
    for each in (mesh, new):
        _ = each.face_areas_mm2
        progress.check()
    return MendEffect(
        mended,
        mesh.face_count,
        new.face_count,
        mesh.signed_volume_mm3,
        new.signed_volume_mm3,
        float(mesh.face_areas_mm2.sum()),
        float(new.face_areas_mm2.sum()),
        largest_moved_mm(mesh, new, progress.part(0.5, 0.7)),
        find_faults_left(new, progress.part(0.7, 1.0)),
    )


def largest_moved_mm(before: Mesh, now: Mesh, progress: Progress | None = None) -> float:
    """The farthest that a corner or middle of a new face of `now` lies from `before`.

    Corners at positions that were there before, and faces between three such corners that were one
    before, have not moved and are not looked at. Raises Cancelled.
    """
    progress = progress or Progress()
    if not before.face_count or not now.face_count or now is before:
        return 0.0
    is_new, fresh = _new_corners_and_faces(before, now, progress.part(0.0, 0.2))
    points = np.concatenate([now.vertices_mm[is_new], _middles(now, fresh)])
    if not len(points):
        return 0.0
    part = progress.part(0.2, 1.0)
    return float(nearest_faces(before.vertices_mm, before.faces, points, part).distances_mm.max())


def _new_corners_and_faces(
    before: Mesh, now: Mesh, progress: Progress
) -> tuple[np.ndarray, np.ndarray]:
    """(n,) bool: used vertices at positions that are new; (m,) bool: faces that are new."""
    count = len(before.vertices_mm)
    if now.vertices_mm is before.vertices_mm:
        place_of = np.concatenate([np.arange(count, dtype=np.int32)] * 2)
    else:
        positions = np.concatenate([before.vertices_mm, now.vertices_mm])
        place_of = merge_vertices(positions, progress.part(0.0, 0.5))[1]
    old, new = place_of[:count], place_of[count:]
    used = np.zeros(len(new), bool)
    used[now.faces] = True
    # Three places in order stand for a face, whichever way it is wound; whole numbers of this size
    # are exact in float64, so that they can be told apart like positions.
    rows = np.concatenate([_in_order(old[before.faces]), _in_order(new[now.faces])])
    row_of = merge_vertices(rows, progress.part(0.5, 1.0))[1]
    first_new = row_of[: before.face_count].max() + 1  # they are numbered as they appear
    return used & (new > old.max(initial=-1)), row_of[before.face_count :] >= first_new


def _in_order(rows: np.ndarray) -> np.ndarray:
    """(m, 3) float64: three whole numbers a row, ascending."""
    low, high = np.minimum(rows[:, 0], rows[:, 1]), np.maximum(rows[:, 0], rows[:, 1])
    return np.stack(
        [
            np.minimum(low, rows[:, 2]),
            np.maximum(low, np.minimum(high, rows[:, 2])),
            np.maximum(high, rows[:, 2]),
        ],
        axis=1,
    ).astype(np.float64)


def _middles(mesh: Mesh, chosen: np.ndarray) -> np.ndarray:
    return mesh.vertices_mm[mesh.faces[chosen]].mean(axis=1)
