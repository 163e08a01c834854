"""How firmly a part stands in one of very many build directions, alone and with its supports.

Hull of the section at half the first layer, with the feet of supports if wanted; the tip angle is
atan(d_min / z) of the centre of mass as in `stability`.
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.face_blocks import BLOCK, FaceBlocks
from viewer.geometry.stability import SUPPORT_DENSITY

_ROOM = 4096  # points kept before they are thinned to their hull


class StandingPart(NamedTuple):
    """What is needed of a part.

    points_mm : (p, 3) float64; faces : (t, 3) int32, the united surface; blocks : of its faces
    centroid_mm : (3,) float64; volume_mm3 : of the material
    """

    points_mm: np.ndarray
    faces: np.ndarray
    blocks: FaceBlocks
    centroid_mm: np.ndarray
    volume_mm3: float


@compiled
def tip_angles(part, rotation, low_mm, first_layer_mm, feet, count):
    """Tip angles in degrees of the part alone and with its supports; NaN where nothing stands.

    feet : (rays, 5) float64 from `cast_supports`, the first `count` of them
    """
    points = np.empty((_ROOM + 8, 2))
    held = _section_points(part, rotation, low_mm + 0.5 * first_layer_mm, points)
    mass = part.volume_mm3
    centre = np.zeros(3)
    for axis in range(3):
        for k in range(3):
            centre[axis] += rotation[axis, k] * part.centroid_mm[k]
    centre[2] -= low_mm
    alone = _tip(points, held, centre)
    moment, total = mass * centre, mass
    for i in range(count):
        weight = SUPPORT_DENSITY * feet[i, 4]
        total += weight
        moment[0] += weight * feet[i, 0]
        moment[1] += weight * feet[i, 1]
        moment[2] += weight * (feet[i, 2] + 0.5 * feet[i, 3])
        if feet[i, 2] == 0.0:
            held = _keep(points, held, feet[i, 0], feet[i, 1])
    return alone, _tip(points, held, moment / max(total, 1e-300))


@compiled
def _section_points(part, rotation, z_mm, points):
    """Corners of the section at height z, thinned to what its hull needs; returns how many."""
    up, held = rotation[2], 0
    blocks, heights = part.blocks, np.empty(3)
    for b in range(len(blocks.radii_mm)):
        c = blocks.centres_mm[b]
        middle = up[0] * c[0] + up[1] * c[1] + up[2] * c[2]
        if abs(middle - z_mm) > blocks.radii_mm[b] * (1 + 1e-9) + 1e-9:
            continue
        for f in range(BLOCK * b, min(BLOCK * (b + 1), len(part.faces))):
            for k in range(3):
                p = part.points_mm[part.faces[f, k]]
                heights[k] = up[0] * p[0] + up[1] * p[1] + up[2] * p[2] - z_mm
            for k in range(3):
                m = (k + 1) % 3
                if (heights[k] <= 0.0) == (heights[m] <= 0.0):
                    continue
                share = heights[k] / (heights[k] - heights[m])
                p, q = part.points_mm[part.faces[f, k]], part.points_mm[part.faces[f, m]]
                x, y = 0.0, 0.0
                for axis in range(3):
                    at = p[axis] + share * (q[axis] - p[axis])
                    x += rotation[0, axis] * at
                    y += rotation[1, axis] * at
                held = _keep(points, held, x, y)
    return held


@compiled
def _keep(points, held, x, y):
    """Add a point; a full table is thinned to its hull first."""
    if held >= _ROOM:
        hull = hull_of_points(points[:held])
        held = min(len(hull), _ROOM - 1)
        points[:held] = hull[:held]
    points[held, 0], points[held, 1] = x, y
    return held + 1


@compiled
def _tip(points, held, centre):
    if held < 3 or centre[2] <= 0:
        return np.nan
    hull = hull_of_points(points[:held])
    if len(hull) < 3:
        return np.nan
    inside, nearest = np.inf, np.inf
    for i in range(len(hull)):
        j = (i + 1) % len(hull)
        ex, ey = hull[j, 0] - hull[i, 0], hull[j, 1] - hull[i, 1]
        x, y = centre[0] - hull[i, 0], centre[1] - hull[i, 1]
        length = np.hypot(ex, ey)
        if length == 0.0:
            continue
        inside = min(inside, (ex * y - ey * x) / length)
        along = min(max((ex * x + ey * y) / length**2, 0.0), 1.0)
        nearest = min(nearest, np.hypot(x - along * ex, y - along * ey))
    margin = inside if inside >= 0 else -nearest
    return np.degrees(np.arctan2(margin, centre[2]))


@compiled
def hull_of_points(points):
    """Corners of the convex hull of (k, 2) float64 points, anticlockwise (Andrew 1979)."""
    order = np.argsort(points[:, 0])
    # Of points with the same x the lower ones come first.
    for i in range(1, len(order)):
        k, j = order[i], i
        while j > 0 and (
            points[order[j - 1], 0] == points[k, 0] and points[order[j - 1], 1] > points[k, 1]
        ):
            order[j] = order[j - 1]
            j -= 1
        order[j] = k
    chain, count = np.empty((2 * len(points) + 2, 2)), 0
    for turn in range(2):
        start = count
        for i in range(len(order)):
            p = points[order[i] if turn == 0 else order[len(order) - 1 - i]]
            while count - start >= 2:
                ax, ay = chain[count - 2]
                bx, by = chain[count - 1]
                if (bx - ax) * (p[1] - ay) - (by - ay) * (p[0] - ax) > 0:
                    break
                count -= 1
            chain[count, 0], chain[count, 1] = p[0], p[1]
            count += 1
        count -= 1  # it is the first of the other chain
    return chain[: max(count, 0)].copy()
