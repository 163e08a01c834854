"""Points spread evenly over a surface in proportion to area, in independent sets.

Systematic sampling (CALC): with the faces laid end to end by area, one point follows at every
`step_mm2` from a random start, at a random place of the face it falls on. The spread of the sums
over several sets with starts of their own gives an honest standard error.
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.mesh import frozen


class SurfacePoints(NamedTuple):
    """Sets of points on a surface, one row a set.

    place : (sets, each) int64, index of the face (in the order of the corners given)
    points_mm, normals : (sets, each, 3) float64
    step_mm2 : area that each point of a set stands for
    """

    place: np.ndarray
    points_mm: np.ndarray
    normals: np.ndarray
    step_mm2: float


def spread_points(corners_mm: np.ndarray, sets: int, each: int, seed: int) -> SurfacePoints:
    """Spread `sets` times `each` points over the triangles (m, 3, 3) of `corners_mm`."""
    vectors = 0.5 * np.cross(
        corners_mm[:, 1] - corners_mm[:, 0], corners_mm[:, 2] - corners_mm[:, 0]
    )
    areas = np.sqrt(np.einsum("ij,ij->i", vectors, vectors))
    passed = np.cumsum(areas)
    step = passed[-1] / each if len(passed) else 0.0
    if step == 0.0:
        nothing = np.empty((sets, 0, 3))
        return SurfacePoints(np.empty((sets, 0), np.int64), nothing, nothing, 0.0)
    rng = np.random.default_rng(seed)
    targets = (rng.random((sets, 1)) + np.arange(each)) * step
    place = np.minimum(np.searchsorted(passed, targets, side="right"), len(passed) - 1)
    s, t = rng.random((2, sets, each, 1))
    outside = s + t > 1.0
    s, t = np.where(outside, 1.0 - s, s), np.where(outside, 1.0 - t, t)
    a, b, c = (corners_mm[place, k] for k in range(3))
    points = a + s * (b - a) + t * (c - a)
    # A face without area is passed over by the walk; the guard is for the last one alone.
    normals = vectors[place] / np.maximum(areas[place], 1e-300)[..., None]
    return SurfacePoints(frozen(place), frozen(points), frozen(normals), float(step))
