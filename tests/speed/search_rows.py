"""Rows of the speed table for the search of every direction: first table, whole, ranking."""

import time
from typing import Any

import numpy as np

from tests.speed.timing import row, seconds
from viewer.geometry.aims import SHOW_SIDE
from viewer.geometry.check_directions import check_best
from viewer.geometry.direction_search import SearchRequest, search_directions
from viewer.geometry.hard_limits import LIMIT_KEYS
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.ranking import KEPT, rank_directions

CORES = 2  # the limits are for two of them; processor time counts what both spend
FIRST_S, WHOLE_S, CHECK_S, RANK_S = 1.0 * CORES, 10.0 * CORES, 10.0 * CORES, 0.1


def _request(case: Any) -> SearchRequest:
    """Of a part that nothing was worked out for yet."""
    part = prepare_part(case.part.mesh)
    return SearchRequest(part, case.classes, PrintSettings(), platform_mm=(220, 220, 250))


def search(case: Any) -> list[dict]:
    """Processor time of all threads, for 2,562 directions; limits are the goal's on two cores."""
    asked = _request(case)
    first_s = seconds(lambda: next(search_directions(asked)), 2)  # the first compiles
    start = time.process_time()
    *_, table = search_directions(asked)
    whole_s = time.process_time() - start
    start = time.process_time()
    *_, checked = check_best(asked, table, KEPT)
    check_s = time.process_time() - start
    weights = dict(SHOW_SIDE.weights)
    rank_s = seconds(lambda: rank_directions(checked.table, weights, LIMIT_KEYS), 3)
    assert np.isfinite(table.column("support_volume_mm3")).all()
    faces = case.part.mesh.face_count
    return [
        row("search, first table", faces, first_s, "limit", FIRST_S, 1),
        row("search, whole", faces, whole_s, "limit", WHOLE_S, 1),
        row("search, best checked", faces, check_s, "limit", CHECK_S, 1),
        row("search, slider moved", faces, rank_s, "limit", RANK_S, 1),
    ]
