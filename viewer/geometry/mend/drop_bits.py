"""Step: take away loose shells smaller than a size, and surfaces lost inside the material."""

import numpy as np

from viewer.geometry.known_of_mesh import shells_of
from viewer.geometry.mend.mended import MendedMesh, kept_faces, unchanged
from viewer.geometry.mesh import Mesh
from viewer.geometry.nesting import shells_around
from viewer.geometry.shell_contacts import loose_sheets
from viewer.progress import Progress


def drop_bits(mesh: Mesh, smaller_than_mm: float, progress: Progress | None = None) -> MendedMesh:
    """The mesh without the shells whose box has a diagonal below a size, and without lost surfaces.

    The largest shell always stays, and so do shells that lie inside a closed one, for those are
    cavities or bodies in cavities: unless they are lost surfaces (`lost_inside`). Raises Cancelled.
    """
    progress = progress or Progress()
    progress.report(0.0, "Looking for loose bits")
    shells = shells_of(mesh, progress)
    if shells.count < 2:
        return unchanged(mesh)
    size = np.linalg.norm(shells.boxes_mm[:, 1] - shells.boxes_mm[:, 0], axis=1)
    dropped = (size < smaller_than_mm) & (shells.depth == 0) & (size < size.max())
    # What lies in a shell that goes, goes with it.
    for inner, outer in zip(shells.inner, shells.outer, strict=True):
        if dropped[outer] and shells.depth[outer] == 0:
            dropped[inner] = True
    dropped |= lost_inside(mesh, progress)
    if not dropped.any():
        return unchanged(mesh)
    return kept_faces(mesh, ~dropped[shells.shell_of_face])


def lost_inside(mesh: Mesh, progress: Progress | None = None) -> np.ndarray:
    """(k,) bool: open shells that enclose nothing and lie in the material of a closed one.

    They bound nothing: with a wall they would be a hollow. Raises Cancelled.
    """
    shells = shells_of(mesh, progress)
    loose = loose_sheets(mesh, shells)[0]
    if not loose.any() or not shells.closed.any():
        return np.zeros(shells.count, bool)
    wound = np.where(shells.rewound[:, None], mesh.faces[:, ::-1], mesh.faces)
    outward = np.where(shells.volume_mm3 < 0, -1.0, 1.0)
    # Loose ones are asked for like closed ones; only what is closed counts as around them.
    nesting = shells_around(
        mesh.vertices_mm[wound], shells.shell_of_face, shells.closed | loose, outward,
        shells.boxes_mm,
    )  # fmt: skip
    around = np.bincount(nesting.inner[shells.closed[nesting.outer]], minlength=shells.count)
    return loose & (around % 2 == 1)
