"""Where on the platform an outline can stand so that it overlaps no forbidden rectangle.

The shifts at which a convex outline K overlaps a rectangle R are the inside of the convex polygon
R ⊕ (−K). What is left of the allowed shifts has a corner at a corner of their box, where a polygon
crosses its rim, or where two polygons cross: one of these is free or none is.
"""

from typing import NamedTuple

import numpy as np

ROUNDING_MM = 1e-7


class Rectangle(NamedTuple):
    """An upright rectangle of the platform: (x, y) of its lower and upper corner."""

    low_mm: tuple[float, float]
    high_mm: tuple[float, float]

    def shrunk(self, by_mm: float) -> "Rectangle | None":
        """The rectangle less a rim, None where nothing is left."""
        low = tuple(v + by_mm for v in self.low_mm)
        high = tuple(v - by_mm for v in self.high_mm)
        return Rectangle(low, high) if low[0] < high[0] and low[1] < high[1] else None

    def overlaps(self, other: "Rectangle") -> bool:
        """Whether the two have more than a rim in common."""
        return all(
            self.low_mm[k] < other.high_mm[k] - ROUNDING_MM
            and other.low_mm[k] < self.high_mm[k] - ROUNDING_MM
            for k in (0, 1)
        )


def free_shift(
    outline_mm: np.ndarray,
    shifts: Rectangle,
    obstacles: tuple[Rectangle, ...],
    wanted_mm: np.ndarray,
) -> np.ndarray | None:
    """The free shift nearest to `wanted_mm` among those that can be the only one, or None.

    outline_mm : (n, 2) float64, convex; shifts : the shifts that its box leaves
    """
    wanted = np.clip(wanted_mm, shifts.low_mm, shifts.high_mm)
    polygons = [_shifts_that_overlap(outline_mm, each) for each in obstacles]
    if _free(wanted[None], polygons)[0]:
        return wanted
    beside = [_nearest_on_rim(polygon, wanted) for polygon in polygons]  # where one would look
    tried = np.concatenate([_box_corners(shifts), *beside, *_crossings(shifts, polygons)])
    low, high = np.array(shifts.low_mm) - ROUNDING_MM, np.array(shifts.high_mm) + ROUNDING_MM
    tried = tried[((tried >= low) & (tried <= high)).all(axis=1)]
    tried = tried[_free(tried, polygons)]
    if not len(tried):
        return None
    return tried[np.argmin(np.linalg.norm(tried - wanted, axis=1))]


def _shifts_that_overlap(outline: np.ndarray, obstacle: Rectangle) -> np.ndarray:
    """(k, 2) corners of R ⊕ (−K), anticlockwise."""
    return _sum_of_convex(_box_corners(obstacle), -outline)


def _sum_of_convex(first: np.ndarray, second: np.ndarray) -> np.ndarray:
    """Corners of first ⊕ second, both anticlockwise: their sides in the order of direction."""
    sides = np.concatenate([np.roll(each, -1, axis=0) - each for each in (first, second)])
    sides = sides[(sides != 0.0).any(axis=1)] + 0.0  # no −0, whose direction would be −π
    sides = sides[np.argsort(np.arctan2(sides[:, 1], sides[:, 0]), kind="stable")]
    # Directions rise from −π, so the walk starts at the highest corner, of several the leftmost.
    start = sum(each[np.lexsort((each[:, 0], -each[:, 1]))[0]] for each in (first, second))
    return start + np.concatenate([np.zeros((1, 2)), np.cumsum(sides[:-1], axis=0)])


def _box_corners(box: Rectangle) -> np.ndarray:
    (x0, y0), (x1, y1) = box.low_mm, box.high_mm
    return np.array([[x0, y0], [x1, y0], [x1, y1], [x0, y1]])


def _free(points: np.ndarray, polygons: list[np.ndarray]) -> np.ndarray:
    """(p,) bool: the point lies within none of the polygons."""
    free = np.ones(len(points), bool)
    for polygon in polygons:
        side = np.roll(polygon, -1, axis=0) - polygon
        outward = np.column_stack([side[:, 1], -side[:, 0]])
        outward /= np.linalg.norm(outward, axis=1, keepdims=True)
        beyond = points @ outward.T - np.einsum("ij,ij->i", outward, polygon)
        free &= beyond.max(axis=1) >= -ROUNDING_MM
    return free


def _nearest_on_rim(polygon: np.ndarray, point: np.ndarray) -> np.ndarray:
    """(k, 2) the nearest point of each side."""
    side = np.roll(polygon, -1, axis=0) - polygon
    along = np.einsum("kx,kx->k", point - polygon, side) / np.einsum("kx,kx->k", side, side)
    return polygon + np.clip(along, 0.0, 1.0)[:, None] * side


def _crossings(shifts: Rectangle, polygons: list[np.ndarray]) -> list[np.ndarray]:
    """Where the rims of polygons cross that of the box, and one another."""
    rims = [_box_corners(shifts), *polygons]
    return [
        _crossing_points(rims[a], rims[b])
        for a in range(len(rims))
        for b in range(a + 1, len(rims))
    ]


def _crossing_points(first: np.ndarray, second: np.ndarray) -> np.ndarray:
    """(c, 2) points in which two closed rims cross."""
    p, r = first[:, None], (np.roll(first, -1, axis=0) - first)[:, None]
    q, s = second[None], (np.roll(second, -1, axis=0) - second)[None]
    cross = r[..., 0] * s[..., 1] - r[..., 1] * s[..., 0]
    gap = q - p
    with np.errstate(divide="ignore", invalid="ignore"):
        along = (gap[..., 0] * s[..., 1] - gap[..., 1] * s[..., 0]) / cross
        other = (gap[..., 0] * r[..., 1] - gap[..., 1] * r[..., 0]) / cross
    meets = (cross != 0) & (along >= 0) & (along <= 1) & (other >= 0) & (other <= 1)
    return (p + np.where(meets, along, 0.0)[..., None] * r)[meets]
