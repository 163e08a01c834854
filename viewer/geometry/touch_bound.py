"""How little of class A supports must touch whatever the direction: a bound that is proved.

A face that overhangs in direction g at a support limit less by δ overhangs at the whole limit in
every direction within δ of g, as its normal is then no farther from straight down than the limit.
So the overhang of class A at g with the limit less δ, less what could lie on the platform there,
bounds the touch from below in the whole cap of radius δ about g. Triangles over the sphere lie in
such caps; those whose bound is below the least touch found are halved again and again (branch and
bound; Land & Doig 1960, "An automatic method of solving discrete programming problems",
Econometrica 28(3); MEM).

With bridges allowed nothing is proved, as what bridges is known only where it has been looked for.
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.direction_measures import SearchedPart
from viewer.geometry.direction_terms import FacesByNormal, faces_by_normal, terms_of_directions
from viewer.geometry.face_classes import CLASS_A
from viewer.geometry.overhang import (
    LIMIT_TOLERANCE_DEG,
    PLATFORM_ANGLE_DEG,
    PLATFORM_HEIGHT_MM,
)
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.sphere_directions import icosphere
from viewer.progress import Progress

MOST_CELLS = 40_000  # caps looked at before the bound is taken as it is
_FIRST_SUBDIVISIONS = 2
_SLACK = 1e-5  # of class A's area, for sums in single precision
_SLACK_DEG = 0.02  # for normals in single precision


class TouchBound(NamedTuple):
    """least_mm2 : no direction touches less of class A than this; found_mm2 : the least found"""

    least_mm2: float
    found_mm2: float


def bound_touch_on_a(
    searched: SearchedPart, found_mm2: float, progress: Progress | None = None
) -> TouchBound | None:
    """The bound, given the least touch on class A found so far; None where none can be proved.

    Raises Cancelled.
    """
    progress = progress or Progress()
    of_a = searched.face_classes == CLASS_A
    if searched.settings.bridge_mm > 0 or not of_a.any():
        return None
    if found_mm2 <= 0:
        return TouchBound(0.0, found_mm2)
    part = searched.part
    may_lie = of_a.copy()
    may_lie[of_a] = _may_lie_on_the_platform(searched, np.flatnonzero(of_a), progress)
    lying = faces_by_normal(part.normals, part.exposed_mm2 * may_lie, searched.face_classes)
    overhangs, contacts = (searched.by_normal[CLASS_A],), (lying[CLASS_A],)
    slack = _SLACK * float(part.exposed_mm2[of_a].sum())
    directions, triangles = icosphere(_FIRST_SUBDIVISIONS)
    cells = directions[triangles]
    least, looked_at = found_mm2, 0
    while len(cells) and looked_at + len(cells) <= MOST_CELLS:
        progress.check()
        looked_at += len(cells)
        middles = cells.sum(axis=1)
        middles /= np.linalg.norm(middles, axis=1)[:, None]
        cosines = np.einsum("tki,ti->tk", cells, middles).min(axis=1)
        radius_deg = float(np.degrees(np.arccos(min(cosines.min(), 1.0)))) + _SLACK_DEG
        bounds = _overhang_mm2(middles, overhangs, searched.settings, -radius_deg)
        lies_deg = radius_deg + PLATFORM_ANGLE_DEG + LIMIT_TOLERANCE_DEG
        bounds -= _overhang_mm2(middles, contacts, PrintSettings(support_limit_deg=0.0), lies_deg)
        open_cells = bounds - slack < found_mm2
        cells, bounds = cells[open_cells], np.maximum(bounds[open_cells] - slack, 0.0)
        least = float(bounds.min(initial=found_mm2))
        cells = _halved(cells)
    return TouchBound(min(least, found_mm2), found_mm2)


def _overhang_mm2(
    directions: np.ndarray, faces: tuple[FacesByNormal, ...], settings: PrintSettings, by_deg: float
) -> np.ndarray:
    """(d,) area that overhangs with the support limit raised by so much."""
    limit_deg = min(settings.support_limit_deg + by_deg, 90.0)
    if limit_deg <= 0:
        return np.zeros(len(directions))
    moved = PrintSettings(support_limit_deg=limit_deg)
    return terms_of_directions(directions, faces, moved).overhang_mm2.sum(axis=1)


def _may_lie_on_the_platform(
    searched: SearchedPart, faces: np.ndarray, progress: Progress
) -> np.ndarray:
    """(f,) bool: nothing looked at reaches beyond the face's plane, so it may be the lowest."""
    part = searched.part
    along = searched.hull_points_mm @ icosphere(2).directions.T
    far = searched.hull_points_mm[np.unique(along.argmax(axis=0))] if len(along) else along
    # Within the angle that counts as level, a face's plane may be passed by so much.
    slope = float(np.sin(np.radians(PLATFORM_ANGLE_DEG + _SLACK_DEG)))
    may_lie = np.ones(len(faces), bool)
    corners = part.points_mm[part.faces[faces, 0]]
    normals = part.normals[faces].astype(np.float64)
    heights = np.einsum("ij,ij->i", normals, corners)
    for point in far:
        progress.check()
        away = np.linalg.norm(point - corners, axis=1)
        may_lie &= normals @ point - heights <= PLATFORM_HEIGHT_MM + slope * away
    return may_lie


def _halved(cells: np.ndarray) -> np.ndarray:
    """(4t, 3, 3) of (t, 3, 3) triangles on the unit sphere."""
    a, b, c = cells.transpose(1, 0, 2)
    ab, bc, ca = ((p + q) / np.linalg.norm(p + q, axis=1)[:, None] for p, q in
                  ((a, b), (b, c), (c, a)))  # fmt: skip
    parts = [(a, ab, ca), (ab, b, bc), (ca, bc, c), (ab, bc, ca)]
    return np.concatenate([np.stack(part, axis=1) for part in parts])
