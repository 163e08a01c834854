"""The corners of chosen faces: how far they reach along a direction, and which lie outermost.

Passes over a million faces without a temporary array as large as the part.
"""

import numpy as np

from viewer.geometry.compiled import compiled

_SLACK = 1e-9  # of the squared size of the outline: rather a point too many than one too few


def mark_corners(faces: np.ndarray, chosen: np.ndarray, count: int) -> np.ndarray:
    """(count,) uint8: 1 where a vertex is a corner of a chosen face.

    faces : (m, 3) int; chosen : (m,) bool
    """
    used = np.zeros(count, np.uint8)
    _mark(faces, chosen, used)
    return used


def span_along(
    vertices_mm: np.ndarray, used: np.ndarray, direction: np.ndarray
) -> tuple[float, float] | None:
    """Least and greatest coordinate along `direction` ((3,) float64); None without a vertex.

    vertices_mm : (n, 3) float64; used : (n,) uint8
    """
    low, high = _span(vertices_mm, used, direction)
    return (float(low), float(high)) if low <= high else None


def outermost_in_plan(
    vertices_mm: np.ndarray, used: np.ndarray, turn: np.ndarray
) -> tuple[np.ndarray, float] | None:
    """(k, 2) float64 of the plan of turned vertices all that are not well within, and their top.

    turn : (3, 3) float64, rotation. Dropped is what lies within the eight-sided polygon of the
    furthest points left, right, up, down and askew (Akl & Toussaint 1978, Information Processing
    Letters 7(5), MEM). None without a vertex.
    """
    ends, top, count = _furthest(vertices_mm, used, turn)
    if not count:
        return None
    slack = _SLACK * float(np.ptp(ends, axis=0).sum()) ** 2
    points = np.empty((count, 2))
    kept = _outside(vertices_mm, used, turn, ends, slack, points)
    return points[:kept].copy(), float(top)


@compiled
def _mark(faces, chosen, used):
    for face in range(len(faces)):
        if chosen[face]:
            used[faces[face, 0]] = 1
            used[faces[face, 1]] = 1
            used[faces[face, 2]] = 1


@compiled
def _span(vertices, used, direction):
    low, high = np.inf, -np.inf
    x, y, z = direction
    for k in range(len(used)):
        if used[k]:
            at = vertices[k, 0] * x + vertices[k, 1] * y + vertices[k, 2] * z
            low, high = min(low, at), max(high, at)
    return low, high


@compiled
def _furthest(vertices, used, turn):
    """(8, 2) the furthest points in eight directions, anticlockwise from the left; top; count."""
    ends = np.zeros((8, 2))
    most = np.full(8, -np.inf)
    top, count = -np.inf, 0
    for k in range(len(used)):
        if not used[k]:
            continue
        a, b, c = vertices[k, 0], vertices[k, 1], vertices[k, 2]
        x = turn[0, 0] * a + turn[0, 1] * b + turn[0, 2] * c
        y = turn[1, 0] * a + turn[1, 1] * b + turn[1, 2] * c
        top = max(top, turn[2, 0] * a + turn[2, 1] * b + turn[2, 2] * c)
        count += 1
        for way, reach in enumerate((-x, -x - y, -y, x - y, x, x + y, y, y - x)):
            if reach > most[way]:
                most[way] = reach
                ends[way, 0], ends[way, 1] = x, y
    return ends, top, count


@compiled
def _outside(vertices, used, turn, ends, slack, points):
    kept = 0
    for k in range(len(used)):
        if not used[k]:
            continue
        a, b, c = vertices[k, 0], vertices[k, 1], vertices[k, 2]
        x = turn[0, 0] * a + turn[0, 1] * b + turn[0, 2] * c
        y = turn[1, 0] * a + turn[1, 1] * b + turn[1, 2] * c
        for side in range(8):
            px, py = ends[side, 0], ends[side, 1]
            dx, dy = ends[(side + 1) % 8, 0] - px, ends[(side + 1) % 8, 1] - py
            if (dx != 0.0 or dy != 0.0) and dx * (y - py) - dy * (x - px) <= slack:
                points[kept, 0], points[kept, 1] = x, y
                kept += 1
                break
    return kept
