"""Shells of a part and their winding in plain numpy; the definitions are those of `shells`.

Faces are joined by halving: every group takes the number of its lowest neighbouring group, chains
of numbers are followed to their ends, and edges inside a group are dropped, until none is left
(Shiloach & Vishkin 1982, J. Algorithms 3:57; MEM).
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.plain_lines import crossings
from viewer.geometry.pose import rotation_about_z, shortest_turn_to_z

CLOSED_GAP_MM = 0.001
_SAMPLES, _STEP_MM = 48, 0.002  # points asked for each shell, and how far beside its faces
_MOST_SHELLS = 1000  # of more, only boxes are compared
_CLEARLY = 0.01  # share of its box that an open shell's volume must reach to speak for a direction
# Edges of made parts run along the axes of the file; after this turn no line runs along one.
_AXIS = np.array([0.5346, 0.3518, 0.7684])
SKEW = rotation_about_z(29.3) @ shortest_turn_to_z(_AXIS / np.linalg.norm(_AXIS))


class FacePairs(NamedTuple):
    """Faces that share an edge of exactly two faces.

    one, other : (p,) int64
    corner_of_one, corner_of_other : (p,) int64, the corner of the face at which the edge starts
    alike : (p,) bool, both run along the edge in opposite directions, as they should
    bare : (m,) bool, the face has an open edge, or one whose directions leave it without partner
    """

    one: np.ndarray
    other: np.ndarray
    corner_of_one: np.ndarray
    corner_of_other: np.ndarray
    alike: np.ndarray
    bare: np.ndarray


class PlainShells(NamedTuple):
    """See `Shells` for the same fields."""

    shell_of_face: np.ndarray
    orientation: np.ndarray
    rewound: np.ndarray
    closed: np.ndarray
    flipped: np.ndarray
    meets: np.ndarray  # (k,) bool, touches or overlaps another shell, as far as boxes tell
    boxes_mm: np.ndarray


def face_pairs(faces: np.ndarray) -> FacePairs:
    """Pairs of (m, 3) faces at their edges; a face that names a vertex twice has none."""
    a, b, c = faces.T.astype(np.int64)
    proper = np.flatnonzero((a != b) & (b != c) & (c != a))
    start = np.concatenate([a[proper], b[proper], c[proper]])
    end = np.concatenate([b[proper], c[proper], a[proper]])
    face = np.concatenate([proper] * 3)
    corner = np.repeat(np.arange(3), len(proper))
    forward = start < end
    key = np.minimum(start, end) << 32 | np.maximum(start, end)
    order = np.argsort(key)
    key, face, corner, forward = key[order], face[order], corner[order], forward[order]
    first = np.flatnonzero(np.concatenate([[True], key[1:] != key[:-1]])[: len(key)])
    size = np.diff(np.append(first, len(key)))
    two = first[size == 2]
    balance = np.zeros(0)
    if len(first):
        balance = np.add.reduceat(np.where(forward, 1, -1), first)
    lost = np.repeat((size == 1) | ((size > 2) & (balance != 0)), size)
    bare = np.zeros(len(faces), bool)
    bare[face[lost]] = True
    return FacePairs(
        face[two], face[two + 1], corner[two], corner[two + 1],
        forward[two] != forward[two + 1], bare,
    )  # fmt: skip


def neighbours_of_pairs(face_count: int, pairs: FacePairs) -> np.ndarray:
    """(m, 3) int32, the same as `face_neighbours`."""
    neighbours = np.full((face_count, 3), -1, np.int32)
    neighbours[pairs.one, pairs.corner_of_one] = pairs.other
    neighbours[pairs.other, pairs.corner_of_other] = pairs.one
    return neighbours


def connected(count: int, one: np.ndarray, other: np.ndarray) -> np.ndarray:
    """(count,) int64: the lowest number that each of `count` things is joined to.

    one, other : (p,) int64, pairs that are joined
    """
    group = np.arange(count)
    while True:
        one, other = group[one], group[other]
        apart = one != other
        if not apart.any():
            return group
        one, other = one[apart], other[apart]
        group[np.maximum(one, other)] = np.minimum(one, other)
        while True:
            further = group[group]
            if np.array_equal(further, group):
                break
            group = further


def plain_shells(points_mm: np.ndarray, faces: np.ndarray, pairs: FacePairs) -> PlainShells:
    """Shells, nested and oriented: outer shells outward, cavities inward.

    points_mm : (n, 3) float64, near the origin
    faces : (m, 3) int, wound as in the file
    """
    group = connected(len(faces), pairs.one, pairs.other)
    roots = np.cumsum(group == np.arange(len(faces)))
    shell, count = (roots - 1)[group], int(roots[-1]) if len(roots) else 0
    side, twisted = _sides(group, pairs)
    a, b, c = (points_mm[faces[:, k]] for k in range(3))
    cross = cross_product(b - a, c - a)
    areas = np.sqrt((cross * cross).sum(axis=1))
    side = np.where(np.bincount(shell, areas * side, count)[shell] < 0, -side, side)
    closed = np.ones(count, bool)
    closed[shell[twisted | pairs.bare]] = False
    side = np.where(twisted, 1, side)
    boxes = _boxes(points_mm, faces, shell, count)
    centre = boxes.mean(axis=1)[shell]
    volumes = np.bincount(shell, side * ((a - centre) * cross).sum(axis=1) / 6.0, count)
    closed &= volumes != 0
    outward = np.where(volumes < 0, -1, 1)
    depth, nested = _nesting(points_mm, faces, shell, closed, side * outward[shell], boxes)
    doubtful = ~closed & (volumes > -_CLEARLY * np.prod(boxes[:, 1] - boxes[:, 0], axis=1))
    flipped = (outward != np.where(depth % 2 == 1, -1, 1)) & ~doubtful
    orientation = np.where(flipped[shell], -side, side)
    meets = _shells_that_meet(boxes, nested)
    return PlainShells(shell, orientation, side < 0, closed, flipped, meets, boxes)


def cross_product(a: np.ndarray, b: np.ndarray) -> np.ndarray:
    """(m, 3) cross product; several times quicker than numpy's."""
    return np.stack(
        [
            a[:, 1] * b[:, 2] - a[:, 2] * b[:, 1],
            a[:, 2] * b[:, 0] - a[:, 0] * b[:, 2],
            a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0],
        ],
        axis=1,
    )


