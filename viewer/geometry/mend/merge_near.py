"""Step: let corners that lie in one place use one vertex."""

import numpy as np

from viewer.geometry.mend.mended import MendedMesh, unchanged, without_unused_vertices
from viewer.geometry.merge_vertices import merge_vertices
from viewer.geometry.mesh import Mesh
from viewer.geometry.weld_cracks import weld_cracks
from viewer.progress import Progress


def merge_near(mesh: Mesh, within_mm: float, progress: Progress | None = None) -> MendedMesh:
    """The mesh with vertices no further apart than `within_mm` made one, the first of them.

    Faces keep their number and order; those that shrink to an edge name a vertex twice and are
    left for the step that drops faces without area. Raises Cancelled.
    """
    progress = progress or Progress()
    points, vertex_of = merge_vertices(mesh.vertices_mm, progress.part(0.0, 0.5))
    faces = vertex_of[mesh.faces]
    used = np.unique(faces)
    if len(used) % 2:
        used = np.append(used, used[0])
    merged = weld_cracks(points, faces, used.reshape(-1, 2), within_mm)
    progress.report(1.0, "Merging vertices")
    if len(np.unique(merged)) == len(np.unique(mesh.faces)):
        return unchanged(mesh)
    return without_unused_vertices(points, merged, np.arange(mesh.face_count))
