"""Step: close holes, flat ones with a flat lid and the others with one that bends little.

Not only open edges are closed but every edge that does not add up (`chain_boundary`), so that the
surface bounds a volume afterwards, whatever it was before.
"""

import numpy as np

from viewer.geometry.mend.edge_keys import faces_along
from viewer.geometry.mend.find_holes import (
    FLAT_SHARE,
    Hole,
    Holes,
    lone_triangles,
    measure_holes,
)
from viewer.geometry.mend.mended import MendedMesh, unchanged, without_unused_vertices
from viewer.geometry.mend.smooth_lid import smooth_lid
from viewer.geometry.mend.span_flat import flat_axes, lies_inside, span_flat
from viewer.geometry.mend.span_loop import span_loop
from viewer.geometry.mesh import Mesh
from viewer.geometry.self_intersections import near_distance_mm
from viewer.progress import Progress

_MOST_PLANES = 200  # islands are looked for in so many planes, those of the largest holes


def fill_holes(
    mesh: Mesh,
    extent_up_to_mm: float = np.inf,
    flat_only: bool = False,
    progress: Progress | None = None,
) -> MendedMesh:
    """The mesh with its holes closed; old faces stay as they are, lids come after them.

    extent_up_to_mm : wider holes are left open
    flat_only : leave curved holes open
    Raises Cancelled.
    """
    progress = progress or Progress()
    progress.report(0.0, "Looking for holes")
    found = measure_holes(mesh)
    asked = (found.extents_mm <= extent_up_to_mm) & (found.flat | (not flat_only))
    if not asked.any():
        return unchanged(mesh)
    simple = asked & lone_triangles(found)
    progress.check()
    holes = [found.one(number) for number in np.flatnonzero(asked & ~simple).tolist()]
    triangles, origin = _lids_of_triangles(mesh, found, simple)
    rim = _Rim(mesh, holes)
    flat = [hole for hole in holes if hole.flat and hole.area_mm2 > 0.0]
    rest = [hole for hole in holes if not hole.flat or hole.area_mm2 <= 0.0]
    lids = []
    for group in _by_plane(mesh, flat, progress):
        progress.check()
        made, unmade = _flat_lids(mesh, group)
        lids += made
        rest += unmade
    points, count = [mesh.vertices_mm], len(mesh.vertices_mm)
    for done, hole in enumerate(rest):
        progress.report(done / len(rest), "Filling holes")
        lid = hole.corners[_span(mesh, hole, rim)]
        added = np.empty((0, 3))
        if not hole.flat:
            added, lid = smooth_lid(mesh, hole.corners, lid, count, progress)
        points.append(added)
        count += len(added)
        lids.append((lid, hole))
    faces = np.concatenate([mesh.faces, triangles, *(lid.astype(np.int32) for lid, _ in lids)])
    points = np.concatenate(points)
    origins = [rim.nearest_faces(points, lid, hole) for lid, hole in lids]
    return without_unused_vertices(
        points, faces, np.concatenate([np.arange(mesh.face_count), origin, *origins])
    )


def _lids_of_triangles(
    mesh: Mesh, holes: Holes, chosen: np.ndarray
) -> tuple[np.ndarray, np.ndarray]:
    """Lids (t, 3) int32 of holes of three corners, and the face across the nearest edge of each."""
    lids = holes.corners[holes.starts[:-1][chosen][:, None] + np.arange(3)]
    corners = mesh.vertices_mm[lids]
    # The middle of an edge lies half as far from the middle of the triangle as the corner across.
    across = ((corners - corners.mean(axis=1)[:, None]) ** 2).sum(axis=2).argmin(axis=1)
    row = np.arange(len(lids))
    ends = np.stack([lids[row, (across + 1) % 3], lids[row, (across + 2) % 3]], axis=1)
    against = faces_along(mesh.faces, ends[:, ::-1], len(mesh.vertices_mm))
    along = faces_along(mesh.faces, ends, len(mesh.vertices_mm))
    return lids, np.where(against >= 0, against, along)


