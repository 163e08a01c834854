"""Build directions: even spreads over the whole sphere, coarse ones first, and rings around one.

The icosphere starts with the 12 corners of an icosahedron and halves every edge again and again;
each level keeps the directions of the one before, so that the first 12, 42, 162, 642 of them are
even spreads too. Any other number is laid on a golden spiral (Swinbank & Purser 2006, "Fibonacci
grids", Q. J. R. Meteorol. Soc. 132:1769; MEM).
"""

from functools import lru_cache
from typing import NamedTuple

import numpy as np

from viewer.geometry.mesh import frozen

USUAL_SUBDIVISIONS = 4  # 2,562 directions, some 4° apart
_GOLDEN = (1 + 5**0.5) / 2


class Icosphere(NamedTuple):
    """directions : (d, 3) float64, unit, coarse levels first; triangles : (t, 3) int32, outward"""

    directions: np.ndarray
    triangles: np.ndarray


@lru_cache(maxsize=8)
def icosphere(subdivisions: int = USUAL_SUBDIVISIONS) -> Icosphere:
    """10·4^s + 2 directions, nearly evenly spread, and the triangles between them."""
    corners = [(0.0, s, t * _GOLDEN) for s in (1, -1) for t in (1, -1)]
    points = np.array([np.roll(corner, k) for k in range(3) for corner in corners])
    points /= np.linalg.norm(points, axis=1)[:, None]
    # Triangles of the icosahedron: three corners that are each other's nearest.
    near = points @ points.T > 0.4
    triangles = np.array(
        [
            (i, j, k) if np.linalg.det(points[[i, j, k]]) > 0 else (i, k, j)
            for i in range(12)
            for j in range(i + 1, 12)
            for k in range(j + 1, 12)
            if near[i, j] and near[j, k] and near[i, k]
        ]
    )
    for _ in range(subdivisions):
        points, triangles = _halve_edges(points, triangles)
    return Icosphere(frozen(points), frozen(triangles.astype(np.int32)))


def _halve_edges(points, triangles):
    edges = np.sort(triangles[:, [[0, 1], [1, 2], [2, 0]]].reshape(-1, 2), axis=1)
    edges, of_side = np.unique(edges, axis=0, return_inverse=True)
    middles = points[edges].sum(axis=1)
    middles /= np.linalg.norm(middles, axis=1)[:, None]
    a, b, c = triangles.T
    ab, bc, ca = (len(points) + of_side.reshape(-1, 3)).T
    parts = [(a, ab, ca), (ab, b, bc), (ca, bc, c), (ab, bc, ca)]
    return np.vstack([points, middles]), np.vstack([np.stack(p, axis=1) for p in parts])


def spread_directions(count: int) -> np.ndarray:
    """(count, 3) float64 unit directions, evenly spread, so ordered that any first few are too."""
    subdivisions = round(np.log(max(count - 2, 10) / 10) / np.log(4))
    if 10 * 4**subdivisions + 2 == count:
        return icosphere(subdivisions).directions
    i = np.arange(count)
    z = 1 - (2 * i + 1) / count
    turn = 2 * np.pi * i / _GOLDEN
    across = np.sqrt(1 - z * z)
    spiral = np.stack([across * np.cos(turn), across * np.sin(turn), z], axis=1)
    return spiral[_farthest_first(spiral)]


def _farthest_first(directions: np.ndarray) -> np.ndarray:
    """Order in which each direction is the one farthest from all before it."""
    order = np.zeros(len(directions), np.int64)
    nearest = directions @ directions[0]  # cosine to the nearest chosen one
    for k in range(1, len(directions)):
        order[k] = int(np.argmin(nearest))
        np.maximum(nearest, directions @ directions[order[k]], out=nearest)
    return order


def coarse_counts(count: int) -> tuple[int, ...]:
    """How many of the first `spread_directions(count)` make coarser spreads, and `count` itself."""
    return (*(n for n in (162, 642) if n < count), count)


def ring_around(up: np.ndarray, angle_deg: float, count: int) -> np.ndarray:
    """(count, 3) float64 unit directions `angle_deg` away from the unit vector `up`, evenly."""
    up = np.asarray(up, np.float64)
    side = np.cross(up, np.eye(3)[np.abs(up).argmin()])
    side /= np.linalg.norm(side)
    turn = 2 * np.pi * np.arange(count) / count
    across = np.cos(turn)[:, None] * side + np.sin(turn)[:, None] * np.cross(up, side)
    angle = np.radians(angle_deg)
    return np.cos(angle) * up + np.sin(angle) * across


def spacing_deg(count: int) -> float:
    """Mean distance of neighbours among `count` even directions, √(4π / count)."""
    return float(np.degrees(np.sqrt(4 * np.pi / count)))


def angles_deg(directions: np.ndarray, up: np.ndarray) -> np.ndarray:
    """(d,) float64: angle between each of (d, 3) unit directions and the unit vector `up`."""
    directions, up = np.asarray(directions, np.float64), np.asarray(up, np.float64)
    # The chord keeps its digits at small angles, where the cosine has lost them.
    half = 0.5 * np.linalg.norm(directions - up, axis=1)
    return np.degrees(2 * np.arcsin(np.minimum(half, 1.0)))


def apart(directions: np.ndarray, least_deg: float, most: int) -> np.ndarray:
    """Indices of at most `most` of (d, 3) directions, each `least_deg` from those before it."""
    chosen: list[int] = []
    free = np.ones(len(directions), bool)
    while len(chosen) < most and free.any():
        i = int(np.argmax(free))
        chosen.append(i)
        free &= angles_deg(directions, directions[i]) >= least_deg
    return np.array(chosen, np.int64)
