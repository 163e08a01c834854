"""Search all build directions: a table that grows and gets finer while somebody looks at it.

First what normals tell of all directions, coarse spread first; then supports by rays, in the same
order; then rings of further directions around the best. `check_best` measures the best ones by the
full tier, so that the pick does not hang on few rays. As many threads work as there are
processors, as kernels let go of the interpreter lock; the generator itself runs on the caller's.
"""

import os
import time
from collections.abc import Iterator, Mapping
from concurrent.futures import Future, ThreadPoolExecutor, wait
from dataclasses import dataclass, field, replace
from typing import Protocol

import numpy as np

from viewer.geometry.aims import SHOW_SIDE
from viewer.geometry.direction_measures import (
    RayedPart,
    SearchedPart,
    empty_values,
    fill_supports,
    fill_terms,
    rayed_part,
    search_part,
)
from viewer.geometry.direction_table import DirectionTable, frozen_table
from viewer.geometry.face_classes import sum_by_class
from viewer.geometry.hard_limits import LIMIT_KEYS, limits_left
from viewer.geometry.overhang import PLATFORM_ANGLE_DEG
from viewer.geometry.pose_measures import PoseMeasures
from viewer.geometry.prepared_part import PreparedPart
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.ranking import rank_directions
from viewer.geometry.sphere_directions import (
    angles_deg,
    coarse_counts,
    ring_around,
    spacing_deg,
    spread_directions,
)
from viewer.progress import Progress

USUAL_DIRECTIONS = 2562
THREADS = os.cpu_count() or 1
_BATCH = 24  # directions that one call of the kernels measures
_SHOWN_EVERY_S = 0.25
_REFINED, _RING = 6, 6  # rings are laid around so many poses, of so many directions


class FurtherColumns(Protocol):
    """What fills columns from those that are measured."""

    def fill(self, rayed: RayedPart, table: DirectionTable, progress: Progress) -> None:
        """Fill in the rows of the table that are measured."""

    def of_pose(self, measures: PoseMeasures) -> Mapping[str, float]:
        """The columns of a direction that the full tier measured, by key."""


@dataclass(frozen=True, eq=False)
class SearchRequest:
    """Everything a search depends on.

    face_classes : (m,) uint8; directions : how many are spread over the sphere
    platform_mm : (3,) width, depth, height of the build volume, or None
    weights, limits : what decides where the search looks closer; see `rank_directions`
    refine : whether it looks closer at all
    further : fills columns that geometry does not know, such as time; None leaves them NaN
    """

    part: PreparedPart
    face_classes: np.ndarray
    settings: PrintSettings
    directions: int = USUAL_DIRECTIONS
    platform_mm: tuple[float, float, float] | None = None
    weights: Mapping[str, float] = field(default_factory=lambda: SHOW_SIDE.weights)
    limits: tuple[str, ...] = LIMIT_KEYS
    refine: bool = True
    further: FurtherColumns | None = None


class _Rows:
    """The growing table, and the plan areas that the rays need."""

    def __init__(self, asked: SearchRequest, searched: SearchedPart) -> None:
        spread, flats = spread_directions(asked.directions), searched.standing_directions
        self.table = DirectionTable(
            np.vstack([spread, flats]),
            empty_values(len(spread) + len(flats)),
            _stands_flat(np.vstack([spread, flats]), flats),
            np.zeros(len(spread) + len(flats), bool),
            len(spread),
            sum_by_class(asked.part.exposed_mm2, asked.face_classes),
            asked.settings.layer_mm,
        )
        self.plan_mm2 = np.zeros((len(self.table), 3))

    def add(self, directions: np.ndarray) -> slice:
        """Further directions; returns where they stand."""
        first, count, table = len(self.table), len(directions), self.table
        self.table = replace(
            table,
            directions=np.vstack([table.directions, directions]),
            values=np.vstack([table.values, empty_values(count)]),
            flat_standing=np.append(table.flat_standing, np.zeros(count, bool)),
            checked=np.append(table.checked, np.zeros(count, bool)),
        )
        self.plan_mm2 = np.vstack([self.plan_mm2, np.zeros((count, 3))])
        return slice(first, first + count)

    def stages(self) -> list[slice]:
        """The coarse spread, the flat-standing poses, then the finer spreads."""
        ends = coarse_counts(self.table.spread)
        spreads = [slice(a, b) for a, b in zip((0, *ends[:-1]), ends, strict=True)]
        flats = slice(self.table.spread, len(self.table))
        return [spreads[0], flats, *spreads[1:]]


