"""Step: take away loose shells smaller than a size."""

import numpy as np

from viewer.geometry.known_of_mesh import shells_of
from viewer.geometry.mend.mended import MendedMesh, kept_faces, unchanged
from viewer.geometry.mesh import Mesh
from viewer.progress import Progress


def drop_bits(mesh: Mesh, smaller_than_mm: float, progress: Progress | None = None) -> MendedMesh:
    """The mesh without the shells whose box has a diagonal below a size.

    The largest shell always stays, and so do shells that lie inside a closed one, for those are
    cavities or bodies in cavities. Raises Cancelled.
    """
    progress = progress or Progress()
    progress.report(0.0, "Looking for loose bits")
    shells = shells_of(mesh)
    if shells.count < 2:
        return unchanged(mesh)
    size = np.linalg.norm(shells.boxes_mm[:, 1] - shells.boxes_mm[:, 0], axis=1)
    dropped = (size < smaller_than_mm) & (shells.depth == 0) & (size < size.max())
    if not dropped.any():
        return unchanged(mesh)
    # What lies in a shell that goes, goes with it.
    for inner, outer in zip(shells.inner, shells.outer, strict=True):
        if dropped[outer] and shells.depth[outer] == 0:
            dropped[inner] = True
    return kept_faces(mesh, ~dropped[shells.shell_of_face])
