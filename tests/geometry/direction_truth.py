"""What the full tier says about the directions of a table, for tests of the search."""

import importlib
from dataclasses import replace

import numpy as np

from viewer.geometry.direction_search import SearchRequest
from viewer.geometry.direction_table import COLUMN, DirectionTable
from viewer.geometry.face_pass import pass_over_faces
from viewer.geometry.measure_pose import sample_cells
from viewer.geometry.supports import measure_supports
from viewer.geometry.turned_part import turn_part


def true_table(asked: SearchRequest, table: DirectionTable, rows: np.ndarray) -> DirectionTable:
    """The table with touch, landing, terraces and support volume of `rows` by the full tier.

    These are the very functions that `measure_pose(…, "full")` takes those numbers from; what it
    measures besides is left out, as it would take most of the time. Bridges are switched off.
    """
    part, of = asked.part, COLUMN
    values = table.values.copy()
    cells = sample_cells(part, asked.settings, "full")
    for row in rows:
        turned = turn_part(part.points_mm, table.directions[row])
        under, terraces = pass_over_faces(part, turned, asked.face_classes, asked.settings)
        sums = measure_supports(part, turned, under, asked.face_classes, asked.settings, cells)
        landing = sums.landing_mm2
        values[row, of["support_volume_mm3"]] = sums.volume_mm3
        values[row, of["landing_a_mm2"]], values[row, of["landing_b_mm2"]] = landing.A, landing.B
        values[row, of["landing_part_mm2"]] = landing.A + landing.B + landing.unmarked
        for key, found in (
            ("touch", under.overhang_mm2),
            ("terrace", terraces.visible_area_mm2),
            ("platform", under.platform_contact_mm2),
        ):
            values[row, of[f"{key}_a_mm2"]] = found.A
            values[row, of[f"{key}_b_mm2"]] = found.B
            values[row, of[f"{key}_mm2"]] = found.total
    return replace(table, values=values)


def searched(asked: SearchRequest) -> DirectionTable:
    """The last table of a search."""
    from viewer.geometry.direction_search import search_directions

    *_, last = search_directions(asked)
    return last


def rank_correlation(ours: np.ndarray, theirs: np.ndarray) -> float:
    """Spearman's, by SciPy; its statistics take long to load and are so only where asked for."""
    return float(importlib.import_module("scipy.stats").spearmanr(ours, theirs).statistic)
