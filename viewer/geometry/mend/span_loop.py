"""Span a closed loop of points with triangles that bend and cover as little as possible.

Of all ways to cut the loop into triangles the one whose sharpest edge is bluntest, and among those
of least area: Liepa 2003, "Filling holes in meshes", after Barequet & Sharir 1995 (from memory).
The cost grows with the cube of the length, so long loops are first cut in two by a short chord.
"""

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.distances import cross, dot, minus

LONGEST = 240  # corners spanned in one go, some 50 ms
_STEP = 0.02  # edges whose 1 − cos of the bend differs by less are equally sharp
_TAKEN = 1e3  # price of an edge that the mesh has already


def span_loop(points_mm: np.ndarray, outside_normals: np.ndarray, taken: np.ndarray) -> np.ndarray:
    """(n − 2, 3) int64: triangles that span a loop, wound the way the loop runs.

    points_mm : (n, 3) float64, the corners in order
    outside_normals : (n, 3) float64, normal of the face across the edge from corner k to k + 1
    taken : (t, 2), pairs of corners that an edge of the mesh joins already, best avoided
    """
    count = len(points_mm)
    if count <= LONGEST:
        joined = np.zeros((count, count), np.bool_)
        joined[taken[:, 0], taken[:, 1]] = joined[taken[:, 1], taken[:, 0]] = True
        return _triangles(_best_thirds(points_mm, outside_normals, joined), count)
    i, j = _short_chord(points_mm)
    parts = []
    for members in (np.arange(i, j + 1), np.append(np.arange(j, count), np.arange(i + 1))):
        place = np.full(count, -1)
        place[members] = np.arange(len(members))
        near = place[taken]
        normals = outside_normals[members].copy()
        normals[-1] = 0.0  # nothing is known across the chord yet
        inner = span_loop(points_mm[members], normals, near[(near >= 0).all(axis=1)])
        parts.append(members[inner])
    return np.concatenate(parts)


def _short_chord(points_mm):
    """Two corners far apart along the loop and near each other in space."""
    count = len(points_mm)
    best, chosen = np.inf, (0, count // 2)
    for i in range(count // 2):
        j = np.arange(i + count // 4, min(i + 3 * count // 4, count))
        apart = np.linalg.norm(points_mm[j] - points_mm[i], axis=1)
        if len(j) and apart.min() < best:
            best, chosen = apart.min(), (i, int(j[apart.argmin()]))
    return chosen


@compiled
def _point(points, i):
    return points[i, 0], points[i, 1], points[i, 2]


@compiled
def _unit_normal(points, i, m, j):
    """Unit normal and area of a triangle."""
    a = _point(points, i)
    n = cross(minus(_point(points, m), a), minus(_point(points, j), a))
    length = dot(n, n) ** 0.5
    if length <= 0.0:
        return (0.0, 0.0, 0.0), 0.0
    return (n[0] / length, n[1] / length, n[2] / length), 0.5 * length


@compiled
def _bend(points, outside, third, count, i, j, normal):
    """1 − cos of the bend over the edge i–j towards what lies across it."""
    if j - i == 1:
        n = _point(outside, i)
    elif i == 0 and j == count - 1:
        n = _point(outside, j)
    else:
        n, _ = _unit_normal(points, i, third[i, j], j)
    if dot(n, n) <= 0.0 or dot(normal, normal) <= 0.0:
        return 0.0
    return 1.0 - dot(n, normal)


@compiled
def _best_thirds(points, outside, joined):
    """third[i, j]: the corner of the triangle over the chord i–j in the best cut of i … j."""
    count = len(points)
    third = np.full((count, count), -1, np.int64)
    sharpest = np.zeros((count, count))
    area = np.zeros((count, count))
    for gap in range(2, count):
        for i in range(count - gap):
            j = i + gap
            best_bend, best_area = np.inf, np.inf
            for m in range(i + 1, j):
                normal, own = _unit_normal(points, i, m, j)
                bend = max(sharpest[i, m], sharpest[m, j])
                bend = max(bend, _bend(points, outside, third, count, i, m, normal))
                bend = max(bend, _bend(points, outside, third, count, m, j, normal))
                if gap == count - 1:
                    bend = max(bend, _bend(points, outside, third, count, i, j, normal))
                total = area[i, m] + area[m, j] + own
                level = np.floor(bend / _STEP)
                if level < best_bend or (level == best_bend and total < best_area):
                    best_bend, best_area = level, total
                    sharpest[i, j] = bend
                    area[i, j] = total
                    third[i, j] = m
            if gap < count - 1 and joined[i, j]:
                sharpest[i, j] += _TAKEN
    return third


def _triangles(third, count):
    found, stack = [], [(0, count - 1)]
    while stack:
        i, j = stack.pop()
        if j - i < 2:
            continue
        m = int(third[i, j])
        found.append((i, m, j))
        stack += [(i, m), (m, j)]
    return np.array(found, np.int64).reshape(-1, 3)
