"""Graze: part surface that a support stands so close to that it marks.

Counted is surface that is neither touch nor landing and lies closer than the clearance,
horizontally, to a support body. Points are spread evenly over the surface in proportion to area; a
support stands at a place if the first face above it is an underside that bears on a support.
Standard error: from eight interleaved sets of points, each with its own random start.
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.face_classes import ByClass
from viewer.geometry.prepared_part import PreparedPart
from viewer.geometry.ray_tree import nearest_hit

_SETS = 8
_SEED = 20240301
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
    points: int,
) -> Graze:
    """Grazed area of a pose.

    bears : (m,) bool, undersides that bear on a support
    on_platform : (m,) bool, faces that lie on the platform, which no support can reach
    face_classes : (m,) uint8
    up : (3,) float64, build direction in part coordinates
    points : how many points to spread
    """
    if not bears.any() or clearance_mm == 0:
        return Graze(ByClass(0.0, 0.0, 0.0, 0.0), ByClass(0.0, 0.0, 0.0, 0.0))
    tree = part.ray_tree
    origin = part.solid_origin[tree.order]
    reach = float(np.linalg.norm(np.ptp(part.mesh.box_mm, axis=0))) + 1.0
    each = max(points // _SETS, 1)
    rng = np.random.default_rng(_SEED)
    found = np.empty((_SETS, 3))
    for i in range(_SETS):
        found[i] = _grazed(
            tree, bears[origin], (bears | on_platform)[origin], face_classes[origin], up,
            clearance_mm, reach, each, rng.random(), rng.random((each, 2)),
        )  # fmt: skip
    whole = np.column_stack([found, found.sum(axis=1)])
    return Graze(
        _by_class(whole.mean(axis=0)), _by_class(whole.std(axis=0, ddof=1) / np.sqrt(_SETS))
    )


def _by_class(sums):
    unmarked, a, b, total = (float(x) for x in sums)
    return ByClass(a, b, unmarked, total)


@compiled
def _grazed(tree, bears, left_out, face_classes, up, clearance, reach, each, start, spread):
    """(3,) grazed area by class from one set of points, `start` being its random start.

    Faces come in the order of the tree; points follow them at even steps of area (systematic
    sampling).
    """
    areas = np.empty(len(tree.corners_mm))
    for place in range(len(areas)):
        normal = _area_vector(tree.corners_mm[place])
        areas[place] = np.sqrt(np.dot(normal, normal))
    sums = np.zeros(3)
    step = areas.sum() / each
    next_point, passed = start * step, 0.0
    count = 0
    for place in range(len(areas)):
        passed += areas[place]
        while next_point < passed and count < each:
            s, t = spread[count]
            if s + t > 1.0:
                s, t = 1.0 - s, 1.0 - t
            corners = tree.corners_mm[place]
            a = corners[0]
            point = a + s * (corners[1] - a) + t * (corners[2] - a)
            normal = _area_vector(corners) / areas[place]
            if not left_out[place] and _is_grazed(tree, bears, point, normal, up, clearance, reach):
                sums[face_classes[place]] += step
            count += 1
            next_point += step
    return sums


@compiled
def _area_vector(corners):
    return 0.5 * np.cross(corners[1] - corners[0], corners[2] - corners[0])


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
