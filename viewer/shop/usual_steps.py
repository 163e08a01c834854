"""Which steps a specimen tries for a machine and a pair: about what is held to be their limit."""

import numpy as np

from viewer.geometry.print_settings import PrintSettings
from viewer.shop.job_numbers import Chosen
from viewer.shop.machines import nozzle_for

# All of these are common practice, no source.
_ANGLES_FROM_LIMIT_DEG = (-20, -15, -10, -5, 0, 5, 10, 15, 20)
_BRIDGES = (0.5, 1.0, 1.5, 2.0, 3.0, 4.0, 6.0)  # times the bridge limit of the material
_TERRACES = (0.5, 0.75, 1.0, 1.5, 2.0, 3.0, 5.0, 8.0)  # widths in roads
_FINS = (2, 3, 4, 6)  # thicknesses in roads
_MOST_GAPS = 6


def usual_steps(kind: str, chosen: Chosen, settings: PrintSettings) -> tuple[float, ...]:
    """The steps for one kind of specimen, in degrees or mm as `make_specimen` takes them.

    Gaps are whole layers, since a machine lays no others; what terraces are as wide as some roads
    follows from the width of a terrace, t / tan α.
    """
    model = chosen.materials.model
    layer, road = settings.layer_mm, settings.road_mm
    if kind == "inclination-fan":
        angles = np.array(_ANGLES_FROM_LIMIT_DEG) + round(model.support_limit_deg / 5) * 5.0
        return _distinct(np.clip(angles, 15, 75))
    if kind == "bridge-ladder":
        spans = np.array(_BRIDGES) * max(model.bridge_limit_mm, 4.0)
        return _distinct(np.clip(np.round(spans), 2, 200))
    if kind == "terrace-wedge":
        angles = np.degrees(np.arctan(layer / (np.array(_TERRACES) * road)))
        return _distinct(np.clip(np.round(2 * angles) / 2, 1, 60))
    if kind == "pair-release":
        count = int(np.ceil(2 * chosen.pair.contact_gap_mm / layer - 1e-9))
        gaps = layer * np.arange(min(max(count, 2), _MOST_GAPS - 1) + 1)
        return _distinct(np.clip(gaps, 0, 2))
    if kind == "slender-fins":
        return _distinct(np.clip(road * np.array(_FINS), 0.3, 10))
    return (float(np.clip(round(nozzle_for(chosen.machine, 0).diameter_mm / 8, 2), 0.01, 0.5)),)


def _distinct(values: np.ndarray) -> tuple[float, ...]:
    return tuple(sorted({round(float(value), 3) for value in values}))
