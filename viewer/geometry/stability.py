"""How far a pose can be tipped before it falls.

A part stands while its centre of mass lies above the convex hull of what stands on the platform
(Prévost, Whiting, Lefebvre & Sorkine-Hornung 2013, ACM TOG 32(4):81). The angle by which it may be
tipped is atan(d_min / z_com), d_min being the distance from the foot of the centre of mass to the
nearest edge of that hull. While it is printed, the same holds for what is printed so far.
"""

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from viewer.geometry.support_samples import SupportSamples

if TYPE_CHECKING:  # it holds kernels, which the plain measures do without
    from viewer.geometry.pose_profile import PoseProfile


def convex_hull_2d(points: np.ndarray) -> np.ndarray:
    """Corners of the convex hull of (k, 2) float64 points, anticlockwise (monotone chain)."""
    points = _extreme_points(points)
    points = points[np.lexsort((points[:, 1], points[:, 0]))]
    points = points[np.append(True, (np.diff(points, axis=0) != 0).any(axis=1))[: len(points)]]
    if len(points) < 3:
        return points

    def chain(ordered):
        corners: list[list[float]] = []
        for p in ordered:
            while len(corners) >= 2:
                (ax, ay), (bx, by) = corners[-2], corners[-1]
                if (bx - ax) * (p[1] - ay) - (by - ay) * (p[0] - ax) > 0:
                    break
                corners.pop()
            corners.append(p)
        return corners[:-1]

    ordered = points.tolist()  # plain numbers: taking them out of arrays one by one is slow
    return np.array(chain(ordered) + chain(ordered[::-1]))


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
    return float(distances_inside_mm(hull_mm, np.asarray(point_mm)[None])[0])


def distances_inside_mm(hull_mm: np.ndarray, points_mm: np.ndarray) -> np.ndarray:
    """(p,) float64: `distance_inside_mm` of many points (p, 2) at once."""
    if len(hull_mm) < 2:
        away = np.linalg.norm(points_mm[:, None] - hull_mm, axis=2)
        return -away.min(axis=1, initial=np.inf)
    edges = np.roll(hull_mm, -1, axis=0) - hull_mm
    length = np.linalg.norm(edges, axis=1)
    inward = np.column_stack([-edges[:, 1], edges[:, 0]]) / length[:, None]
    distances = (points_mm @ inward.T - np.einsum("ij,ij->i", inward, hull_mm)).min(axis=1)
    outside = np.flatnonzero(distances < 0)
    to_point = points_mm[outside, None] - hull_mm
    along = np.clip(np.einsum("ij,pij->pi", edges, to_point) / length**2, 0, 1)
    away = np.linalg.norm(to_point - along[:, :, None] * edges, axis=2)
    distances[outside] = -away.min(axis=1, initial=np.inf)
    return distances


def tip_angle_deg(standing_mm: np.ndarray, centre_of_mass_mm: np.ndarray) -> float | None:
    """Angle by which the part may be tipped; negative if it falls by itself, None if it floats.

    standing_mm : (k, 2) float64, points of what stands on the platform
    centre_of_mass_mm : (3,) float64, z above the platform
    """
    if len(standing_mm) < 3 or centre_of_mass_mm[2] <= 0:
        return None
    margin = distance_inside_mm(convex_hull_2d(standing_mm), centre_of_mass_mm[:2])
    return float(np.degrees(np.arctan2(margin, centre_of_mass_mm[2])))


SUPPORT_DENSITY = 0.2  # of the part's: supports are printed sparsely (common practice, no source)


class Stability(NamedTuple):
    """How firmly a pose stands.

    centre_of_mass_mm : (3,) float64, of the part alone in the frame of `TurnedPart`, z above the
        platform
    contact_polygon_mm : (k, 2) float64, hull of what the part stands on, in that frame
    tip_angle_deg : of the part alone; None if nothing stands
    tip_angle_supported_deg : with its supports, the whole print
    tip_angle_worst_deg, tip_angle_worst_mm : the smallest while it is printed, supports growing
        along, and the height reached by then
    """

    centre_of_mass_mm: np.ndarray
    contact_polygon_mm: np.ndarray
    tip_angle_deg: float | None
    tip_angle_supported_deg: float | None
    tip_angle_worst_deg: float | None
    tip_angle_worst_mm: float | None


def contact_polygon_mm(standing_mm: np.ndarray) -> np.ndarray:
    """(k, 2) hull of the outline that stands on the platform, (s, 2, 2) float64 segments."""
    return convex_hull_2d(standing_mm.reshape(-1, 2)) if len(standing_mm) else np.empty((0, 2))


def stability_of_pose(
    standing_mm: np.ndarray,
    centre_of_mass_mm: np.ndarray,
    samples: SupportSamples,
    profile: "PoseProfile",
) -> Stability:
    """Tip angles of the part alone, with supports, and while it is printed.

    standing_mm : (s, 2, 2) float64, outline of the first layer (see `first_layer`)
    centre_of_mass_mm : (3,) float64, of the part, z above the platform
    Supports weigh SUPPORT_DENSITY of the part's material.
    """
    alone = contact_polygon_mm(standing_mm)
    whole = convex_hull_2d(np.vstack([alone, _feet(samples)]))
    angles = _angles_while_printed(whole, profile)
    known = np.flatnonzero(np.isfinite(angles))
    worst = known[np.argmin(angles[known])] if len(known) else None
    return Stability(
        centre_of_mass_mm,
        alone,
        tip_angle_deg(standing_mm.reshape(-1, 2), centre_of_mass_mm),
        float(angles[known[-1]]) if len(known) else None,
        None if worst is None else float(angles[worst]),
        None if worst is None else float(profile.z_mm[worst] + 0.5 * profile.layer_mm),
    )


def _feet(samples: SupportSamples) -> np.ndarray:
    """(4k, 2) corners of the cells in which supports stand, at both ends of each row of samples.

    What lies between them is inside their hull.
    """
    stands = np.flatnonzero((samples.bottom_face < 0) & (samples.top_mm > 0))
    if not len(stands):
        return np.empty((0, 2))
    changes = np.flatnonzero(np.diff(samples.row[stands])) + 1  # samples come row by row
    ends = stands[np.unique(np.concatenate([[0], changes - 1, changes, [len(stands) - 1]]))]
    places = samples.places_mm[ends]
    half = 0.5 * np.sqrt(samples.plan_mm2[ends])[:, None]
    corners = [places + half * turn for turn in ((1, 1), (-1, 1), (-1, -1), (1, -1))]
    return np.concatenate(corners)


def _angles_while_printed(hull_mm: np.ndarray, profile: "PoseProfile") -> np.ndarray:
    """(k,) tip angle once each layer is printed; NaN where nothing stands or nothing is there."""
    area = profile.area_mm2 + SUPPORT_DENSITY * profile.support_area_mm2
    moment = profile.moment_mm3 + SUPPORT_DENSITY * profile.support_moment_mm3
    mass = np.cumsum(area)
    angles = np.full(len(mass), np.nan)
    printed = mass > 1e-9
    if len(hull_mm) < 3 or not printed.any():
        return angles
    centre = np.cumsum(moment, axis=0)[printed] / mass[printed, None]
    height = np.cumsum(area * profile.z_mm)[printed] / mass[printed]
    angles[printed] = np.degrees(np.arctan2(distances_inside_mm(hull_mm, centre), height))
    return angles
