"""Graze: part surface that a support stands so close to that it marks.

Counted is surface that is neither touch nor landing and lies closer than the clearance,
horizontally, to a support body. Points are spread evenly over the surface in proportion to area
(`surface_points`); a support stands at a place if the first face above it is an underside that
bears on a support. Standard error: from the spread over independent sets of points.
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.face_classes import ByClass
from viewer.geometry.prepared_part import PreparedPart
from viewer.geometry.ray_tree import nearest_hit
from viewer.progress import Progress

_DIRECTIONS = 8  # for level surface, which has no side of its own
_OFF_MM = 1e-4  # a ray starts so far off the surface it belongs to


class Graze(NamedTuple):
    """Grazed area by class, and one standard error."""

    area_mm2: ByClass
    error_mm2: ByClass


def measure_graze(
    part: PreparedPart,
    bears: np.ndarray,
    on_platform: np.ndarray,
    face_classes: np.ndarray,
    up: np.ndarray,
    clearance_mm: float,
    progress: Progress,
) -> Graze:
    """Grazed area of a pose.

    bears : (m,) bool, undersides that bear on a support
    on_platform : (m,) bool, faces that lie on the platform, which no support can reach
    face_classes : (m,) uint8
    up : (3,) float64, build direction in part coordinates
    """
    if not bears.any() or clearance_mm == 0:
        return Graze(ByClass(0.0, 0.0, 0.0, 0.0), ByClass(0.0, 0.0, 0.0, 0.0))
    tree, spread = part.ray_tree, part.surface_points
    origin = part.solid_origin[tree.order]
    bears_here, left_out, classes = (
        bears[origin],
        (bears | on_platform)[origin],
        face_classes[origin],
    )
    reach = float(np.linalg.norm(np.ptp(part.mesh.box_mm, axis=0))) + 1.0
    found = np.empty((len(spread.place), 3))
    for i in range(len(found)):
        progress.check()
        place = spread.place[i]
        asked = ~left_out[place]
        marked = _grazed(
            tree, bears_here, spread.points_mm[i][asked], spread.normals[i][asked], up,
            clearance_mm, reach,
        )  # fmt: skip
        of_class = classes[place[asked]][marked]
        found[i] = np.bincount(of_class, minlength=3)[:3] * spread.step_mm2
    whole = np.column_stack([found, found.sum(axis=1)])
    return Graze(
        _by_class(whole.mean(axis=0)), _by_class(whole.std(axis=0, ddof=1) / np.sqrt(len(whole)))
    )


def _by_class(sums):
    unmarked, a, b, total = (float(x) for x in sums)
    return ByClass(a, b, unmarked, total)


@compiled
def _grazed(tree, bears, points, normals, up, clearance, reach):
    """(k,) bool, which points have a support within the clearance."""
    found = np.zeros(len(points), np.bool_)
    for k in range(len(points)):
        found[k] = _is_grazed(tree, bears, points[k], normals[k], up, clearance, reach)
    return found


@compiled
def _is_grazed(tree, bears, point, normal, up, clearance, reach):
    n_z = np.dot(normal, up)
    off = point + _OFF_MM * normal
    if n_z > 0.01 and _supported(tree, bears, off, up, reach):
        return False  # a support lands here
    level = normal - n_z * up
    size = np.sqrt(np.dot(level, level))
    if size > 0.1:
        for share in (0.01, 0.5, 0.99):
            if _supported(tree, bears, off + share * clearance / size * level, up, reach):
                return True
        return False
    one = np.cross(up, np.array([1.0, 0.0, 0.0]))
    if np.dot(one, one) < 0.01:
        one = np.cross(up, np.array([0.0, 1.0, 0.0]))
    one = one / np.sqrt(np.dot(one, one))
    other = np.cross(up, one)
    for k in range(_DIRECTIONS):
        angle = 2.0 * np.pi * k / _DIRECTIONS
        aside = clearance * 0.99 * (np.cos(angle) * one + np.sin(angle) * other)
        if _supported(tree, bears, off + aside, up, reach):
            return True
    return False


@compiled
def _supported(tree, bears, point, up, reach):
    """Whether a support stands at a point: the first face above it bears on one."""
    _, place = nearest_hit(tree, point, up, reach)
    return place >= 0 and bears[place]
