"""Cut one closed surface by a plane into the two closed surfaces below and above it.

Vertices within a hair of the plane count as lying on it. Faces across the plane are parted along
it, new vertices are shared by both halves, and both get the same cut face, so that their volumes
add up to the whole. As the faces are shared out between the halves and a closed surface has no
rim, the rim of one half is that of the other run the other way round.
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.cut_faces import span_rim
from viewer.geometry.mesh import Mesh

_HAIR = 1e-7  # of the part's size: closer to the plane than this is on it
_WELD = 2e-7  # of the part's size: new corners closer than this are one, as a file would make them


class Half(NamedTuple):
    """One side of a cut.

    mesh : its surface with the cut face
    origin : (m,) int32, place of each face in the mesh that was cut; −1 on the cut face
    """

    mesh: Mesh
    origin: np.ndarray


class _Parted(NamedTuple):
    """points_mm : old vertices, then new ones; on : (n,) bool, on the plane; faces, origin, above :
    all faces, where they come from and whether they lie above
    """

    points_mm: np.ndarray
    on: np.ndarray
    faces: np.ndarray
    origin: np.ndarray
    above: np.ndarray


def cut_by_plane(
    mesh: Mesh, point_mm: np.ndarray, normal: np.ndarray, weld: bool = True
) -> tuple[Half | None, Half | None]:
    """The halves below and above (on the side of `normal`); None where nothing lies on a side.

    point_mm, normal : (3,) float64, the normal a unit vector
    weld : let new corners that a file in single precision could not tell apart be one
    """
    size_mm = float(np.ptp(mesh.box_mm, axis=0).max())
    height = mesh.vertices_mm @ normal - float(point_mm @ normal)
    side = np.zeros(len(height), np.int8)
    side[height > _HAIR * size_mm] = 1
    side[height < -_HAIR * size_mm] = -1
    parted = _part_faces(mesh, side, height, normal)
    if parted is None:
        whole = Half(mesh, np.arange(mesh.face_count, dtype=np.int32))
        return (None, whole) if (side > 0).any() else (whole, None)
    if weld:
        parted = _weld_corners(parted, _WELD * size_mm)
    axes = axes_across(normal)
    rim = _rim(parted, ~parted.above)
    cap = span_rim(rim, parted.points_mm @ axes.T)
    below = _half(parted, ~parted.above, cap)
    return below, _half(parted, parted.above, cap[:, ::-1])


def axes_across(normal: np.ndarray) -> np.ndarray:
    """(2, 3) unit vectors u, v in the plane with u × v = normal."""
    u = np.cross(normal, np.eye(3)[int(np.abs(normal).argmin())])
    u /= np.linalg.norm(u)
    return np.stack([u, np.cross(normal, u)])


def _part_faces(
    mesh: Mesh, side: np.ndarray, height: np.ndarray, normal: np.ndarray
) -> _Parted | None:
    """All faces, those across the plane in pieces; None if everything lies on one side."""
    a, b, c = (side[mesh.faces[:, k]] for k in range(3))
    low, high = np.minimum(np.minimum(a, b), c), np.maximum(np.maximum(a, b), c)
    if not ((low < 0).any() and (high > 0).any()):
        return None
    crosses = (low < 0) & (high > 0)
    across = np.flatnonzero(crosses)
    points, new_faces, from_face, is_above = _cut_across(mesh, side, height, across)
    kept = np.flatnonzero(~crosses)
    above = high[kept] > 0
    flat = np.flatnonzero((low[kept] == 0) & (high[kept] == 0))
    if len(flat):  # lies on the plane: the material is on the side its outside turns away from
        corners = mesh.corners_mm[kept[flat]]
        across_it = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
        above[flat] = across_it @ normal < 0
    on = np.concatenate([side == 0, np.ones(len(points), bool)])
    return _Parted(
        np.concatenate([mesh.vertices_mm, points]),
        on,
        np.concatenate([mesh.faces[kept], new_faces]).astype(np.int32),
        np.concatenate([kept, from_face]).astype(np.int32),
        np.concatenate([above, is_above]),
    )


def _cut_across(mesh, side, height, across):
    """Corners on the edges that cross the plane, and the pieces of the faces `across`.

    Returns (k, 3) new points, (q, 3) faces, (q,) which face each is of, (q,) whether it is above.
    """
    faces = mesh.faces[across].astype(np.int64)
    sides = side[faces].astype(np.int64)
    ends = np.stack([faces, np.roll(faces, -1, axis=1)], axis=2)
    crossed = (sides * np.roll(sides, -1, axis=1)) < 0
    low, high = ends.min(axis=2)[crossed], ends.max(axis=2)[crossed]
    count = len(side)
    keys, place = np.unique(low * count + high, return_inverse=True)
    first, second = np.divmod(keys, count)
    # From the vertex of lower number to the other one, whichever face asks.
    share = height[first] / (height[first] - height[second])
    start, end = mesh.vertices_mm[first], mesh.vertices_mm[second]
    points = start + share[:, None] * (end - start)
    new = np.full(faces.shape, -1, np.int64)
    new[crossed] = place.ravel() + count
    two_cuts = crossed.sum(axis=1) == 2
    pieces = [
        _in_three(faces, sides, new, np.flatnonzero(two_cuts)),
        _in_two(faces, sides, new, np.flatnonzero(~two_cuts)),
    ]
    made, of_row, is_above = (np.concatenate(parts) for parts in zip(*pieces, strict=True))
    return points, made, across[of_row], is_above


def _in_three(faces, sides, new, rows):
    """Faces with one vertex alone on its side: its corner, and a four-sided rest in two."""
    own = sides[rows]
    lone = (own == -own.sum(axis=1)[:, None]).argmax(axis=1)
    turn = (lone[:, None] + np.arange(3)) % 3
    a, b, c = np.take_along_axis(faces[rows], turn, axis=1).T
    ab, _, ca = np.take_along_axis(new[rows], turn, axis=1).T
    above = np.take_along_axis(own, lone[:, None], axis=1)[:, 0] > 0
    made = [np.stack(t, axis=1) for t in ((a, ab, ca), (ab, b, c), (ab, c, ca))]
    return np.concatenate(made), np.tile(rows, 3), np.concatenate([above, ~above, ~above])


def _in_two(faces, sides, new, rows):
    """Faces with one vertex on the plane and the others on either side."""
    own = sides[rows]
    turn = ((own == 0).argmax(axis=1)[:, None] + np.arange(3)) % 3
    a, b, c = np.take_along_axis(faces[rows], turn, axis=1).T
    bc = np.take_along_axis(new[rows], turn, axis=1)[:, 1]
    above = np.take_along_axis(own, turn, axis=1)[:, 1] > 0
    made = [np.stack(t, axis=1) for t in ((a, b, bc), (a, bc, c))]
    return np.concatenate(made), np.tile(rows, 2), np.concatenate([above, ~above])


def _weld_corners(parted: _Parted, within_mm: float) -> _Parted:
    """Join corners on the plane along edges shorter than `within_mm`; faces without area go.

    To move vertices of a closed surface onto one another keeps every edge matched.
    """
    near = parted.on[parted.faces].sum(axis=1) >= 2
    rows = np.flatnonzero(near)
    start = parted.faces[rows]
    end = np.roll(start, -1, axis=1)
    both = parted.on[start] & parted.on[end]
    start, end = start[both], end[both]
    apart = np.linalg.norm(parted.points_mm[start] - parted.points_mm[end], axis=1)
    short = apart < within_mm
    if not short.any():
        return parted
    one = np.arange(len(parted.points_mm), dtype=np.int32)
    low, high = np.minimum(start, end)[short], np.maximum(start, end)[short]
    while (one[low] != one[high]).any():
        lower = np.minimum(one[low], one[high])
        np.minimum.at(one, low, lower)
        np.minimum.at(one, high, lower)
    faces = parted.faces.copy()
    gone = one != np.arange(len(one))
    touched = gone[faces].any(axis=1)
    faces[touched] = one[faces[touched]]
    a, b, c = faces.T
    whole = (a != b) & (b != c) & (c != a)
    return _Parted(
        parted.points_mm, parted.on, faces[whole], parted.origin[whole], parted.above[whole]
    )


def _rim(parted: _Parted, chosen: np.ndarray) -> np.ndarray:
    """(e, 2) int64 edges on the plane along which the chosen faces end, in their direction."""
    near = chosen & (parted.on[parted.faces].sum(axis=1) >= 2)
    start = parted.faces[near].astype(np.int64)
    end = np.roll(start, -1, axis=1)
    both = parted.on[start] & parted.on[end]
    start, end = start[both], end[both]
    count = len(parted.points_mm)
    keys = np.unique(np.concatenate([start * count + end, end * count + start]))
    forward = np.searchsorted(keys, start * count + end)
    backward = np.searchsorted(keys, end * count + start)
    net = np.bincount(forward, minlength=len(keys)) - np.bincount(backward, minlength=len(keys))
    left = np.repeat(keys, np.maximum(net, 0))
    return np.stack(np.divmod(left, count), axis=1)


def _half(parted: _Parted, chosen: np.ndarray, cap: np.ndarray) -> Half:
    faces = np.concatenate([parted.faces[chosen], cap.astype(np.int32)])
    origin = np.concatenate([parted.origin[chosen], np.full(len(cap), -1, np.int32)])
    used = np.zeros(len(parted.points_mm), bool)
    used[faces] = True
    number = np.cumsum(used, dtype=np.int32) - 1
    return Half(Mesh(parted.points_mm[used], number[faces]), origin)
