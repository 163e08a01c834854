"""Join corners along open edges that a file's own precision cannot tell apart.

Modellers work out a corner once for each face that meets there; the results may differ in the last
digit, which leaves cracks far narrower than anything that prints. Only corners on open edges are
looked at, so sound meshes pass unchanged.
"""

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.edge_faults import EdgeFaults, find_edge_faults
from viewer.geometry.mesh import Mesh
from viewer.geometry.self_intersections import float32_step_mm
from viewer.progress import Progress

_STEPS = np.array([(i, j, k) for i in (-1, 0, 1) for j in (-1, 0, 1) for k in (-1, 0, 1)])


def weld_mesh(mesh: Mesh, progress: Progress) -> tuple[Mesh, EdgeFaults]:
    """A mesh without cracks narrower than one step of float32, and the faults of its edges.

    The mesh itself where there is nothing to join. Raises Cancelled.
    """
    edges = find_edge_faults(mesh.faces, progress)
    if not len(edges.open):
        return mesh, edges
    welded = weld_cracks(mesh.vertices_mm, mesh.faces, edges.open, float32_step_mm(mesh.box_mm))
    progress.check()
    if welded is mesh.faces:
        return mesh, edges
    return Mesh(mesh.vertices_mm, welded), find_edge_faults(welded, progress)


def weld_cracks(
    vertices_mm: np.ndarray, faces: np.ndarray, open_edges: np.ndarray, within_mm: float
) -> np.ndarray:
    """Faces whose corners on open edges use one vertex wherever two lie within a distance.

    vertices_mm : (n, 3) float64; faces : (m, 3) int32; open_edges : (k, 2) int32
    returns (m, 3) int32, the same faces in the same order: `faces` itself where nothing is joined
    """
    rim = np.unique(open_edges)
    if len(rim) < 2:
        return faces
    points = vertices_mm[rim]
    cells = np.floor((points - points.min(axis=0)) / within_mm).astype(np.int64)
    keys = _cell_keys(cells)
    order = np.argsort(keys, kind="stable")
    parent = np.arange(len(rim))
    joined = _join_near(points, cells, keys, order, within_mm, parent, _STEPS)
    if not joined:
        return faces
    new_index = np.arange(len(vertices_mm), dtype=np.int32)
    new_index[rim] = rim[parent]
    return new_index[faces]


@compiled
def _key(i, j, k):
    """A 64-bit hash of a cell; two cells with one key only cost a comparison of distances."""
    mixed = (i * 73856093) ^ (j * 19349663) ^ (k * 83492791)
    return (mixed ^ (mixed >> 31)) * 0x9E3779B1


@compiled
def _cell_keys(cells):
    keys = np.empty(len(cells), np.int64)
    for n in range(len(cells)):
        keys[n] = _key(cells[n, 0], cells[n, 1], cells[n, 2])
    return keys


@compiled
def _join_near(points, cells, keys, order, within, parent, steps):
    """Union of all points within a distance; afterwards parent[n] is the lowest of n's group."""
    ordered = keys[order]
    joined = 0
    for n in range(len(points)):
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
