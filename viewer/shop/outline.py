"""What a pose needs of the platform: outlines of the part and of its supports, and their heights.

Supports stand straight below the faces that bear on them, so these tell their outline.
"""

from dataclasses import dataclass
from weakref import WeakKeyDictionary

import numpy as np

from viewer.geometry.hull_faces import convex_hull
from viewer.geometry.mesh import Mesh
from viewer.geometry.outer_corners import mark_corners, outermost_in_plan
from viewer.geometry.pose import shortest_turn_to_z
from viewer.geometry.pose_measures import Island, PoseMeasures
from viewer.geometry.stability import convex_hull_2d
from viewer.shop.turning_hull import TurningHull, turning_hull

_FEW = 100  # points: not worth a closer look
_SECTORS = 512
_ROUND = 16  # corners of a disc
_hulls: WeakKeyDictionary[Mesh, np.ndarray] = WeakKeyDictionary()


@dataclass(frozen=True, eq=False)
class PoseOutline:
    """Outlines without spin, about a common origin.

    part : hull of the part; supports : hull of its supports, None where it has none
    height_mm : of the part; support_height_mm : up to which supports reach
    lowest_mm : least coordinate of the part along the build direction, in part coordinates
    """

    part: TurningHull
    supports: TurningHull | None
    height_mm: float
    support_height_mm: float
    lowest_mm: float = 0.0


def outline_of(mesh: Mesh, up: tuple[float, float, float], measures: PoseMeasures) -> PoseOutline:
    """The outlines of a part with `up` pointing up; `measures` tells which faces bear on supports.

    A support that an island alone needs is taken as a disc as large as the island below its lowest
    point: the faces above are steep and bear on nothing.
    """
    turn = shortest_turn_to_z(np.asarray(up, np.float64))
    turned = turn @ _hull_corners_mm(mesh).T
    lowest = float(turned[2].min())
    feet, reach = _island_feet(measures.island_places or (), turn)
    found_mm = [feet] if len(feet) else []
    if measures.faces is not None and measures.support_volume_mm3 > 0:
        vertices = mesh.vertices_mm
        used = mark_corners(mesh.faces, measures.faces.touch_share > 0, len(vertices))
        found = outermost_in_plan(vertices, used, turn)
        if found is not None:
            points, top = found
            found_mm.append(points)
            reach = max(reach, top - lowest)
    supports = None
    if found_mm:
        supports = turning_hull(outer_points(np.concatenate(found_mm).T))
    height = float(turned[2].max()) - lowest
    return PoseOutline(turning_hull(outer_points(turned[:2])), supports, height, reach, lowest)


def _island_feet(places: tuple[Island, ...], turn: np.ndarray) -> tuple[np.ndarray, float]:
    """(k, 2) round the supports of islands before any spin, and how high the highest reaches."""
    needing = [place for place in places if place.support_mm3 > 0]
    if not needing:
        return np.zeros((0, 2)), 0.0
    middle = np.array([place.place_mm for place in needing]) @ turn[:2].T
    radius = np.sqrt(np.array([place.area_mm2 for place in needing]) / np.pi)
    angles = np.linspace(0.0, 2 * np.pi, _ROUND, endpoint=False)
    rim = np.stack([np.cos(angles), np.sin(angles)], axis=1)
    feet = middle[:, None] + radius[:, None, None] * rim
    return feet.reshape(-1, 2), max(place.height_mm for place in needing)


def _hull_corners_mm(mesh: Mesh) -> np.ndarray:
    """(h, 3) corners of the part's hull, which no pose changes; all vertices of a flat part."""
    known = _hulls.get(mesh)
    if known is None:
        hull = convex_hull(mesh)
        known = mesh.vertices_mm if hull is None else hull.mesh.vertices_mm + hull.centre_mm
        _hulls[mesh] = known
    return known


def outer_points(rows: np.ndarray) -> np.ndarray:
    """(k, 2) of the points (2, n) all that are not well within their hull.

    First those within the eight-sided polygon of the furthest points left, right, up, down and
    askew are dropped (Akl & Toussaint 1978, Information Processing Letters 7(5), MEM), then those
    within the hull of the furthest points of many sectors.
    """
    x, y = rows
    if len(x) < _FEW:
        return rows.T
    askew, other = x + y, x - y
    ends = [x.argmin(), askew.argmin(), y.argmin(), other.argmax(),
            x.argmax(), askew.argmax(), y.argmax(), other.argmin()]  # fmt: skip
    outside = np.zeros(len(x), bool)
    slack = 1e-9 * (np.ptp(x) + np.ptp(y)) ** 2
    for a, b in zip(ends, ends[1:] + ends[:1], strict=True):
        dx, dy = x[b] - x[a], y[b] - y[a]
        if dx or dy:
            outside |= dx * (y - y[a]) - dy * (x - x[a]) <= slack
    points = rows[:, outside].T
    return points if len(points) < _FEW else _outside_sectors(points, slack)


def _outside_sectors(points: np.ndarray, slack: float) -> np.ndarray:
    """Those of (n, 2) points that are not within the hull of the furthest of each sector."""
    middle = 0.5 * (points.min(axis=0) + points.max(axis=0))
    away = points - middle
    angle = np.arctan2(away[:, 1], away[:, 0])
    sector = ((angle + np.pi) * (_SECTORS / (2 * np.pi))).astype(np.int64)
    order = np.lexsort((np.einsum("kx,kx->k", away, away), sector))
    last = np.append(np.flatnonzero(np.diff(sector[order])), len(order) - 1)
    hull = convex_hull_2d(away[order[last]])
    if len(hull) < 3 or not _holds_origin(hull, slack):
        return points
    hull_angle = np.arctan2(hull[:, 1], hull[:, 0])
    first = int(np.argmin(hull_angle))
    hull, hull_angle = np.roll(hull, -first, axis=0), np.roll(hull_angle, -first)
    at = np.searchsorted(hull_angle, angle, side="right") - 1
    start, end = hull[at], hull[(at + 1) % len(hull)]
    side, beyond = end - start, away - start
    inside = side[:, 0] * beyond[:, 1] - side[:, 1] * beyond[:, 0] > slack
    return points[~inside]


def _holds_origin(hull: np.ndarray, slack: float) -> bool:
    following = np.roll(hull, -1, axis=0)
    return bool((hull[:, 0] * following[:, 1] - hull[:, 1] * following[:, 0] > slack).all())
