"""Step: give an open sheet a wall, half of it to either side."""

import numpy as np

from viewer.geometry.edge_faults import find_edge_faults
from viewer.geometry.mend.mended import MendedMesh, unchanged
from viewer.geometry.mesh import Mesh
from viewer.geometry.outward_steps import outward_steps
from viewer.progress import Progress


def thicken_sheet(mesh: Mesh, wall_mm: float, progress: Progress | None = None) -> MendedMesh:
    """The mesh as a wall: both sides, `wall_mm` apart along the normals, and a rim between them.

    Both sides and the rim have the class of the face they come from. Bends sharper than half the
    wall cross themselves. Unchanged if nothing is open. Raises Cancelled.
    """
    progress = progress or Progress()
    progress.report(0.0, "Thickening the sheet")
    rim = find_edge_faults(mesh.faces).open
    if not len(rim):
        return unchanged(mesh)
    count, faces = len(mesh.vertices_mm), mesh.faces
    step = outward_steps(mesh.vertices_mm, faces, mesh.face_normals, 0.5 * wall_mm)
    a, b = rim.T
    sides = np.concatenate(
        [np.stack([b, a, a + count], axis=1), np.stack([b, a + count, b + count], axis=1)]
    )
    directed = {}
    on_rim = np.zeros(count, bool)
    on_rim[rim] = True
    for face in np.flatnonzero(on_rim[faces].sum(axis=1) > 1).tolist():
        for k in range(3):
            directed[int(faces[face, k]), int(faces[face, (k + 1) % 3])] = face
    at_rim = [directed[edge] for edge in zip(a.tolist(), b.tolist(), strict=True)]
    own = np.arange(mesh.face_count)
    return MendedMesh(
        np.concatenate([mesh.vertices_mm + step, mesh.vertices_mm - step]),
        np.concatenate([faces, faces[:, ::-1] + count, sides]),
        np.concatenate([own, own, at_rim, at_rim]),
    )
