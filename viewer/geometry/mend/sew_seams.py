"""Step: sew open edges that run along each other, within a tolerance.

Corners on open edges that lie near each other become one, nearest first, but never two that an edge
joins: the rim keeps its shape. Where a corner then lies on the middle of an open edge, the face
behind that edge is cut there. What would let more than two faces meet is undone.
"""

import numpy as np

from viewer.geometry.edge_faults import find_edge_faults
from viewer.geometry.mend.edge_keys import directed_keys, faces_along, faces_with_edge_at
from viewer.geometry.mend.join_pairs import join_pairs
from viewer.geometry.mend.mended import MendedMesh, unchanged, without_unused_vertices
from viewer.geometry.mend.near_pairs import near_pairs
from viewer.geometry.mend.on_edges import corners_on_edges
from viewer.geometry.mesh import Mesh
from viewer.progress import Progress

_ROUNDS = 4


def sew_seams(mesh: Mesh, within_mm: float, progress: Progress | None = None) -> MendedMesh:
    """The mesh with open edges no further apart than `within_mm` joined.

    No vertex moves further than that in one round. Unchanged if fewer edges would not be the
    outcome. Raises Cancelled.
    """
    progress = progress or Progress()
    # A copy: kernels are compiled anew for arrays that cannot be written to.
    points, faces, origin = mesh.vertices_mm, mesh.faces.copy(), np.arange(mesh.face_count)
    open_edges = find_edge_faults(faces).open
    at_first = len(open_edges)
    for turn in range(_ROUNDS):
        progress.report(turn / _ROUNDS, "Sewing seams")
        if not len(open_edges):
            break
        before = len(open_edges)
        faces = _join_corners(points, faces, open_edges, within_mm, progress)
        open_edges = find_edge_faults(faces).open
        faces, origin = _cut_at_corners(points, faces, origin, open_edges, within_mm, progress)
        open_edges = find_edge_faults(faces).open
        if len(open_edges) == before:
            break
    if len(open_edges) >= at_first:
        return unchanged(mesh)
    return without_unused_vertices(points, faces, origin)


def _join_corners(points, faces, open_edges, within_mm, progress):
    """Faces after joining near corners of open edges; those that crowd an edge are let go again."""
    on_rim = np.zeros(len(points), bool)
    on_rim[open_edges] = True
    rim = np.flatnonzero(on_rim).astype(np.int32)
    pairs, apart = near_pairs(points[rim], within_mm, progress)
    if not len(pairs):
        return faces
    pairs = rim[pairs[np.argsort(apart, kind="stable")]].astype(np.int32)
    starts, ends = _edges_among(faces, rim, len(points))
    before = directed_keys(np.sort(find_edge_faults(faces).crowded, axis=1))
    banned = np.zeros(len(points), bool)
    for _ in range(_ROUNDS):
        progress.check()
        new_index = join_pairs(pairs, starts, ends, banned, progress.stop_flag)
        progress.check()
        joined = new_index[faces]
        crowded = np.sort(find_edge_faults(joined).crowded, axis=1)
        worse = crowded[~np.isin(directed_keys(crowded), before)]
        if not len(worse):
            return joined
        bad = np.zeros(len(points), bool)
        bad[worse] = True
        banned |= bad
        banned[rim] |= bad[new_index[rim]]
    return faces


def _edges_among(faces, rim, vertex_count):
    """(starts, ends): what edges join vertex v with, among those of the rim, is
    ends[starts[v]:starts[v + 1]]."""
    on_rim = np.zeros(vertex_count, bool)
    on_rim[rim] = True
    few = faces[faces_with_edge_at(faces, rim, vertex_count)]
    edges = np.stack([few, np.roll(few, -1, axis=1)], axis=2).reshape(-1, 2)
    edges = edges[on_rim[edges].all(axis=1)]
    edges = np.concatenate([edges, edges[:, ::-1]])
    edges = edges[np.argsort(edges[:, 0], kind="stable")]
    starts = np.zeros(vertex_count + 1, np.int64)
    np.cumsum(np.bincount(edges[:, 0], minlength=vertex_count), out=starts[1:])
    return starts, np.ascontiguousarray(edges[:, 1])


def _cut_at_corners(points, faces, origin, open_edges, within_mm, progress):
    """Faces behind open edges cut at the corners of other open edges that lie on them."""
    if not len(open_edges):
        return faces, origin
    at_edge = faces_along(faces, open_edges, len(points))
    edge, corner, share = corners_on_edges(points, faces, open_edges, at_edge, within_mm, progress)
    if not len(edge):
        return faces, origin
    # A face is cut along one of its edges at a time: the first that there is.
    first = np.full(len(faces), len(open_edges), np.int64)
    np.minimum.at(first, at_edge[edge], edge)
    chosen = first[at_edge[edge]] == edge
    edge, corner, share = edge[chosen], corner[chosen], share[chosen]
    cut = np.unique(edge)
    # Along each edge: its start, the corners on it, its end; a piece between any two in a row.
    edge = np.concatenate([cut, edge, cut])
    corner = np.concatenate([open_edges[cut, 0], corner, open_edges[cut, 1]])
    share = np.concatenate([np.zeros(len(cut)), share, np.ones(len(cut))])
    order = np.lexsort((share, edge))
    edge, corner = edge[order], corner[order]
    piece = edge[:-1] == edge[1:]
    behind = at_edge[edge[:-1][piece]]
    # Its three corners less the two ends of the edge; none of them is large enough to overflow.
    third = faces.astype(np.int64).sum(axis=1)[behind] - open_edges.sum(axis=1)[edge[:-1][piece]]
    kept = np.ones(len(faces), bool)
    kept[at_edge[cut]] = False
    added = np.stack([corner[:-1][piece], corner[1:][piece], third], axis=1)
    return (
        np.concatenate([faces[kept], added.astype(np.int32)]),
        np.concatenate([origin[kept], origin[behind]]),
    )
