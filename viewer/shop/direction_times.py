"""Time, material and money of every direction of a search: reckoned truly for some, fitted for all.

Of some twenty directions the layers are made (`direction_layers`) and reckoned as for a pose
(`print_job`). What they come to is fitted by what the search knows of all directions: number of
layers, height that has supports (tool changes), support volume, where supports meet the part, walls
and level surface; each coefficient is a price and so not negative. Directions that the full tier
measures get their own numbers.
"""

from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from viewer.errors import RequestProblem
from viewer.geometry.direction_layers import layers_of_direction
from viewer.geometry.direction_measures import RayedPart
from viewer.geometry.direction_table import COLUMN, DirectionTable, frozen_table
from viewer.geometry.pose_measures import PoseMeasures
from viewer.geometry.print_settings import PrintSettings
from viewer.progress import Progress
from viewer.shop.calibrate import FinishedPrint, calibrate_prints, corrected
from viewer.shop.job_layers import JobLayers, layers_of
from viewer.shop.job_numbers import choose
from viewer.shop.print_job import Estimate, PrintJob, estimate
from viewer.shop.shop import Shop
from viewer.shop.shop_choice import ShopChoice

KEYS = ("time_min", "material_g", "cost")
_SPREAD, _FLATS = 18, 4  # directions that are reckoned truly: of the coarse spread, flat-standing
_ONE_IN = 10  # samples of the surface that walls and level surface are told from
_AT_A_TIME = 256
_STEPS = 400  # of the fit


class DirectionTimes:
    """Fills the columns KEYS of a table; see `times_of_directions`."""

    def __init__(self, job: PrintJob, prints: tuple[FinishedPrint, ...]) -> None:
        self._job, self._known = job, calibrate_prints(prints, job.machine.name)
        self._prices: np.ndarray | None = None

    def fill(self, rayed: RayedPart, table: DirectionTable, progress: Progress) -> None:
        """Fill in the rows that the search has measured and that have no time yet.

        Raises Cancelled.
        """
        if self._prices is None:
            rows = _rows_to_reckon(table)
            if not len(rows):
                return
            self._prices = self._fitted(rayed, table, rows, progress)
        rows = np.flatnonzero(_measured(table) & ~np.isfinite(table.column(KEYS[0])))
        for first in range(0, len(rows), _AT_A_TIME):
            progress.check()
            some = rows[first : first + _AT_A_TIME]
            amounts = _amounts(rayed, table, some) @ self._prices
            for i, key in enumerate(KEYS):
                table.values[some, COLUMN[key]] = amounts[:, i]

    def of_pose(self, measures: PoseMeasures) -> Mapping[str, float]:
        """The columns of a direction that the full tier measured."""
        return dict(zip(KEYS, self._reckoned(layers_of(measures)), strict=True))

    def of_direction(self, rayed: RayedPart, up: np.ndarray, progress: Progress) -> np.ndarray:
        """(3,) float64: KEYS of one direction, reckoned from its layers. Raises Cancelled."""
        layer_mm = rayed.searched.settings.layer_mm
        made = layers_of_direction(rayed, up, progress)
        return self._reckoned(JobLayers(layer_mm, *made))

    def _reckoned(self, layers: JobLayers) -> np.ndarray:
        found: Estimate = estimate(layers, self._job)
        found = corrected(found, self._known, self._job.machine.hourly_rate)
        grams = sum(each.likely for each in found.material_g.values())
        return np.array([found.time_s.likely / 60.0, grams, found.cost.likely])

    def _fitted(self, rayed, table, rows, progress) -> np.ndarray:
        """(n, 3) float64: what one of each amount takes."""
        directions = table.directions[rows]
        known = np.array([self.of_direction(rayed, up, progress) for up in directions])
        amounts = _amounts(rayed, table, rows)
        return np.column_stack([_prices(amounts, wanted) for wanted in known.T])


