"""The layers of one build direction as a search sees it: exact sections, supports by few rays."""

from typing import NamedTuple

import numpy as np

from viewer.geometry.direction_measures import RayedPart, support_feet
from viewer.geometry.layer_profile import layer_count, layer_profile
from viewer.geometry.turned_part import turn_part
from viewer.progress import Progress


class DirectionLayers(NamedTuple):
    """Lowest layer first; each (k,) float64 in mm² or mm.

    area_mm2, perimeter_mm : section of the part; support_mm2 : plan area of the supports
    touch_plan_mm2, landing_mm2 : plan area of supports that end, or begin on the part, in a layer
    """

    area_mm2: np.ndarray
    perimeter_mm: np.ndarray
    support_mm2: np.ndarray
    touch_plan_mm2: np.ndarray
    landing_mm2: np.ndarray


def layers_of_direction(rayed: RayedPart, up: np.ndarray, progress: Progress) -> DirectionLayers:
    """The layers with the unit vector `up` pointing up.

    Raises Cancelled; RequestProblem for too many layers.
    """
    part, layer_mm = rayed.searched.part, rayed.searched.settings.layer_mm
    turned = turn_part(part.solid_points_mm, up)
    layers = layer_count(turned.height_mm, layer_mm)
    progress.check()
    sections = layer_profile(
        turned.points_mm, part.solid_faces, layer_mm, turned.platform_mm, progress
    )
    feet = support_feet(rayed, up)
    bottom, gap = feet[:, 2], np.maximum(feet[:, 3], 1e-9)
    top, plan = bottom + gap, feet[:, 4] / gap

    def laid(places: np.ndarray, amounts: np.ndarray) -> np.ndarray:
        found = np.zeros(layers + 1)
        np.add.at(found, np.clip(places, 0, layers).astype(np.int64), amounts)
        return found

    # As in `support_profile`: a layer has the supports that its middle meets.
    first, end = (np.ceil(heights / layer_mm - 0.5) for heights in (bottom, top))
    steps = laid(first, plan) - laid(end, plan)
    touch = laid(np.minimum(np.floor(top / layer_mm + 1e-3), layers - 1), plan)
    on_part = bottom > 0
    landing = laid(np.floor(bottom[on_part] / layer_mm), plan[on_part])
    return DirectionLayers(
        np.maximum(_as_many(sections.area_mm2, layers), 0.0),
        _as_many(sections.perimeter_mm, layers),
        np.maximum(np.cumsum(steps)[:layers], 0.0),
        touch[:layers],
        landing[:layers],
    )


def _as_many(values: np.ndarray, layers: int) -> np.ndarray:
    return np.pad(values[:layers], (0, max(layers - len(values), 0)))
