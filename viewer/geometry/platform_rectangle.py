"""How a part is spun on the platform: the smallest rectangle round it, and the spin that fits best.

The smallest rectangle has a side along an edge of the convex hull (Freeman & Shapira 1975,
"Determining the minimum-area encasing rectangle for an arbitrary closed curve", CACM 18(7);
"rotating calipers", Toussaint 1983; MEM). Between two edge angles the same corners are outermost,
so that width and depth are arcs of a cosine there, which are least at an end; the larger of
width − w and depth − d is least at an end or where the two are equal.
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.stability import convex_hull_2d


class PlatformRectangle(NamedTuple):
    """spin_deg : turn of the part, anticlockwise seen from above, after which the rectangle's sides
    lie along x and y; width_mm, depth_mm : along x and y then
    """

    spin_deg: float
    width_mm: float
    depth_mm: float

    @property
    def area_mm2(self) -> float:
        """Width times depth."""
        return self.width_mm * self.depth_mm


class BestSpin(NamedTuple):
    """A spin for a platform of a given size.

    spin_deg : as in PlatformRectangle; over_mm : by how much the part is too large, 0 if it fits
    """

    spin_deg: float
    over_mm: float


def smallest_rectangle(points_mm: np.ndarray) -> PlatformRectangle:
    """The rectangle of least area round (k, 2) float64 points, its longer side along x."""
    hull = convex_hull_2d(points_mm)
    angles = _edge_angles(hull)
    widths, depths = _extents(hull, angles)
    best = int(np.argmin(widths * depths))
    spin, width, depth = angles[best], widths[best], depths[best]
    if depth > width:
        spin, width, depth = spin + np.pi / 2, depth, width
    return PlatformRectangle(float(np.degrees(spin)) % 180.0, float(width), float(depth))


def best_spin(points_mm: np.ndarray, width_mm: float, depth_mm: float) -> BestSpin:
    """The spin with which (k, 2) float64 points come nearest to fitting into a rectangle."""
    return best_spin_of_hull(convex_hull_2d(points_mm), width_mm, depth_mm)


def best_spin_of_hull(hull_mm: np.ndarray, width_mm: float, depth_mm: float) -> BestSpin:
    """The same for (h, 2) corners of a convex outline, anticlockwise."""
    ends = np.unique(np.concatenate([_edge_angles(hull_mm), _edge_angles(hull_mm) + np.pi / 2]))
    angles = np.concatenate([ends, _even_angles(hull_mm, ends, width_mm - depth_mm)])
    widths, depths = _extents(hull_mm, angles)
    over = np.maximum(widths - width_mm, depths - depth_mm)
    best = int(np.argmin(over))
    # A part just as large as the platform fits, whatever rounding says.
    short = over[best] if over[best] > 1e-9 * (width_mm + depth_mm) else 0.0
    return BestSpin(float(np.degrees(angles[best])) % 180.0, float(max(short, 0.0)))


def _edge_angles(hull: np.ndarray) -> np.ndarray:
    """(h,) spins in 0..π/2 that lay an edge of the hull along x or y; 0 for a point."""
    edges = np.roll(hull, -1, axis=0) - hull
    edges = edges[np.abs(edges).sum(axis=1) > 0]
    if not len(edges):
        return np.zeros(1)
    return np.unique(-np.arctan2(edges[:, 1], edges[:, 0]) % (np.pi / 2))


def _turned(hull: np.ndarray, angles: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    c, s = np.cos(angles)[:, None], np.sin(angles)[:, None]
    return c * hull[:, 0] - s * hull[:, 1], s * hull[:, 0] + c * hull[:, 1]


def _extents(hull: np.ndarray, angles: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    x, y = _turned(hull, angles)
    return np.ptp(x, axis=1), np.ptp(y, axis=1)


def _even_angles(hull: np.ndarray, ends: np.ndarray, difference_mm: float) -> np.ndarray:
    """Spins between edge angles at which width − depth is the given difference."""
    starts = np.concatenate([ends, ends[:1] + np.pi])
    middles = 0.5 * (starts[:-1] + starts[1:])
    x, y = _turned(hull, middles)
    across = hull[x.argmax(axis=1)] - hull[x.argmin(axis=1)]
    along = hull[y.argmax(axis=1)] - hull[y.argmin(axis=1)]
    # width = ax·cos − ay·sin, depth = bx·sin + by·cos
    a, b = across[:, 0] - along[:, 1], -across[:, 1] - along[:, 0]
    size = np.maximum(np.hypot(a, b), 1e-300)
    known = np.abs(difference_mm) <= size
    middle, half = np.arctan2(b, a), np.arccos(np.clip(difference_mm / size, -1, 1))
    found = []
    for angle in (middle + half, middle - half):
        nearest = middles + (angle - middles + np.pi) % (2 * np.pi) - np.pi
        inside = (nearest >= starts[:-1]) & (nearest <= starts[1:])
        found.append(nearest[known & inside])
    return np.concatenate(found)
