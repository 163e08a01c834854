"""How far a pose can be tipped before it falls.

A part stands while its centre of mass lies above the convex hull of what stands on the platform
(Prévost, Whiting, Lefebvre & Sorkine-Hornung 2013, ACM TOG 32(4):81). The angle by which it may be
tipped is atan(d_min / z_com), d_min being the distance from the foot of the centre of mass to the
nearest edge of that hull.
"""

import numpy as np


def convex_hull_2d(points: np.ndarray) -> np.ndarray:
    """Corners of the convex hull of (k, 2) float64 points, anticlockwise (monotone chain)."""
    points = np.unique(_extreme_points(points), axis=0)
    if len(points) < 3:
        return points

    def chain(ordered):
        corners: list[np.ndarray] = []
        for p in ordered:
            while len(corners) >= 2:
                (ax, ay), (bx, by) = corners[-2], corners[-1]
                if (bx - ax) * (p[1] - ay) - (by - ay) * (p[0] - ax) > 0:
                    break
                corners.pop()
            corners.append(p)
        return corners[:-1]

    return np.array(chain(points) + chain(points[::-1]))


def _extreme_points(points: np.ndarray) -> np.ndarray:
    """Leave out points well inside the hull: those inside the polygon of 64 extreme points."""
    if len(points) < 500:
        return points
    turns = np.linspace(0, 2 * np.pi, 64, endpoint=False)
    corners = points[np.argmax(points @ np.stack([np.cos(turns), np.sin(turns)]), axis=0)]
    edges = np.roll(corners, -1, axis=0) - corners
    outward = np.stack([edges[:, 1], -edges[:, 0]], axis=1)
    reach = np.einsum("ij,ij->i", outward, corners)
    slack = 1e-9 * (np.abs(reach).max() + 1e-12)
    return points[((points @ outward.T) >= reach - slack).any(axis=1)]


def distance_inside_mm(hull_mm: np.ndarray, point_mm: np.ndarray) -> float:
    """Distance from a point to the nearest edge of a hull; negative where the point is outside.

    hull_mm : (k, 2) float64, anticlockwise
    point_mm : (2,) float64
    """
    if len(hull_mm) < 2:
        return -float(np.linalg.norm(hull_mm - point_mm, axis=1).min(initial=np.inf))
    edges = np.roll(hull_mm, -1, axis=0) - hull_mm
    to_point = point_mm - hull_mm
    length = np.linalg.norm(edges, axis=1)
    inside = (edges[:, 0] * to_point[:, 1] - edges[:, 1] * to_point[:, 0]) / length
    if inside.min() >= 0:
        return float(inside.min())
    along = np.clip(np.einsum("ij,ij->i", edges, to_point) / length**2, 0, 1)
    return -float(np.linalg.norm(to_point - along[:, None] * edges, axis=1).min())


def tip_angle_deg(standing_mm: np.ndarray, centre_of_mass_mm: np.ndarray) -> float | None:
    """Angle by which the part may be tipped; negative if it falls by itself, None if it floats.

    standing_mm : (k, 2) float64, points of what stands on the platform
    centre_of_mass_mm : (3,) float64, z above the platform
    """
    if len(standing_mm) < 3 or centre_of_mass_mm[2] <= 0:
        return None
    margin = distance_inside_mm(convex_hull_2d(standing_mm), centre_of_mass_mm[:2])
    return float(np.degrees(np.arctan2(margin, centre_of_mass_mm[2])))
