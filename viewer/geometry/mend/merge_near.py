"""Step: let corners that lie in one place use one vertex."""

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.mend.mended import MendedMesh, unchanged, without_unused_vertices
from viewer.geometry.merge_vertices import merge_vertices
from viewer.geometry.mesh import Mesh
from viewer.geometry.union_find import join_groups
from viewer.progress import Progress

# Along a direction that no part is built along, few points share a place.
_ASKEW = np.array([0.5377, 0.6951, 0.4771])
_ASKEW /= np.linalg.norm(_ASKEW)


def merge_near(mesh: Mesh, within_mm: float, progress: Progress | None = None) -> MendedMesh:
    """The mesh with vertices no further apart than `within_mm` made one, the first of them.

    Faces keep their number and order; those that shrink to an edge name a vertex twice and are
    left for the step that drops faces without area. Raises Cancelled.
    """
    progress = progress or Progress()
    points, vertex_of = merge_vertices(mesh.vertices_mm, progress.part(0.0, 0.5))
    faces = vertex_of[mesh.faces]
    used = _used(faces, len(points))
    progress.check()
    near = np.arange(len(points), dtype=np.int32)
    near[used] = used[lowest_of_near(points[used], within_mm, progress)]
    progress.report(1.0, "Merging vertices")
    merged = near[faces]
    before, now = _used(mesh.faces, len(mesh.vertices_mm)), _used(merged, len(points))
    if len(now) == len(before):
        return unchanged(mesh)
    return without_unused_vertices(points, merged, np.arange(mesh.face_count))


def _used(faces: np.ndarray, vertex_count: int) -> np.ndarray:
    is_used = np.zeros(vertex_count, bool)
    is_used[faces] = True
    return np.flatnonzero(is_used).astype(np.int32)


def lowest_of_near(points_mm: np.ndarray, within_mm: float, progress: Progress) -> np.ndarray:
    """(n,) int64: the lowest of all points that a chain of steps of `within_mm` leads to.

    points_mm : (n, 3) float64. Raises Cancelled.
    """
    along = points_mm @ _ASKEW
    order = np.argsort(along)
    progress.check()
    parent = _join_near(points_mm[order], along[order], order, within_mm, progress.stop_flag)
    progress.check()
    return parent


@compiled
def _join_near(points, along, order, within, stop):
    """Points in the order of `along`: those within reach of one another follow it closely."""
    parent = np.arange(len(order))
    reach = within * (1.0 + 1e-9)
    for i in range(len(order)):
        if i % 4096 == 0 and stop[0]:
            break
        j = i + 1
        while j < len(order) and along[j] - along[i] <= reach:
            apart = 0.0
            for axis in range(3):
                apart += (points[i, axis] - points[j, axis]) ** 2
            if apart <= within * within:
                join_groups(parent, order[i], order[j])
            j += 1
    for v in range(len(parent)):
        parent[v] = parent[parent[v]]  # a parent is lower than its child, so it is final already
    return parent
