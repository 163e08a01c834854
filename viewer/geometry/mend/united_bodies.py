"""The union of bodies without edges finer than a file keeps, by manifold3d that none can stop.

Apart from the arrays nothing is imported here, so that a process of its own is ready quickly.
"""

import manifold3d
import numpy as np

from viewer.geometry.unite_solids import FEW_FACES, Solid, United
from viewer.own_process import run_in_own_process
from viewer.progress import Progress


def united_bodies(
    bodies: list[Solid], within_mm: float, progress: Progress | None = None
) -> United | None:
    """The union, with vertices left out that change nothing by more than `within_mm`.

    None if one of them is not solid, or if nothing is left. Large ones in a process of its own.
    Raises Cancelled; ShowsideError when the process dies.
    """
    if sum(len(body.faces) for body in bodies) <= FEW_FACES:
        return unite_here(bodies, within_mm)
    return run_in_own_process(unite_here, bodies, within_mm, progress=progress)


def unite_here(
    bodies: list[Solid], within_mm: float, progress: Progress | None = None
) -> United | None:
    """The same in this process; `progress` hears nothing while manifold3d works."""
    solids = []
    for body in bodies:
        solid = manifold3d.Manifold(
            manifold3d.Mesh64(
                vert_properties=body.points_mm, tri_verts=body.faces, face_id=body.face_ids
            )
        )
        if solid.status() != manifold3d.Error.NoError or solid.is_empty():
            return None
        solids.append(solid)
    united = manifold3d.Manifold.batch_boolean(solids, manifold3d.OpType.Add).simplify(within_mm)
    if united.status() != manifold3d.Error.NoError or united.is_empty():
        return None
    mesh = united.to_mesh64()
    return United(
        np.array(mesh.vert_properties)[:, :3].copy(),
        np.array(mesh.tri_verts, np.int64),
        np.asarray(mesh.face_id, np.int32),
    )
