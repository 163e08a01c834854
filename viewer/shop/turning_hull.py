"""How far a convex outline reaches in x and y at every spin, exactly.

The support function of a hull is h(θ) = max over its corners p of p·u(θ). Between two neighbouring
normals of its sides one corner is the extreme one, so that h is a cosine there. The width of a
hull, and the distance between an extreme corner of one hull and the opposite one of another, are
sums of two such pieces: cosines again, between the normals of both.
"""

from dataclasses import dataclass

import numpy as np

from viewer.geometry.stability import convex_hull_2d

TURN = 2.0 * np.pi


@dataclass(frozen=True, eq=False)
class TurningHull:
    """A convex outline that spins about the origin.

    corners_mm : (n, 2) float64, anticlockwise, n >= 1
    from_rad : (n,) float64, rising in [0, 2π): from this direction on, up to the next, the corner
        `corner` is the extreme one
    """

    corners_mm: np.ndarray
    from_rad: np.ndarray
    corner: np.ndarray

    def extreme(self, direction_rad: np.ndarray) -> np.ndarray:
        """(d, 2) float64: the corner that lies furthest in each direction."""
        turned = np.mod(direction_rad, TURN)
        place = np.searchsorted(self.from_rad, turned, side="right") - 1
        return self.corners_mm[self.corner[place]]


def turning_hull(points_mm: np.ndarray) -> TurningHull:
    """The hull of (k, 2) float64 points, k >= 1."""
    corners = convex_hull_2d(np.asarray(points_mm, np.float64))
    if len(corners) < 2:
        return TurningHull(corners, np.zeros(1), np.zeros(1, np.int64))
    side = np.roll(corners, -1, axis=0) - corners  # from corner k to corner k + 1
    normal = np.mod(np.arctan2(-side[:, 0], side[:, 1]), TURN)  # of that side, outward
    # From the normal of the side before a corner to that of the side after it, it is extreme.
    order = np.argsort(normal, kind="stable")
    return TurningHull(corners, normal[order], (order + 1) % len(corners))


def reach_mm(hull: TurningHull, spin_rad: np.ndarray) -> np.ndarray:
    """(s, 2, 2) float64: lowest (x, y) and highest (x, y) of the hull at each spin.

    spin_rad : (s,) anticlockwise, about the origin of the hull
    """
    spins = np.asarray(spin_rad, np.float64)
    c, s = np.cos(spins), np.sin(spins)
    reach = np.empty((len(spins), 2, 2))
    # The axes as the part sees them, turned back by the spin: (c, −s) and (s, c).
    for axis, (x, y) in enumerate(((c, -s), (s, c))):
        direction = axis * np.pi / 2 - spins
        for end, opposite in ((1, 0.0), (0, np.pi)):
            furthest = hull.extreme(direction + opposite)
            reach[:, end, axis] = furthest[:, 0] * x + furthest[:, 1] * y
    return reach


def turned_mm(corners_mm: np.ndarray, spin_rad: float) -> np.ndarray:
    """(n, 2) corners after a spin about the origin."""
    c, s = np.cos(spin_rad), np.sin(spin_rad)
    return corners_mm @ np.array([[c, s], [-s, c]])