class _Rim:
    """The faces around the holes, and the edges between corners of holes."""

    def __init__(self, mesh: Mesh, holes: list[Hole]) -> None:
        self.mesh = mesh
        on_rim = np.zeros(len(mesh.vertices_mm), bool)
        for hole in holes:
            on_rim[hole.corners] = True
        self._at: dict[tuple[int, int], int] = {}
        self._ends: dict[int, set[int]] = {}
        for face in np.flatnonzero(on_rim[mesh.faces].sum(axis=1) > 1).tolist():
            a, b, c = mesh.faces[face].tolist()
            for v, w in ((a, b), (b, c), (c, a)):
                self._at[v, w] = face
                self._ends.setdefault(v, set()).add(w)
                self._ends.setdefault(w, set()).add(v)

    def faces_along(self, hole: Hole) -> list[int]:
        """The face across each edge of the hole, from corner k to corner k + 1."""
        ends = np.roll(hole.corners, -1).tolist()
        return [
            self._at[end, start] if (end, start) in self._at else self._at[start, end]
            for start, end in zip(hole.corners.tolist(), ends, strict=True)
        ]

    def taken(self, hole: Hole) -> np.ndarray:
        """(t, 2) pairs of places in the loop that an edge joins, though not along the loop."""
        place = {vertex: k for k, vertex in enumerate(hole.corners.tolist())}
        pairs = [
            (k, place[other])
            for vertex, k in place.items()
            for other in self._ends.get(vertex, ())
            if other in place and 1 < place[other] - k < len(place) - 1
        ]
        return np.array(pairs, np.int64).reshape(-1, 2)

    def nearest_faces(self, points: np.ndarray, triangles: np.ndarray, hole: Hole) -> np.ndarray:
        """(t,) face at the edge of the hole whose middle is nearest to each triangle's middle."""
        along = np.array(self.faces_along(hole))
        rim = self.mesh.vertices_mm[hole.corners]
        middles = 0.5 * (rim + np.roll(rim, -1, axis=0))
        centres = points[triangles].mean(axis=1)
        # |c − m|² = c² − 2 c·m + m², and c² is the same for all middles.
        start = middles[0]
        middles, centres = middles - start, centres - start
        nearest = ((middles**2).sum(axis=1) - 2.0 * centres @ middles.T).argmin(axis=1)
        return along[nearest]


def _span(mesh: Mesh, hole: Hole, rim: _Rim) -> np.ndarray:
    normals = mesh.face_normals[rim.faces_along(hole)]
    return span_loop(mesh.vertices_mm[hole.corners], normals, rim.taken(hole))


def _by_plane(mesh: Mesh, holes: list[Hole], progress: Progress) -> list[list[Hole]]:
    """Flat holes in groups of one plane each, whichever way their lids face."""
    near = near_distance_mm(mesh.box_mm)
    groups: list[list[Hole]] = []
    starts, normals = np.empty((_MOST_PLANES, 3)), np.empty((_MOST_PLANES, 3))  # of the planes
    for hole in sorted(holes, key=lambda each: -each.area_mm2):
        progress.check()
        points = mesh.vertices_mm[hole.corners]
        known = min(len(groups), _MOST_PLANES)
        away = normals[:known] @ points.T - (normals[:known] * starts[:known]).sum(axis=1)[:, None]
        reach = 4.0 * near + FLAT_SHARE * hole.extent_mm
        in_plane = np.flatnonzero(np.abs(away).max(axis=1) <= reach)
        if len(in_plane):
            groups[in_plane[0]].append(hole)
            continue
        if known < _MOST_PLANES:
            starts[known], normals[known] = points[0], hole.normal
        groups.append([hole])
    return groups


def _flat_lids(mesh, group):
    """Lids of holes in one plane, and the holes that get none this way.

    A loop that runs the other way round inside another is an island in it; elsewhere it is a hole
    of its own, whose lid faces the other way.
    """
    if len(group) == 1 and len(group[0].corners) == 3:
        return [(group[0].corners[None], group[0])], []
    axis = group[0].normal
    lids, unmade = [], []
    waiting = group
    for side in (axis, -axis):
        axes = flat_axes(side)
        outer = [hole for hole in waiting if hole.normal @ side > 0]
        islands = [hole for hole in waiting if hole.normal @ side <= 0]
        for hole in sorted(outer, key=lambda each: each.area_mm2):
            outline = mesh.vertices_mm[hole.corners] @ axes.T
            inside = [
                each
                for each in islands
                if lies_inside(mesh.vertices_mm[each.corners[0]] @ axes.T, outline)
            ]
            islands = [each for each in islands if not any(each is one for one in inside)]
            members = [hole, *inside]
            triangles = span_flat([mesh.vertices_mm[each.corners] for each in members], side)
            if triangles is None:
                unmade += members
            else:
                corners = np.concatenate([each.corners for each in members])
                lids.append((corners[triangles], hole))
        waiting = islands
    return lids, unmade
