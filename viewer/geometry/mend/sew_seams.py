"""Step: sew open edges that run along each other, within a tolerance.

Corners on open edges that lie near each other become one, nearest first, but never two that an edge
joins: the rim keeps its shape. Where a corner then lies on the middle of an open edge, the face
behind that edge is cut there. What would let more than two faces meet is undone.
"""

from collections import defaultdict
from itertools import pairwise

import numpy as np

from viewer.geometry.edge_faults import find_edge_faults
from viewer.geometry.mend.mended import MendedMesh, unchanged, without_unused_vertices
from viewer.geometry.mend.near_pairs import near_pairs
from viewer.geometry.mesh import Mesh
from viewer.progress import Progress

_ROUNDS = 4
_AT_THE_END = 1e-6  # share of an edge: a corner so near its end does not cut it


def sew_seams(mesh: Mesh, within_mm: float, progress: Progress | None = None) -> MendedMesh:
    """The mesh with open edges no further apart than `within_mm` joined.

    No vertex moves further than that in one round. Unchanged if fewer edges would not be the
    outcome. Raises Cancelled.
    """
    progress = progress or Progress()
    points, faces, origin = mesh.vertices_mm, mesh.faces, np.arange(mesh.face_count)
    open_edges = find_edge_faults(faces).open
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
    if len(open_edges) >= len(find_edge_faults(mesh.faces).open):
        return unchanged(mesh)
    return without_unused_vertices(points, faces, origin)


def _join_corners(points, faces, open_edges, within_mm, progress):
    """Faces after joining near corners of open edges; those that crowd an edge are let go again."""
    rim = np.unique(open_edges)
    pairs, apart = near_pairs(points[rim], within_mm)
    pairs = rim[pairs[np.argsort(apart, kind="stable")]]
    if not len(pairs):
        return faces
    adjacent = _edges_among(faces, rim)
    before = {tuple(edge) for edge in np.sort(find_edge_faults(faces).crowded, axis=1).tolist()}
    banned: set[int] = set()
    for _ in range(_ROUNDS):
        progress.check()
        group_of = _grouped(pairs.tolist(), adjacent, banned)
        new_index = np.arange(len(points), dtype=np.int32)
        for vertex, group in group_of.items():
            new_index[vertex] = group
        joined = new_index[faces]
        crowded = np.sort(find_edge_faults(joined).crowded, axis=1)
        worse = [edge for edge in crowded.tolist() if tuple(edge) not in before]
        if not worse:
            return joined
        bad = {vertex for edge in worse for vertex in edge}
        banned |= {vertex for vertex, group in group_of.items() if group in bad} | bad
    return faces


def _edges_among(faces, rim):
    """Vertex → vertices that an edge joins it with, for the vertices of the rim."""
    on_rim = np.zeros(int(faces.max()) + 1, bool)
    on_rim[rim] = True
    few = faces[on_rim[faces].sum(axis=1) > 1]
    adjacent: dict[int, set[int]] = defaultdict(set)
    for a, b, c in few.tolist():
        for v, w in ((a, b), (b, c), (c, a)):
            adjacent[v].add(w)
            adjacent[w].add(v)
    return adjacent


def _grouped(pairs, adjacent, banned) -> dict[int, int]:
    """Vertex → lowest vertex of its group, for vertices that are joined with others."""
    group_of: dict[int, int] = {}
    members: dict[int, set[int]] = {}
    for v, w in pairs:
        if v in banned or w in banned:
            continue
        a, b = group_of.get(v, v), group_of.get(w, w)
        if a == b:
            continue
        one, other = members.get(a, {v}), members.get(b, {w})
        if any(adjacent[each] & other for each in one):
            continue
        low, whole = min(a, b), one | other
        members[low] = whole
        for each in whole:
            group_of[each] = low
    return group_of


def _cut_at_corners(points, faces, origin, open_edges, within_mm, progress):
    """Faces behind open edges cut at the corners of other open edges that lie on them."""
    if not len(open_edges):
        return faces, origin
    rim = np.unique(open_edges)
    rim = rim[np.argsort(points[rim, 0], kind="stable")]
    x = points[rim, 0]
    at_edge = _faces_at(faces, open_edges)
    cut, added, added_origin = set(), [], []
    for (a, b), face in zip(open_edges.tolist(), at_edge, strict=True):
        progress.check()
        if face in cut:
            continue
        start, end = points[a], points[b]
        low, high = sorted((start[0], end[0]))
        first, last = np.searchsorted(x, [low - within_mm, high + within_mm])
        near = rim[first:last]
        along = end - start
        length = float(along @ along)
        if length <= within_mm * within_mm:
            continue
        share = (points[near] - start) @ along / length
        foot = start + share[:, None] * along
        away = np.linalg.norm(points[near] - foot, axis=1)
        margin = max(_AT_THE_END, within_mm / length**0.5 * 0.5)
        on_it = (away <= within_mm) & (share > margin) & (share < 1.0 - margin)
        on_it &= ~np.isin(near, faces[face])
        if not on_it.any():
            continue
        third = next(v for v in faces[face].tolist() if v not in (a, b))
        chain = [a, *near[on_it][np.argsort(share[on_it], kind="stable")].tolist(), b]
        cut.add(face)
        added += [(v, w, third) for v, w in pairwise(chain)]
        added_origin += [origin[face]] * (len(chain) - 1)
    if not cut:
        return faces, origin
    kept = np.ones(len(faces), bool)
    kept[list(cut)] = False
    return (
        np.concatenate([faces[kept], np.array(added, np.int32)]),
        np.concatenate([origin[kept], np.array(added_origin, origin.dtype)]),
    )


def _faces_at(faces, open_edges) -> list[int]:
    """The face at each directed open edge."""
    at: dict[tuple[int, int], int] = {}
    on_rim = np.zeros(int(faces.max()) + 1, bool)
    on_rim[open_edges] = True
    for face in np.flatnonzero(on_rim[faces].sum(axis=1) > 1).tolist():
        a, b, c = faces[face].tolist()
        at[a, b] = at[b, c] = at[c, a] = face
    return [at[a, b] for a, b in open_edges.tolist()]
