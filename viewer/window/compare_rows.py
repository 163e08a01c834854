"""The numbers of several poses as rows of text: each beside the first, told better or worse.

A pure function, no widget. "Better" is said only where the difference is more than twice its
standard error; below that the poses are alike.
"""

from dataclasses import dataclass
from enum import Enum
from math import hypot

import numpy as np

from viewer.geometry.pose_measures import PoseMeasures
from viewer.window.number_rows import BY_CLASS, COLUMNS, WHOLE, number_rows, on_part
from viewer.words import later, say

# More is better for these and says nothing by itself for those; less is better for all others.
# What decides most often stands first; the rest follows as in the numbers panel.
FIRST = (
    "touch_area_mm2",
    "landing_area_mm2",
    "support_volume_mm3",
    "terrace_visible_area_mm2",
    "islands",
    "tip_angle_deg",
    "height_mm",
)
MORE_IS_BETTER = ("tip_angle_deg", "tip_angle_supported_deg", "tip_angle_worst_deg")
NEITHER = (
    "height_mm",
    "layers",
    "first_layer_mm2",
    "platform_contact_mm2",
    "bridged_area_mm2",
    "landing_platform",
    "tip_angle_worst_mm",
)
BETTER, WORSE, SAME = later("better"), later("worse"), later("alike")
SIGNS = {BETTER: "✓", WORSE: "✗", SAME: "≈", "": ""}
ERRORS = 2.0  # a difference of twice its standard error is one; common practice


class Size(Enum):
    """How much a cell says: with words, with signs instead, or without the unit as well."""

    FULL = "full"
    SIGNS = "signs"
    BARE = "bare"


@dataclass(frozen=True)
class CompareCell:
    """One number of one pose; `difference` and `verdict` are "" for the first pose.

    unit : of `value`, "" for none; verdict : "better", "worse", "alike", "" where neither is meant
    """

    number: str
    unit: str = ""
    error: str = ""
    difference: str = ""
    verdict: str = ""

    @property
    def value(self) -> str:
        """The number with its unit."""
        return f"{self.number}{'' if self.unit == '°' else ' '}{self.unit}".strip()

    def text(self, size: Size = Size.FULL) -> str:
        """In one line, as it stands in the table."""
        value = self.number if size is Size.BARE else self.value
        if not self.difference:
            return value
        sign = "" if self.difference == "=" else SIGNS[self.verdict]
        words = say(self.verdict) if size is Size.FULL else ""
        return " ".join(piece for piece in (f"{value}  ", self.difference, sign, words) if piece)


@dataclass(frozen=True)
class CompareRow:
    """One measure of one class; `cells` in the order of the poses, `key` as in `measure --json`.

    bare_name : with the unit, beside cells that leave it out
    """

    key: str
    column: str
    name: str
    bare_name: str
    explanation: str
    cells: tuple[CompareCell, ...]


def compare_rows(
    poses: list[PoseMeasures | None], face_classes: np.ndarray
) -> tuple[CompareRow, ...]:
    """Rows for the poses, compared with the first; None for one that is not measured yet.

    face_classes : (m,) uint8; a class that no face has gets no row
    """
    measured = [one for one in poses if one is not None]
    if not measured:
        return ()
    tables = [
        None if one is None else {row.key: row for row in number_rows(one, poses[0])}
        for one in poses
    ]
    some = next(table for table in tables if table is not None)
    columns = [name for name, number in (("A", 1), ("B", 2)) if (face_classes == number).any()]
    rows = []
    for measure in sorted((*BY_CLASS, *WHOLE), key=_place):
        whole = measure in WHOLE
        for column in ["whole"] if whole else [*columns, "total"]:
            values = [_value(measure, one, column) for one in poses]
            if measure.only_if_any and not any(values):
                continue
            cells = tuple(
                _cell(measure, poses, table, place, column) for place, table in enumerate(tables)
            )
            name = bare = say(measure.name)
            if columns and not whole:
                bare = f"{name}, {column if column in columns else _of(column)}"
                name = f"{name}, {_of(column)}"
            shown = some[measure.key]
            bare = f"{bare}, {shown.unit}" if shown.unit else bare
            rows.append(CompareRow(measure.key, column, name, bare, shown.explanation, cells))
    return tuple(rows)


def _place(measure: object) -> int:
    """Where a measure stands; those that are not among the first keep their order."""
    return FIRST.index(measure.key) if measure.key in FIRST else len(FIRST)


def _of(column: str) -> str:
    return say("all") if column == COLUMNS[-1] else say("class {column}", column=column)


def _value(measure: object, measures: PoseMeasures | None, column: str) -> float | None:
    if measures is None:
        return None
    value = measure.read(measures)
    return value if column == "whole" else on_part(value, column)


def _cell(
    measure: object,
    poses: list[PoseMeasures | None],
    table: dict | None,
    place: int,
    column: str,
) -> CompareCell:
    if table is None:
        return CompareCell("…")
    row = table[measure.key]
    cell = row.cells[column]
    number, unit = (cell.value, row.unit) if cell.value else ("–", "")
    if place == 0 or poses[0] is None:
        return CompareCell(number, unit, cell.error)
    now, before = (_value(measure, poses[k], column) for k in (place, 0))
    if now is None or before is None:
        return CompareCell(number, unit, cell.error)
    difference = cell.difference or "="
    verdict = _verdict(measure.key, column, poses, place)
    return CompareCell(number, unit, cell.error, difference, verdict)


def _verdict(key: str, column: str, poses: list[PoseMeasures | None], place: int) -> str:
    if key in NEITHER:
        return ""
    measure = next(one for one in (*BY_CLASS, *WHOLE) if one.key == key)
    gap = _value(measure, poses[place], column) - _value(measure, poses[0], column)
    errors = [poses[k].error.get(key) for k in (place, 0)]
    if column != "whole":
        errors = [on_part(error, column) for error in errors]
    spread = hypot(*(error or 0.0 for error in errors))
    if gap == 0 or abs(gap) <= ERRORS * spread:
        return SAME
    return BETTER if (gap > 0) == (key in MORE_IS_BETTER) else WORSE
