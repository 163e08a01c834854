"""Fewer faces for a solid where many lie in one plane, by manifold3d, which cannot be stopped.

Apart from the arrays nothing is imported here, so that a process of its own is ready quickly.
"""

import manifold3d
import numpy as np

from viewer.geometry.unite_solids import FEW_FACES, Solid, United
from viewer.own_process import run_in_own_process
from viewer.progress import Progress

_GROWTH = 1.5  # from one tolerance to the next


def simplify_solid(
    solid: Solid, within_mm: float, progress: Progress | None = None
) -> United | None:
    """The solid with vertices left out that change nothing by more than `within_mm`.

    Faces with different numbers are never joined. None if it is not solid. Large ones in a process
    of its own. Raises Cancelled; ShowsideError when the process dies.
    """
    if len(solid.faces) <= FEW_FACES:
        return simplify_here(solid, within_mm)
    return run_in_own_process(simplify_here, solid, within_mm, progress=progress)


def simplify_here(
    solid: Solid, within_mm: float, progress: Progress | None = None
) -> United | None:
    """The same in this process; `progress` hears nothing while manifold3d works."""
    body = manifold3d.Manifold(
        manifold3d.Mesh64(
            vert_properties=solid.points_mm, tri_verts=solid.faces, face_id=solid.face_ids
        )
    )
    if body.status() != manifold3d.Error.NoError or body.is_empty():
        return None
    mesh = body.simplify(within_mm).to_mesh64()
    return United(
        np.array(mesh.vert_properties)[:, :3].copy(),
        np.array(mesh.tri_verts, np.int64),
        np.asarray(mesh.face_id, np.int32),
    )


def simplify_to(
    solid: Solid, most_faces: int, first_mm: float, last_mm: float, progress: Progress | None = None
) -> United | None:
    """The solid with at most so many faces, by a tolerance that grows from `first_mm`.

    None if it is not solid, or would have to change by more than `last_mm`. Large ones in a process
    of its own. Raises Cancelled; ShowsideError when the process dies.
    """
    if len(solid.faces) <= FEW_FACES:
        return simplify_to_here(solid, most_faces, first_mm, last_mm)
    return run_in_own_process(
        simplify_to_here, solid, most_faces, first_mm, last_mm, progress=progress
    )


def simplify_to_here(
    solid: Solid, most_faces: int, first_mm: float, last_mm: float, progress: Progress | None = None
) -> United | None:
    """The same in this process; `progress` hears something between two tolerances only."""
    within_mm, progress = first_mm, progress or Progress()
    while within_mm <= last_mm:
        progress.report(within_mm / last_mm, "Making the part small enough to send")
        made = simplify_here(solid, within_mm)
        if made is None or len(made.faces) <= most_faces:
            return made
        solid = Solid(made.points_mm, made.faces.astype(np.uint64), made.origin.astype(np.uint64))
        within_mm *= _GROWTH
    return None
