"""How sure a pose is: what a small tilt and another support limit would make of it.

All is measured by the quick search, the pose itself too, so that what differs is the pose and not
the method. Of a pose that lies flat, what lies on the platform is left out of the touch of tilted
ones: the platform, and not the eye, lays it level.
"""

from dataclasses import replace
from typing import NamedTuple

import numpy as np

from viewer.geometry.direction_measures import RayedPart, empty_values, fill_supports, fill_terms
from viewer.geometry.direction_table import COLUMN
from viewer.geometry.sphere_directions import ring_around
from viewer.progress import Progress

TILT_DEG, LIMIT_DEG = 3.0, 5.0
_TILTS = 8
KEYS = ("touch_a_mm2", "touch_b_mm2", "touch_mm2", "support_volume_mm3")
_CONTACT = {
    "touch_a_mm2": "platform_a_mm2",
    "touch_b_mm2": "platform_b_mm2",
    "touch_mm2": "platform_mm2",
}
KNIFE_EDGE_SHARE = 0.02  # of a class's area: touching that much more of it is a loss one sees


class Range(NamedTuple):
    """The least and the most of a measure."""

    low: float
    high: float


class Sensitivity(NamedTuple):
    """Of one pose: key of KEYS → range, over tilts by TILT_DEG and over limits ± LIMIT_DEG.

    here : the pose itself, by the same method
    knife_edge : a tilt or the other limit makes supports touch clearly more of what shows
    """

    here: dict[str, float]
    tilted: dict[str, Range]
    limits: dict[str, Range]
    knife_edge: bool


def measure_sensitivity(
    rayed: RayedPart, up: np.ndarray, progress: Progress | None = None
) -> Sensitivity:
    """Measure the pose with `up`, eight tilted ones round it, and two other support limits.

    up : (3,) float64, unit. Raises Cancelled.
    """
    progress = progress or Progress()
    up = np.asarray(up, np.float64)
    tilted = np.vstack([up[None], ring_around(up, TILT_DEG, _TILTS)])
    values = _values(rayed, tilted, progress)
    here = {key: float(values[0, COLUMN[key]]) for key in KEYS}
    for key, contact in _CONTACT.items():
        values[1:, COLUMN[key]] -= values[0, COLUMN[contact]]
    np.maximum(values, 0.0, out=values)
    settings = rayed.searched.settings
    at_limits = [values[:1]]
    for by_deg in (-LIMIT_DEG, LIMIT_DEG):
        limit_deg = min(max(settings.support_limit_deg + by_deg, 0.0), 90.0)
        moved = replace(rayed.searched, settings=replace(settings, support_limit_deg=limit_deg))
        at_limits.append(_values(replace(rayed, searched=moved), up[None], progress))
    ranges = [_ranges(found) for found in (values, np.vstack(at_limits))]
    return Sensitivity(here, *ranges, _is_knife_edge(rayed, here, ranges))


def _values(rayed: RayedPart, directions: np.ndarray, progress: Progress) -> np.ndarray:
    values, plan = empty_values(len(directions)), np.zeros((len(directions), 3))
    fill_terms(rayed.searched, directions, values, plan)
    fill_supports(rayed, directions, plan, values, progress)
    progress.check()
    return values


def _ranges(values: np.ndarray) -> dict[str, Range]:
    columns = {key: values[:, COLUMN[key]] for key in KEYS}
    return {key: Range(float(v.min()), float(v.max())) for key, v in columns.items()}


def _is_knife_edge(rayed: RayedPart, here: dict[str, float], ranges) -> bool:
    searched = rayed.searched
    areas = np.bincount(searched.face_classes, searched.part.exposed_mm2, 3)
    unmarked, a, b = (float(area) for area in areas)
    watched = [("touch_a_mm2", a), ("touch_b_mm2", b)]
    if a + b == 0:
        watched = [("touch_mm2", unmarked)]
    return any(
        found[key].high - here[key] > KNIFE_EDGE_SHARE * area
        for key, area in watched
        if area > 0
        for found in ranges
    )
