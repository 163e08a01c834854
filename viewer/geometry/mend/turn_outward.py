"""Step: wind the faces of each shell alike, and turn bodies outward, cavities inward."""

import numpy as np

from viewer.geometry.known_of_mesh import shells_of
from viewer.geometry.mend.mended import MendedMesh, unchanged
from viewer.geometry.mesh import Mesh
from viewer.progress import Progress


def turn_outward(mesh: Mesh, progress: Progress | None = None) -> MendedMesh:
    """The mesh with every face wound as its shell needs it (`find_shells`); nothing moves.

    Raises Cancelled.
    """
    progress = progress or Progress()
    progress.report(0.0, "Turning shells outward")
    turned = shells_of(mesh, progress).orientation < 0
    if not turned.any():
        return unchanged(mesh)
    faces = np.where(turned[:, None], mesh.faces[:, ::-1], mesh.faces)
    return MendedMesh(mesh.vertices_mm, faces, np.arange(mesh.face_count))
