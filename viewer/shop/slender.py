"""Thin islands of sections that follow one another: fingers and columns beside other parts."""

from typing import NamedTuple

import numpy as np

from viewer.geometry.section_islands import SectionIslands

LEAST_PLANES = 3  # fewer sections tell no finger
MOST_THIN = 3_000  # more thin islands than that are a lattice, which is thin as a whole


class Slender(NamedTuple):
    """from_mm, to_mm : above the platform; thick_mm : on average

    places_mm : (k, 3) x and y in the frame of `TurnedPart`, height above the platform, lowest first
    alone : no section that it runs through has another island
    """

    from_mm: float
    to_mm: float
    thick_mm: float
    places_mm: np.ndarray
    alone: bool


def slender_runs(islands: SectionIslands, across_mm: np.ndarray, most_mm: float) -> list[Slender]:
    """Runs of islands at most `most_mm` across, (i,) `across_mm`, each above the one before.

    One is above another where their boxes overlap; of several the one with the nearest middle.
    """
    thin = np.flatnonzero(across_mm <= most_mm)
    if not LEAST_PLANES <= len(thin) <= MOST_THIN:
        return []
    # Plain numbers: of few islands each call of numpy would take longer than what it does.
    boxes = np.hstack([islands.low_mm[thin], islands.high_mm[thin]]).tolist()
    runs: list[list[int]] = []
    below: list[list[int]] = []  # runs that reach the plane before
    here: list[list[int]] = []
    last = -2
    for k, plane in enumerate(islands.plane[thin].tolist()):
        if plane != last:
            below, here, last = (here if plane == last + 1 else []), [], plane
        run = min(
            (run for run in below if _over(boxes[run[-1]], boxes[k])),
            key=lambda run: _apart_mm2(boxes[run[-1]], boxes[k]),
            default=None,
        )
        if run is None:
            runs.append(run := [])
        else:
            below = [other for other in below if other is not run]
        run.append(k)
        here.append(run)
    return [_slender(islands, across_mm, thin[run]) for run in runs if len(run) >= LEAST_PLANES]


def _over(one: list[float], other: list[float]) -> bool:
    """Whether two boxes, x and y of their low and of their high corner, overlap."""
    return all(one[k] <= other[k + 2] and other[k] <= one[k + 2] for k in (0, 1))


def _apart_mm2(one: list[float], other: list[float]) -> float:
    """Square of how far their middles are apart, times 4."""
    return sum((one[k] + one[k + 2] - other[k] - other[k + 2]) ** 2 for k in (0, 1))


def _slender(islands: SectionIslands, across_mm: np.ndarray, run: np.ndarray) -> Slender:
    planes, step = islands.plane[run], islands.step_mm
    middle = 0.5 * (islands.low_mm[run] + islands.high_mm[run])
    count = np.bincount(islands.plane)
    return Slender(
        float(planes[0] * step),
        float((planes[-1] + 1) * step),
        float(across_mm[run].mean()),
        np.column_stack([middle, (planes + 0.5) * step]),
        bool((count[planes] == 1).all()),
    )
