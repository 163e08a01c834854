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
    if len(thin) > MOST_THIN:
        return []
    middle = 0.5 * (islands.low_mm + islands.high_mm)
    runs: list[list[int]] = []
    open_runs: list[list[int]] = []
    for plane in np.unique(islands.plane[thin]).tolist():
        here = [int(i) for i in thin[islands.plane[thin] == plane]]
        below = [run for run in open_runs if islands.plane[run[-1]] == plane - 1]
        open_runs = []
        for i in here:
            run = _run_below(islands, middle, below, i)
            if run is None:
                runs.append(run := [])
            else:
                below.remove(run)
            run.append(i)
            open_runs.append(run)
    return [_slender(islands, across_mm, middle, run) for run in runs if len(run) >= LEAST_PLANES]


def _run_below(
    islands: SectionIslands, middle: np.ndarray, runs: list[list[int]], i: int
) -> list[int] | None:
    ends = np.array([run[-1] for run in runs], np.int64)
    if not len(ends):
        return None
    over = (islands.low_mm[ends] <= islands.high_mm[i]) & (
        islands.high_mm[ends] >= islands.low_mm[i]
    )
    away = np.where(over.all(axis=1), np.hypot(*(middle[ends] - middle[i]).T), np.inf)
    nearest = int(away.argmin())
    return runs[nearest] if np.isfinite(away[nearest]) else None


def _slender(islands, across_mm, middle, run: list[int]) -> Slender:
    planes, step = islands.plane[run], islands.step_mm
    heights = (planes + 0.5) * step
    count = np.bincount(islands.plane)
    return Slender(
        float(planes[0] * step),
        float((planes[-1] + 1) * step),
        float(across_mm[run].mean()),
        np.column_stack([middle[run], heights]),
        bool((count[planes] == 1).all()),
    )