def search_directions(
    asked: SearchRequest, progress: Progress | None = None
) -> Iterator[DirectionTable]:
    """Measure all directions, yielding a frozen table several times a second; the last is whole.

    Raises Cancelled if `progress` says so; its token may be set from another thread.
    """
    progress = progress or Progress()
    progress.report(0.0, "Normals and hull")
    searched = search_part(
        asked.part, asked.face_classes, asked.settings, asked.platform_mm, progress
    )
    if asked.settings.bridge_mm > 0:
        asked.part.get_ready(progress, "ray_tree", "for_lines")  # else each thread made its own
    rows = _Rows(asked, searched)
    with ThreadPoolExecutor(THREADS, "directions") as pool:
        for stage in rows.stages():
            _run(pool, rows, stage, _terms_work(searched, progress), progress)
            yield frozen_table(rows.table, 0.05)
        progress.report(0.05, "Tree for rays")
        rayed = rayed_part(searched, progress)
        work = _supports_work(rayed, progress)
        of_all = (0.1, 0.9 if asked.refine else 1.0)
        for fraction in _in_steps(pool, rows, rows.stages(), work, of_all, progress):
            _fill_further(asked, rayed, rows, progress)
            yield frozen_table(rows.table, fraction)
        _fill_further(asked, rayed, rows, progress)
        if asked.refine:
            yield from _look_closer(pool, asked, searched, rayed, rows, progress)
    progress.report(1.0)
    yield frozen_table(rows.table, 1.0)


def _fill_further(asked: SearchRequest, rayed: RayedPart, rows: _Rows, progress: Progress) -> None:
    if asked.further is not None:
        asked.further.fill(rayed, rows.table, progress)


def _stands_flat(directions: np.ndarray, flats: np.ndarray) -> np.ndarray:
    """(d,) bool: within the angle that counts as level of a direction in which the part stands."""
    found = np.zeros(len(directions), bool)
    for up in flats:
        found |= angles_deg(directions, up) <= PLATFORM_ANGLE_DEG
    return found


def rays_for(asked: SearchRequest, progress: Progress) -> RayedPart:
    """What `bound_touch_on_a` and `measure_sensitivity` need of a request. Raises Cancelled."""
    searched = search_part(
        asked.part, asked.face_classes, asked.settings, asked.platform_mm, progress
    )
    return rayed_part(searched, progress)


def _terms_work(searched: SearchedPart, progress: Progress):
    def work(table: DirectionTable, plan_mm2: np.ndarray, some: slice) -> None:
        fill_terms(
            searched, table.directions[some], table.values[some], plan_mm2[some], progress
        )  # fmt: skip

    return work


def _supports_work(rayed: RayedPart, progress: Progress):
    def work(table: DirectionTable, plan_mm2: np.ndarray, some: slice) -> None:
        fill_supports(
            rayed, table.directions[some], plan_mm2[some], table.values[some], progress
        )  # fmt: skip

    return work


def _batches(stage: slice) -> list[slice]:
    return [
        slice(first, min(first + _BATCH, stage.stop))
        for first in range(stage.start, stage.stop, _BATCH)
    ]


def _run(pool: ThreadPoolExecutor, rows: _Rows, stage: slice, work, progress: Progress) -> None:
    """Do a stage on the pool and wait for it; raises Cancelled."""
    for _ in _in_steps(pool, rows, [stage], work, (0.0, 0.0), progress):
        pass


def _in_steps(
    pool: ThreadPoolExecutor,
    rows: _Rows,
    stages: list[slice],
    work,
    span: tuple[float, float],
    progress: Progress,
) -> Iterator[float]:
    """Do stages in batches, in order, and yield how far it is now and then."""
    batches = [batch for stage in stages for batch in _batches(stage)]
    waiting: list[Future] = []
    shown = time.monotonic()
    try:
        for done, batch in enumerate(batches):
            waiting.append(pool.submit(work, rows.table, rows.plan_mm2, batch))
            # A few batches ahead keep the threads busy; all at once could not be called off.
            while len(waiting) > 2 * THREADS:
                _wait_for(waiting.pop(0), progress)
            now = time.monotonic()
            if now - shown > _SHOWN_EVERY_S:
                shown = now
                fraction = span[0] + (span[1] - span[0]) * done / len(batches)
                progress.report(fraction, "Directions")
                yield fraction
        while waiting:
            _wait_for(waiting.pop(0), progress)
    finally:
        # Whoever stops looking, or cancels, must find no thread at work in these rows.
        wait([future for future in waiting if not future.cancel()])


def _wait_for(future: Future, progress: Progress) -> None:
    future.result()
    progress.check()


def _look_closer(
    pool: ThreadPoolExecutor,
    asked: SearchRequest,
    searched: SearchedPart,
    rayed: RayedPart,
    rows: _Rows,
    progress: Progress,
) -> Iterator[DirectionTable]:
    """Rings around the best poses, each time at half the distance."""
    angle_deg = 0.5 * spacing_deg(asked.directions)
    for turn in range(3):
        # Where nothing is left, the limits that leave something are gone by.
        limits = limits_left(rows.table, asked.limits)
        ranking = rank_directions(rows.table, asked.weights, limits, _REFINED)
        rings = [ring_around(np.array(pose.up), angle_deg, _RING) for pose in ranking.poses]
        if not rings:
            return
        stage = rows.add(np.vstack(rings))
        _run(pool, rows, stage, _terms_work(searched, progress), progress)
        _run(pool, rows, stage, _supports_work(rayed, progress), progress)
        _fill_further(asked, rayed, rows, progress)
        angle_deg /= 2
        yield frozen_table(rows.table, 0.9 + 0.03 * (turn + 1))
