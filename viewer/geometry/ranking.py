"""Rank the directions of a table: within the limits, on the Pareto front, distinct, best first.

A direction is on the front if no other allowed one is at least as good in all that matters and
better in some of it. Ranking never measures anything, so a slider takes effect at once.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

import numpy as np

from viewer.geometry.aims import AIM_KEYS, SHOW_SIDE, costs, scores
from viewer.geometry.direction_table import DirectionTable
from viewer.geometry.hard_limits import LIMIT_KEYS, Cut, CutDirections, InTheWay, cut_directions
from viewer.geometry.pose_words import why_this_pose, with_time
from viewer.geometry.sphere_directions import angles_deg

DISTINCT_DEG = 15.0
KEPT = 8


class RankedPose(NamedTuple):
    """One pose of the shortlist.

    index : row of the table; up : unit vector in part coordinates; score : 0 to 100
    why : one sentence
    """

    index: int
    up: tuple[float, float, float]
    score: float
    flat_standing: bool
    checked: bool
    why: str


@dataclass(frozen=True, eq=False)
class Ranking:
    """The order of a table's directions for given sliders and limits.

    score : (d,) float64, 0 to 100, of every measured direction, cut or not; NaN where not measured
    cut : what the limits leave, see CutDirections; allowed : (d,) bool
    poses : distinct poses on the Pareto front, best first; empty if nothing is left
    """

    table: DirectionTable
    weights: Mapping[str, float]
    score: np.ndarray
    cut: CutDirections
    poses: tuple[RankedPose, ...]

    @property
    def allowed(self) -> np.ndarray:
        """(d,) bool: within every limit."""
        return self.cut.allowed

    @property
    def cuts(self) -> tuple[Cut, ...]:
        """How many directions each limit removes."""
        return self.cut.cuts

    @property
    def in_the_way(self) -> tuple[InTheWay, ...]:
        """Which limit keeps everything out, and by how much; empty if something is left."""
        return self.cut.in_the_way

    @cached_property
    def best_first(self) -> np.ndarray:
        """(a,) int64: rows of all allowed directions by score."""
        rows = np.flatnonzero(self.allowed & np.isfinite(self.score))
        return rows[np.argsort(-self.score[rows], kind="stable")]

    @cached_property
    def front(self) -> np.ndarray:
        """(d,) bool: on the Pareto front; worked out when first asked for."""
        found = np.zeros(len(self.table), bool)
        used = _used_costs(self.table, self.weights)
        rows = self.best_first
        for row in rows:
            found[row] = not _dominated(used[row], used[rows])
        return found


def rank_directions(
    table: DirectionTable,
    weights: Mapping[str, float] = SHOW_SIDE.weights,
    limits: tuple[str, ...] = LIMIT_KEYS,
    keep: int = KEPT,
) -> Ranking:
    """Rank all measured directions.

    weights : position of each slider by its key in AIM_KEYS; limits : keys of HARD_LIMITS in force
    keep : how many distinct poses at most
    """
    every = costs(table)
    score = scores(every, weights)
    cut = cut_directions(table, limits)
    ranking = Ranking(table, dict(weights), score, cut, ())
    used = every[:, _used(weights, every)]
    chosen: list[int] = []
    rows = ranking.best_first
    free = np.ones(len(table), bool)
    for row in rows:
        if len(chosen) >= keep:
            break
        if not free[row] or _dominated(used[row], used[rows]):
            continue
        chosen.append(int(row))
        free &= angles_deg(table.directions, table.directions[row]) >= DISTINCT_DEG
    poses = tuple(
        RankedPose(
            row,
            tuple(float(x) + 0.0 for x in table.directions[row]),  # never −0
            float(score[row]),
            bool(table.flat_standing[row]),
            bool(table.checked[row]),
            why_this_pose(table, row, cut.allowed),
        )
        for row in chosen
    )
    return Ranking(table, dict(weights), score, cut, _with_times(table, poses))


def _used(weights: Mapping[str, float], every: np.ndarray) -> np.ndarray:
    known = np.isfinite(every).any(axis=0)  # time is not, where there is no shop
    used = np.array([weights.get(key, 0.0) > 0 for key in AIM_KEYS]) & known
    return used if used.any() else known


def _used_costs(table: DirectionTable, weights: Mapping[str, float]) -> np.ndarray:
    every = costs(table)
    return every[:, _used(weights, every)]


def _with_times(table: DirectionTable, poses: tuple[RankedPose, ...]) -> tuple[RankedPose, ...]:
    """Each sentence with what the pose takes longer, once all of them are measured in full."""
    times = table.column("time_min")[[pose.index for pose in poses]]
    if len(poses) < 2 or not (np.isfinite(times).all() and all(pose.checked for pose in poses)):
        return poses
    more_s = 60.0 * (times - times.min())
    return tuple(
        pose._replace(why=with_time(pose.why, float(more)))
        for pose, more in zip(poses, more_s, strict=True)
    )


def _dominated(cost: np.ndarray, others: np.ndarray) -> bool:
    """Whether one of (k, n) others is as good in everything and better in something."""
    as_good = (others <= cost).all(axis=1)
    return bool((others[as_good] < cost).any())
