"""The union of solid bodies by manifold3d, which holds the interpreter lock and cannot be stopped.

Apart from the arrays nothing is imported here, so that a process of its own is ready quickly.
"""

from typing import NamedTuple

import manifold3d
import numpy as np

from viewer.own_process import run_in_own_process
from viewer.progress import Progress

FEW_FACES = 4000  # united in some 20 ms, for which no process is started


class Solid(NamedTuple):
    """A body with its cavities.

    points_mm : (n, 3) float64
    faces : (m, 3) uint64
    face_ids : (m,) uint64, numbers that the faces keep through the union
    """

    points_mm: np.ndarray
    faces: np.ndarray
    face_ids: np.ndarray


class United(NamedTuple):
    """points_mm : (p, 3) float64; faces : (t, 3) int64; origin : (t,) int32, ids of the faces that
    they are pieces of
    """

    points_mm: np.ndarray
    faces: np.ndarray
    origin: np.ndarray


def unite_solids(solids: list[Solid], progress: Progress | None = None) -> United | None:
    """The union of the bodies, None if one of them is not solid; larger ones in an own process.

    Raises Cancelled; ShowsideError when the process dies.
    """
    if sum(len(solid.faces) for solid in solids) <= FEW_FACES:
        return unite_here(solids)
    return run_in_own_process(unite_here, solids, progress=progress)


def unite_here(solids: list[Solid], progress: Progress | None = None) -> United | None:
    """The same in this process; `progress` hears nothing while manifold3d works."""
    bodies = []
    for solid in solids:
        body = manifold3d.Manifold(
            manifold3d.Mesh64(
                vert_properties=solid.points_mm,
                tri_verts=solid.faces,
                face_id=solid.face_ids,
            )
        )
        if body.status() != manifold3d.Error.NoError or body.is_empty():
            return None
        bodies.append(body)
    mesh = manifold3d.Manifold.batch_boolean(bodies, manifold3d.OpType.Add).to_mesh64()
    return United(
        np.array(mesh.vert_properties)[:, :3].copy(),
        np.array(mesh.tri_verts, np.int64),
        np.asarray(mesh.face_id, np.int32),
    )