def times_of_directions(
    shop: Shop, choice: ShopChoice, settings: PrintSettings, prints: tuple[FinishedPrint, ...]
) -> DirectionTimes | None:
    """For the machine, pair and process chosen; None where the machine cannot print that pair.

    Raises RequestProblem for a name that is not there.
    """
    chosen = choose(shop, choice)
    job = PrintJob(
        chosen.machine, chosen.pair, chosen.materials, chosen.process, settings.road_mm,
        choice.copies,
    )  # fmt: skip
    nothing = np.zeros(1)
    try:
        estimate(JobLayers(settings.layer_mm, *(nothing,) * 5), job)
        estimate(JobLayers(settings.layer_mm, *(nothing + 1.0,) * 5), job)
    except RequestProblem:
        return None
    return DirectionTimes(job, prints)


def with_other_times(
    table: DirectionTable,
    rayed: RayedPart,
    times: DirectionTimes | None,
    measures: Mapping[int, PoseMeasures],
    progress: Progress,
) -> DirectionTable:
    """A searched table with the times of another choice in the shop; None for none at all.

    measures : of the rows that the full tier measured. Raises Cancelled.
    """
    table = replace(table, values=table.values.copy())
    table.values[:, [COLUMN[key] for key in KEYS]] = np.nan
    if times is not None:
        times.fill(rayed, table, progress)
        for row, found in measures.items():
            for key, value in times.of_pose(found).items():
                table.values[row, COLUMN[key]] = value
    return frozen_table(table, table.fraction)


def _measured(table: DirectionTable) -> np.ndarray:
    needed = ("height_mm", "supported_mm", "support_volume_mm3", "touch_mm2", "landing_part_mm2")
    return np.isfinite(table.values[:, [COLUMN[key] for key in needed]]).all(axis=1)


def _rows_to_reckon(table: DirectionTable) -> np.ndarray:
    """Directions far apart, and some that stand flat; none before there are enough."""
    measured = _measured(table)
    spread = np.flatnonzero(measured[: table.spread])
    if len(spread) < min(_SPREAD, table.spread):
        return np.empty(0, np.int64)
    flat = np.flatnonzero(measured & table.flat_standing)
    return np.unique(np.concatenate([spread[:_SPREAD], flat[:_FLATS]]))


def _amounts(rayed: RayedPart, table: DirectionTable, rows: np.ndarray) -> np.ndarray:
    """(k, 7) float64: what time and material go by, of each direction."""
    walls, level = _walls_and_level_mm2(rayed, table.directions[rows])
    column = {key: table.column(key)[rows] for key in (
        "height_mm", "supported_mm", "support_volume_mm3", "touch_mm2", "landing_part_mm2",
    )}  # fmt: skip
    return np.column_stack(
        [
            np.ones(len(rows)),
            column["height_mm"],
            column["supported_mm"],
            column["support_volume_mm3"],
            column["touch_mm2"] + column["landing_part_mm2"],
            walls,
            level,
        ]
    )


def _walls_and_level_mm2(rayed: RayedPart, directions: np.ndarray) -> tuple:
    """Areas of the surface seen from the side, Σ area·√(1 − n_z²), and from above, Σ area·|n_z|."""
    samples = rayed.samples
    normals = np.column_stack([samples.x, samples.y, samples.z])[::_ONE_IN]
    n_z = np.abs(normals @ directions.T.astype(np.float32))
    each = samples.each_mm2 * _ONE_IN
    walls = np.sqrt(np.maximum(1.0 - n_z * n_z, 0.0)).sum(axis=0, dtype=np.float64)
    return each * walls, each * n_z.sum(axis=0, dtype=np.float64)


def _prices(amounts: np.ndarray, wanted: np.ndarray) -> np.ndarray:
    """Least squares of relative errors with coefficients that are not negative.

    By turns, each coefficient at its best for the others, which comes to the least of all since the
    sum of squares is convex (coordinate descent; MEM).
    """
    scale = np.maximum(np.abs(amounts).max(axis=0), 1e-12)
    weight = 1.0 / np.maximum(wanted, 1e-3 * max(float(wanted.max()), 1e-9))
    a, b = amounts / scale * weight[:, None], wanted * weight
    squares, products, goal = (a * a).sum(axis=0), a.T @ a, a.T @ b
    found = np.zeros(a.shape[1])
    for _ in range(_STEPS):
        for i in np.flatnonzero(squares > 0):
            rest = goal[i] - products[i] @ found + squares[i] * found[i]
            found[i] = max(rest / squares[i], 0.0)
    return found / scale
