"""Check the best directions of a search by the full tier, so that the pick hangs on no estimate."""

from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from functools import partial
from typing import NamedTuple

import numpy as np

from viewer.geometry.direction_search import THREADS, SearchRequest
from viewer.geometry.direction_table import COLUMN, ERROR_COLUMN, DirectionTable, frozen_table
from viewer.geometry.hard_limits import limits_left
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.pose import Pose
from viewer.geometry.pose_measures import PoseMeasures
from viewer.geometry.ranking import rank_directions
from viewer.progress import Progress

CHECKED_BY_SCORE = 10  # the first by score, besides the distinct poses of the shortlist


class CheckedTable(NamedTuple):
    """A table with some rows measured by the full tier, and their measures by row."""

    table: DirectionTable
    measures: dict[int, PoseMeasures]


def check_best(
    asked: SearchRequest,
    table: DirectionTable,
    keep: int,
    progress: Progress | None = None,
    by_score: int = CHECKED_BY_SCORE,
) -> Iterator[CheckedTable]:
    """Measure the best directions by the full tier, and yield after every few.

    The best are the first `by_score` and the shortlist of `keep` poses; what turns out worse makes
    room for the next, until all of the shortlist are checked. Raises Cancelled.
    """
    progress = progress or Progress()
    values, checked = table.values.copy(), table.checked.copy()
    table = replace(table, values=values, checked=checked)
    found: dict[int, PoseMeasures] = {}
    most = 3 * keep + by_score
    asked.part.get_ready(progress)  # else each thread made its own
    quiet = Progress()  # threads do not report, but hear a cancel
    quiet.stop_flag = progress.stop_flag
    with ThreadPoolExecutor(THREADS, "checking") as pool:
        waiting = _unchecked(asked, table, keep, by_score)
        while waiting and len(found) < most:
            progress.report(len(found) / most, "Checking the best poses")
            some = waiting[:THREADS]
            answers = pool.map(partial(measure_row, asked, table, progress=quiet), some)
            for row, measures in zip(some, answers, strict=True):
                found[row] = measures
                values[row], checked[row] = values_of(measures, values[row]), True
                if asked.further is not None:
                    for key, value in asked.further.of_pose(measures).items():
                        values[row, COLUMN[key]] = value
            yield CheckedTable(frozen_table(table, 1.0), dict(found))
            waiting = _unchecked(asked, table, keep, by_score)
    if not found:
        yield CheckedTable(frozen_table(table, 1.0), found)


def measure_row(
    asked: SearchRequest, table: DirectionTable, row: int, progress: Progress
) -> PoseMeasures:
    """One direction of a table by the full tier."""
    pose = Pose(tuple(float(x) for x in table.directions[row]))
    return measure_pose(asked.part, asked.face_classes, pose, asked.settings, "full", progress)


def _unchecked(asked: SearchRequest, table: DirectionTable, keep: int, by_score: int) -> list[int]:
    """Rows still to be measured, best first."""
    limits = limits_left(table, asked.limits)
    ranking = rank_directions(table, asked.weights, limits, keep)
    wanted = [pose.index for pose in ranking.poses]
    wanted += [int(row) for row in ranking.best_first[:by_score] if row not in wanted]
    return [row for row in wanted if not table.checked[row]]


def values_of(measures: PoseMeasures, row: np.ndarray) -> np.ndarray:
    """(k,) float64: a row of the table from the full tier; what that does not tell stays."""
    row, nothing = row.copy(), float("nan")
    contact, landing = measures.platform_contact_mm2, measures.landing_area_mm2
    tip, supported = measures.tip_angle_deg, measures.tip_angle_supported_deg
    known = {
        "touch_a_mm2": measures.touch_area_mm2.A,
        "touch_b_mm2": measures.touch_area_mm2.B,
        "touch_mm2": measures.touch_area_mm2.total,
        "landing_a_mm2": landing.A,
        "landing_b_mm2": landing.B,
        "landing_part_mm2": landing.A + landing.B + landing.unmarked,
        "graze_a_mm2": measures.graze_area_mm2.A,
        "graze_b_mm2": measures.graze_area_mm2.B,
        "graze_mm2": measures.graze_area_mm2.total,
        "terrace_a_mm2": measures.terrace_visible_area_mm2.A,
        "terrace_b_mm2": measures.terrace_visible_area_mm2.B,
        "terrace_mm2": measures.terrace_visible_area_mm2.total,
        "cusp_a_mm": measures.cusp_mean_mm.A,
        "cusp_b_mm": measures.cusp_mean_mm.B,
        "platform_a_mm2": contact.A,
        "platform_b_mm2": contact.B,
        "platform_mm2": contact.total,
        "support_volume_mm3": measures.support_volume_mm3,
        "unreachable_mm3": measures.unreachable_support_mm3,
        "supported_mm": measures.profile.layer_mm
        * np.count_nonzero(measures.profile.support_area_mm2 > 0),
        "height_mm": measures.height_mm,
        "tip_angle_deg": nothing if tip is None else tip,
        "tip_supported_deg": nothing if supported is None else supported,
    }
    for key, value in known.items():
        row[COLUMN[key]] = value
    error = measures.error["graze_area_mm2"]
    row[list(ERROR_COLUMN.values())] = error.A, error.B, error.total
    return row
