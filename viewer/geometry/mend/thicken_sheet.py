"""Step: give an open sheet a wall, half of it to either side."""

import numpy as np

from viewer.geometry.edge_faults import find_edge_faults
from viewer.geometry.known_of_mesh import shells_of
from viewer.geometry.mend.edge_keys import faces_along
from viewer.geometry.mend.mended import MendedMesh, unchanged, without_unused_vertices
from viewer.geometry.mesh import Mesh
from viewer.geometry.outward_steps import outward_steps
from viewer.progress import Progress


def thicken_sheet(mesh: Mesh, wall_mm: float, progress: Progress | None = None) -> MendedMesh:
    """The mesh with open shells as walls: both sides, `wall_mm` apart along the normals, and a rim.

    Both sides and the rim have the class of the face they come from. Bends sharper than half the
    wall cross themselves. Shells without open edges stay as they are; unchanged if all are so.
    Raises Cancelled.
    """
    progress = progress or Progress()
    progress.report(0.0, "Thickening the sheet")
    rim = find_edge_faults(mesh.faces).open
    if not len(rim):
        return unchanged(mesh)
    count = len(mesh.vertices_mm)
    at_rim = faces_along(mesh.faces, rim, count)
    shell = shells_of(mesh, progress).shell_of_face
    has_rim = np.zeros(shell.max() + 1, bool)
    has_rim[shell[at_rim]] = True
    sheet = has_rim[shell]
    faces, own = mesh.faces[sheet], np.flatnonzero(sheet)
    progress.check()
    step = outward_steps(mesh.vertices_mm, faces, mesh.face_normals[sheet], 0.5 * wall_mm)
    progress.check()
    # Each side gets vertices of its own, so that bodies a sheet is joined to keep theirs.
    front, back = count, 2 * count
    a, b = rim.T
    return without_unused_vertices(
        np.concatenate([mesh.vertices_mm, mesh.vertices_mm + step, mesh.vertices_mm - step]),
        np.concatenate(
            [
                mesh.faces[~sheet],
                faces + front,
                faces[:, ::-1] + back,
                np.stack([b + front, a + front, a + back], axis=1),
                np.stack([b + front, a + back, b + back], axis=1),
            ]
        ),
        np.concatenate([np.flatnonzero(~sheet), own, own, at_rim, at_rim]),
    )
