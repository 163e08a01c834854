"""How much of each face lies on the surface, with touching and overlapping shells as one.

A face inside another shell, or against one (closer than 0.001 mm), is buried. For this the shells
that come near each other are grown by half that distance and united exactly (manifold3d); faces
keep their numbers through the union, and the share is area after by area before. Shells that cannot
be united (open, twisted) are asked point by point instead.
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.distances import dot
from viewer.geometry.mesh import Mesh
from viewer.geometry.outward_steps import outward_steps
from viewer.geometry.shells import Shells
from viewer.geometry.unite_solids import Solid, unite_solids
from viewer.geometry.upright_lines import (
    SKEW,
    UprightLines,
    bin_faces,
    bin_of,
    crossing,
)
from viewer.progress import Progress

CLOSED_GAP_MM = 0.001
_POINTS = 300_000  # points asked over all faces where shells cannot be united
_MOST_POINTS = 4096  # points on one face


class UnionSurface(NamedTuple):
    """The surface of a part whose shells may touch or overlap.

    exposed_share : (m,) float32, share of each face that lies on it
    kept : (m,) bool, faces that are not part of `united`
    united_points_mm, united_faces : (p, 3) float64 and (t, 3), the united shells, if any
    united_origin : (t,) int32, face of the part that each of united_faces is a piece of
    exact : no face had to be sampled
    """

    exposed_share: np.ndarray
    kept: np.ndarray
    united_points_mm: np.ndarray
    united_faces: np.ndarray
    united_origin: np.ndarray
    exact: bool


def union_surface(
    mesh: Mesh,
    faces: np.ndarray,
    normals: np.ndarray,
    shells: Shells,
    progress: Progress | None = None,
) -> UnionSurface:
    """`UnionSurface` of a mesh.

    faces : (m, 3) int32, the mesh's faces wound outward
    normals : (m, 3) float64, unit outward
    Raises Cancelled through `progress`.
    """
    progress = progress or Progress()
    points = mesh.vertices_mm
    mesh.know_areas(progress)
    areas = mesh.face_areas_mm2
    share = np.ones(len(faces), np.float32)
    kept = np.ones(len(faces), bool)
    nothing = np.empty((0, 3)), np.empty((0, 3), np.int64), np.empty(0, np.int32)
    meets = _shells_that_meet(shells, progress)
    if not meets.any():
        return UnionSurface(share, kept, *nothing, True)
    united = None
    if shells.closed[meets].all():
        solids = _solids(shells, meets)
        united = _unite(points, faces, normals, shells.shell_of_face, solids, progress)
    if united is not None:
        new_share, *new_surface = united
        progress.check()
        kept = ~np.isin(shells.shell_of_face, np.concatenate(solids))
        share[~kept] = new_share[~kept]
        return UnionSurface(share, kept, *new_surface, True)
    asked = np.flatnonzero(_faces_near_others(points, faces, shells, meets) & (areas > 0))
    progress.check()
    share[asked] = _ask_points(points, faces, normals, areas, shells.shell_of_face, asked, progress)
    return UnionSurface(share, kept, *nothing, False)


def _shells_that_meet(shells: Shells, progress: Progress) -> np.ndarray:
    """(k,) bool: its box touches another's, and neither lies in the other without touching it."""
    boxes = shells.boxes_mm
    pairs = zip(shells.inner[shells.apart], shells.outer[shells.apart], strict=True)
    nested = {(int(inner), int(outer)) for inner, outer in pairs}
    meets = np.zeros(shells.count, bool)
    for i in range(shells.count - 1):
        progress.check()
        others = np.arange(i + 1, shells.count)
        near = (boxes[others, 0] <= boxes[i, 1] + CLOSED_GAP_MM) & (
            boxes[others, 1] >= boxes[i, 0] - CLOSED_GAP_MM
        )
        for j in others[near.all(axis=1)].tolist():
            if (i, j) not in nested and (j, i) not in nested:
                meets[i] = meets[j] = True
    return meets


def _solids(shells: Shells, meets: np.ndarray) -> list[np.ndarray]:
    """Bodies with their cavities, as arrays of shells, one of which meets another body.

    A cavity belongs to the innermost shell around it.
    """
    owner = np.arange(shells.count)
    for inner, outer in zip(shells.inner, shells.outer, strict=True):
        if shells.depth[inner] % 2 == 1 and shells.depth[outer] == shells.depth[inner] - 1:
            owner[inner] = outer
    wanted = np.unique(owner[meets])
    return [np.flatnonzero(owner == body) for body in wanted]


