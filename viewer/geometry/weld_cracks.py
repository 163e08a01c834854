"""Join corners along open edges that a file's own precision cannot tell apart.

Modellers work out a corner once for each face that meets there; the results may differ in the last
digit, which leaves cracks far narrower than anything that prints. Only corners on open edges are
looked at, so sound meshes pass unchanged.
"""

import numpy as np

from viewer.geometry.compiled import LOOK_BITS, compiled
from viewer.geometry.edge_faults import EdgeFaults, find_edge_faults
from viewer.geometry.mesh import Mesh
from viewer.geometry.point_box import point_box
from viewer.geometry.self_intersections import float32_step_mm
from viewer.geometry.sort_keys import order_of_keys
from viewer.progress import Progress

_LOOK_BITS = LOOK_BITS >> 3  # each point looks into 27 cells
_STEPS = np.array([(i, j, k) for i in (-1, 0, 1) for j in (-1, 0, 1) for k in (-1, 0, 1)])


def weld_mesh(mesh: Mesh, progress: Progress) -> tuple[Mesh, EdgeFaults]:
    """A mesh without cracks narrower than one step of float32, and the faults of its edges.

    The mesh itself where there is nothing to join. Raises Cancelled.
    """
    edges = find_edge_faults(mesh.faces, progress)
    if not len(edges.open):
        return mesh, edges
    step_mm = float32_step_mm(mesh.box_mm)
    welded = weld_cracks(mesh.vertices_mm, mesh.faces, edges.open, step_mm, progress)
    if welded is mesh.faces:
        return mesh, edges
    return Mesh(mesh.vertices_mm, welded), find_edge_faults(welded, progress)


def weld_cracks(
    vertices_mm: np.ndarray,
    faces: np.ndarray,
    open_edges: np.ndarray,
    within_mm: float,
    progress: Progress | None = None,
) -> np.ndarray:
    """Faces whose corners on open edges use one vertex wherever two lie within a distance.

    vertices_mm : (n, 3) float64; faces : (m, 3) int32; open_edges : (k, 2) int32
    returns (m, 3) int32, the same faces in the same order: `faces` itself where nothing is joined
    Raises Cancelled through `progress`.
    """
    progress = progress or Progress()
    on_rim = np.zeros(len(vertices_mm), bool)
    on_rim[open_edges] = True
    rim = np.flatnonzero(on_rim)
    progress.check()
    if len(rim) < 2:
        return faces
    points = vertices_mm[rim]
    progress.check()
    cells = _cells(points, point_box(points)[0][0], within_mm, progress.stop_flag)
    progress.check()
    keys = _cell_keys(cells)
    progress.check()
    order = order_of_keys(keys, progress)
    ordered = keys[order]
    progress.check()
    parent = np.arange(len(rim))
    joined = _join_near(
        points, cells, ordered, order, within_mm, parent, _STEPS, progress.stop_flag
    )
    progress.check()
    if not joined:
        return faces
    new_index = np.arange(len(vertices_mm), dtype=np.int32)
    new_index[rim] = rim[parent]
    progress.check()
    return new_index[faces]


@compiled
def _cells(points, low, within, stop):
    cells = np.empty(points.shape, np.int64)
    for n in range(len(points)):
        if n & LOOK_BITS == 0 and stop[0]:
            break
        for axis in range(3):
            cells[n, axis] = np.int64(np.floor((points[n, axis] - low[axis]) / within))
    return cells


@compiled
def _key(i, j, k):
    """A 64-bit hash of a cell; two cells with one key only cost a comparison of distances."""
    mixed = (i * 73856093) ^ (j * 19349663) ^ (k * 83492791)
    return np.uint64((mixed ^ (mixed >> 31)) * 0x9E3779B1)


@compiled
def _cell_keys(cells):
    keys = np.empty(len(cells), np.uint64)
    for n in range(len(cells)):
        keys[n] = _key(cells[n, 0], cells[n, 1], cells[n, 2])
    return keys


@compiled
def _join_near(points, cells, ordered, order, within, parent, steps, stop):
    """Union of all points within a distance; afterwards parent[n] is the lowest of n's group.

    ordered : keys of the cells of the points in `order`
    """
    joined = 0
    for n in range(len(points)):
        if n & _LOOK_BITS == 0 and stop[0]:
            break
        for s in range(len(steps)):
            key = _key(
                cells[n, 0] + steps[s, 0], cells[n, 1] + steps[s, 1], cells[n, 2] + steps[s, 2]
            )
            place = np.searchsorted(ordered, key)
            while place < len(order) and ordered[place] == key:
                other = order[place]
                place += 1
                if other >= n:
                    continue
                apart = 0.0
                for axis in range(3):
                    apart += (points[n, axis] - points[other, axis]) ** 2
                if apart <= within * within:
                    a, b = n, other
                    while parent[a] != a:
                        a = parent[a]
                    while parent[b] != b:
                        b = parent[b]
                    if a != b:
                        parent[max(a, b)] = min(a, b)
                        joined += 1
    for n in range(len(points)):
        parent[n] = parent[parent[n]]  # a parent is lower than its child, so it is final already
    return joined