def _sides(group, pairs):
    """+1 where a face is wound as the first of its shell, −1 where against it; and twisted shells.

    Each face stands twice in a graph, once for each side; a pair joins the sides that agree. Where
    both sides of a face end up joined, no winding is consistent.
    """
    count = len(group)
    side, twisted = np.ones(count, np.int64), np.zeros(count, bool)
    if pairs.alike.all():
        return side, twisted
    over = np.where(pairs.alike, 0, count)
    one = np.concatenate([pairs.one, pairs.one + count])
    other = np.concatenate([pairs.other + over, pairs.other + count - over])
    joined = connected(2 * count, one, other)
    twisted = joined[:count] == joined[count:]
    side = np.where(joined[:count] <= joined[count:], 1, -1)
    return side, twisted


def _boxes(points, faces, shell, count):
    order = np.argsort(shell, kind="stable")
    first = np.searchsorted(shell[order], np.arange(count))
    corners = points[faces[order]]
    if not count:
        return np.zeros((0, 2, 3))
    low = np.minimum.reduceat(corners.min(axis=1), first)
    high = np.maximum.reduceat(corners.max(axis=1), first)
    return np.stack([low, high], axis=1)


def _nesting(points, faces, shell, closed, winding, boxes):
    """Number of closed shells around each shell, and (k, k) bool where one lies wholly in another.

    Points just inside and just outside the faces of a shell have to lie in the other; those just
    outside need not where the other is a cavity, in which a body may touch the wall.
    """
    count = len(closed)
    depth, nested = np.zeros(count, np.int64), np.zeros((0, 0), bool)
    asked = _with_a_box_around(boxes, closed) if 1 < count <= _MOST_SHELLS else np.zeros(1, bool)
    if not asked.any():
        return depth, nested
    inner, near, far = _points_beside(points, faces, shell, asked, winding)
    solid = np.flatnonzero(closed[shell])
    loose, strict = (
        _inside(points @ SKEW.T, faces[solid], shell[solid], each @ SKEW.T, inner, count)
        for each in (near, far)
    )
    nested = np.zeros((count, count), bool)
    sizes = np.prod(boxes[:, 1] - boxes[:, 0], axis=1)
    pairs = np.argwhere(loose)
    for i, o in pairs[np.argsort(-sizes[pairs[:, 0]], kind="stable")]:
        if closed[i] and (strict[i, o] or depth[o] % 2 == 1):
            depth[i] += 1
            nested[i, o] = strict[i, o]
    return depth, nested