def _unite(points, faces, normals, shell_of_face, solids, progress):
    """Share of each face left by the union of the grown solids, and the union itself.

    Returns (share, points, faces, origin of each of these faces), None if a body is not solid.
    """
    grown = points + outward_steps(points, faces, normals, 0.5 * CLOSED_GAP_MM, progress)
    progress.check()
    a, b, c = faces.T
    proper = (a != b) & (b != c) & (c != a)
    bodies = []
    for members in solids:
        own = np.flatnonzero(np.isin(shell_of_face, members) & proper)
        progress.check()
        is_used = np.zeros(len(points), bool)
        is_used[faces[own]] = True
        progress.check()
        place = np.cumsum(is_used) - 1
        corners = place[faces[own]].astype(np.uint64)
        progress.check()
        bodies.append(Solid(grown[is_used], corners, own.astype(np.uint64)))
    united = unite_solids(bodies, progress)
    if united is None:
        return None
    new_points, new_faces, origin = united
    left = np.bincount(origin, _areas(new_points, new_faces, progress), len(faces))
    share = np.clip(left / np.maximum(_areas(grown, faces, progress), 1e-300), 0.0, 1.0)
    progress.check()
    share[share > 1 - 1e-6] = 1.0
    share[share < 1e-6] = 0.0
    return share, new_points, new_faces, origin


def _areas(points, faces, progress):
    mesh = Mesh(points, faces)
    mesh.know_areas(progress)
    return mesh.face_areas_mm2


def _faces_near_others(points, faces, shells, meets):
    """(m,) bool: the box of the face touches the box of another shell that its own shell meets."""
    corners = points[faces]
    low, high = corners.min(axis=1) - CLOSED_GAP_MM, corners.max(axis=1) + CLOSED_GAP_MM
    near = np.zeros(len(faces), bool)
    for shell in np.flatnonzero(meets):
        box = shells.boxes_mm[shell]
        touches = (low <= box[1]).all(axis=1) & (high >= box[0]).all(axis=1)
        near |= touches & (shells.shell_of_face != shell)
    return near & meets[shells.shell_of_face]


def _ask_points(points, faces, normals, areas, shell_of_face, asked, progress):
    corners = points[faces]
    progress.check()
    lines = bin_faces(corners, progress)
    each = np.clip(np.ceil(areas[asked] * _POINTS / areas[asked].sum()), 1, _MOST_POINTS)
    share = _exposed_by_points(
        lines, shell_of_face, corners[asked], normals[asked], each.astype(np.int64), SKEW,
        progress.stop_flag,
    )  # fmt: skip
    progress.check()
    return share


@compiled
def _exposed_by_points(lines: UprightLines, shell_of_face, corners, normals, each, skew, stop):
    """Share of points, 0.001 mm before the face, that lie outside of everything."""
    share = np.empty(len(corners), np.float32)
    above = np.zeros(shell_of_face.max() + 1, np.int32)
    below = np.zeros(len(above), np.int32)
    p = np.empty(3)
    for f in range(len(corners)):
        if stop[0]:
            break
        a, b, c = corners[f, 0], corners[f, 1], corners[f, 2]
        outside = 0
        for i in range(each[f]):
            # An even, never repeating sequence over the unit square, folded onto the triangle.
            s, t = (0.5 + 0.7548776662466927 * i) % 1.0, (0.5 + 0.5698402909980532 * i) % 1.0
            if s + t > 1.0:
                s, t = 1.0 - s, 1.0 - t
            if each[f] == 1:
                s, t = 1 / 3, 1 / 3
            for k in range(3):
                p[k] = a[k] + s * (b[k] - a[k]) + t * (c[k] - a[k]) + CLOSED_GAP_MM * normals[f, k]
            x, y, z = dot(skew[0], p), dot(skew[1], p), dot(skew[2], p)
            outside += _winding_at(lines, shell_of_face, x, y, z, above, below) <= 0
        share[f] = outside / each[f]
    return share


@compiled
def _winding_at(lines, shell_of_face, x, y, z, above, below):
    """Winding number at a point over all shells; `above` and `below` are left all zero.

    A shell counts only if the way up and the way down agree, which in an open shell they may not.
    """
    at = bin_of(lines, x, y)
    if at < 0:
        return 0
    first, last = lines.starts[at], lines.starts[at + 1]
    for j in range(first, last):
        sign, height = crossing(lines.corners, lines.faces[j], x, y)
        if height > z:
            above[shell_of_face[lines.faces[j]]] += sign
        else:
            below[shell_of_face[lines.faces[j]]] -= sign
    winding = 0
    for j in range(first, last):
        shell = shell_of_face[lines.faces[j]]
        if above[shell] == below[shell]:
            winding += above[shell]
        above[shell] = 0
        below[shell] = 0
    return winding
