"""Span loops that lie in one plane, islands within loops included, with flat triangles."""

import manifold3d
import numpy as np


def flat_axes(normal: np.ndarray) -> np.ndarray:
    """(2, 3): two unit vectors across a normal, so that anticlockwise about it stays so."""
    other = np.zeros(3)
    other[np.abs(normal).argmin()] = 1.0
    first = np.cross(other, normal)
    first /= np.linalg.norm(first)
    return np.stack([first, np.cross(normal, first)])


def span_flat(loops_mm: list[np.ndarray], normal: np.ndarray) -> np.ndarray | None:
    """(t, 3) int64 triangles over the corners of all loops one after the other.

    loops_mm : (n, 3) float64 each, anticlockwise about `normal` where material is to be,
        clockwise around islands that stay open
    returns None where the loops cross themselves so badly that the triangles turn over
    """
    axes = flat_axes(normal)
    flat = [loop @ axes.T for loop in loops_mm]
    triangles = np.asarray(manifold3d.triangulate(flat), np.int64).reshape(-1, 3)
    corners = np.concatenate(flat)[triangles]
    (ax, ay), (bx, by) = (corners[:, k].T - corners[:, 0].T for k in (1, 2))
    double_areas = ax * by - ay * bx
    wanted = sum(_double_area(loop) for loop in flat)
    if abs(np.abs(double_areas).sum() - wanted) > 1e-6 * abs(wanted):
        return None
    return triangles


def _double_area(loop):
    x, y = loop.T
    return float(x @ np.roll(y, -1) - y @ np.roll(x, -1))


def lies_inside(point: np.ndarray, loop: np.ndarray) -> bool:
    """Whether a point ((2,)) lies inside a closed loop of points ((n, 2)); even-odd rule."""
    x, y = point
    start, end = loop, np.roll(loop, -1, axis=0)
    passes = (start[:, 1] > y) != (end[:, 1] > y)
    rise = np.where(passes, end[:, 1] - start[:, 1], 1.0)
    at = start[:, 0] + (y - start[:, 1]) / rise * (end[:, 0] - start[:, 0])
    return bool(np.count_nonzero(passes & (at > x)) % 2)