def _with_a_box_around(boxes, closed):
    order = np.argsort(-np.prod(boxes[:, 1] - boxes[:, 0], axis=1), kind="stable")
    found = np.zeros(len(boxes), bool)
    for i, shell in enumerate(order):
        bigger = order[:i][closed[order[:i]]]
        around = (boxes[bigger, 0] < boxes[shell, 0]) & (boxes[bigger, 1] > boxes[shell, 1])
        found[shell] = around.all(axis=1).any()
    return found


def _points_beside(points, faces, shell, asked, winding):
    """Shell of each sample point, the points just inside its faces, those just outside."""
    own = np.flatnonzero(asked[shell])
    own = own[np.argsort(shell[own], kind="stable")]
    first = np.searchsorted(shell[own], shell[own])
    size = np.searchsorted(shell[own], shell[own], side="right") - first
    rank = np.arange(len(own)) - first
    own = own[(rank * _SAMPLES) // size != ((rank - 1) * _SAMPLES) // size]
    a, b, c = (points[faces[own, k]] for k in range(3))
    normal = cross_product(b - a, c - a)
    length = np.sqrt((normal * normal).sum(axis=1))
    solid = length > 0
    step = _STEP_MM * normal[solid] * (winding[own][solid] / length[solid])[:, None]
    middle = (a + b + c)[solid] / 3
    return shell[own][solid], middle - step, middle + step


def _inside(points, faces, shell, places, inner, count):
    """(k, k) bool: all points of one shell lie in another, by winding number along upright rays."""
    met = crossings(points, faces, places[:, :2])
    above = met.z_mm > places[met.line, 2]
    key = met.line[above] * count + shell[met.face[above]]
    keys, back = np.unique(key, return_inverse=True)
    around = keys[np.bincount(back, met.sign[above], len(keys)) != 0]
    point, outer = np.divmod(around, count)
    hits = np.bincount(inner[point] * count + outer, minlength=count * count)
    hits = hits.reshape(count, count)
    asked = np.bincount(inner, minlength=count)
    within = (hits == asked[:, None]) & (asked > 0)[:, None]
    np.fill_diagonal(within, False)
    return within


def _shells_that_meet(boxes, nested):
    """(k,) bool: its box touches another's, and neither lies in the other without touching it."""
    count = len(boxes)
    meets = np.zeros(count, bool)
    for i in range(count - 1):
        others = np.arange(i + 1, count)
        near = (boxes[others, 0] <= boxes[i, 1] + CLOSED_GAP_MM) & (
            boxes[others, 1] >= boxes[i, 0] - CLOSED_GAP_MM
        )
        others = others[near.all(axis=1)]
        if len(nested):
            others = others[~(nested[i, others] | nested[others, i])]
        meets[others] = True
        meets[i] |= len(others) > 0
    return meets
