"""PoseMeasures as rows of text for the numbers panel; a pure function, no widget.

Each row belongs to one measure: its name, unit, explanation, and one cell for each class. A cell
holds the value, its standard error where one is known, and the difference to the pinned pose.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import NamedTuple

from viewer.geometry.pose_measures import Landing, PoseMeasures
from viewer.window.quantities import difference_text, error_text, number_text
from viewer.words import say, written

COLUMNS = ("A", "B", "unmarked", "total")
WIDEST_BY_CLASS, WIDEST_WHOLE = 9_999.5, 99_999.5  # from here on larger units, so that it fits


@dataclass(frozen=True)
class Cell:
    """One number as text; `error` and `difference` are "" where there is none.

    `value` is "" for a number that only the full tier works out; the old one stays on the screen.
    """

    value: str
    error: str = ""
    difference: str = ""


@dataclass(frozen=True)
class Row:
    """One measure: cells by column name ("A", "B", "unmarked", "total" or "whole").

    `shown` is False for a measure that says nothing here (nothing is bridged).
    """

    key: str
    name: str
    unit: str
    explanation: str
    cells: dict[str, Cell]
    shown: bool = True


@dataclass(frozen=True)
class _Measure:
    key: str
    name: str
    unit: str
    explanation: str
    read: Callable[[PoseMeasures], object]
    only_if_any: bool = False
    at_rest: bool = False  # the quick tier does not work it out


def _field(key: str) -> Callable[[PoseMeasures], object]:
    return lambda measures: getattr(measures, key)


class _Scale(NamedTuple):
    unit: str
    factor: float


BY_CLASS = (
    _Measure(
        "touch_area_mm2",
        "Touch",
        "mm²",
        "Underside of the part that supports bear against; it comes out rough.",
        _field("touch_area_mm2"),
    ),
    _Measure(
        "landing_area_mm2",
        "Landing on the part",
        "mm²",
        "Part surface on which supports stand; each leaves a mark when it is taken off.",
        _field("landing_area_mm2"),
    ),
    _Measure(
        "graze_area_mm2",
        "Graze",
        "mm²",
        "Surface a support stands closer to than the clearance, so that it marks too.",
        _field("graze_area_mm2"),
    ),
    _Measure(
        "touch_short_mm2",
        "Touch over short gaps",
        "mm²",
        "Touch over gaps of less than half a layer, which hardly any support fits into.",
        _field("touch_short_mm2"),
        only_if_any=True,
    ),
    _Measure(
        "bridged_area_mm2",
        "Bridged",
        "mm²",
        "Undersides that span from wall to wall within the bridge limit and need no support.",
        _field("bridged_area_mm2"),
        only_if_any=True,
    ),
    _Measure(
        "overhang_area_mm2",
        "Overhang",
        "mm²",
        "Undersides flatter than the support limit, measured from horizontal.",
        _field("overhang_area_mm2"),
    ),
    _Measure(
        "terrace_visible_area_mm2",
        "Wide terraces",
        "mm²",
        "Surface whose layer steps are wider than one road, or than what trials say shows.",
        _field("terrace_visible_area_mm2"),
    ),
    _Measure(
        "terrace_mean_width_mm",
        "Terrace width, mean",
        "mm",
        "How far one layer step runs: layer height divided by the tangent of the inclination.",
        _field("terrace_mean_width_mm"),
    ),
    _Measure(
        "cusp_mean_mm",
        "Cusp height, mean",
        "mm",
        "How far the layer steps stand off the true surface.",
        _field("cusp_mean_mm"),
    ),
    _Measure(
        "ra_ideal_um",
        "Ra of ideal stairs, mean",
        "µm",
        "Arithmetic roughness of a sharp staircase, t·cos α / 4, over surface that steps.",
        _field("ra_ideal_um"),
        at_rest=True,
    ),
    _Measure(
        "ra_estimate_um",
        "Ra estimated, mean",
        "µm",
        "Estimate by the model of Pandey, Reddy and Dhande 2003, fitted to printed samples; rough.",
        _field("ra_estimate_um"),
        at_rest=True,
    ),
    _Measure(
        "flat_off_grid_mm2",
        "Flats off the layer grid",
        "mm²",
        "Level faces whose height is no whole number of layers; they come out at the nearest one.",
        _field("flat_off_grid_mm2"),
        only_if_any=True,
        at_rest=True,
    ),
    _Measure(
        "platform_contact_mm2",
        "On the platform",
        "mm²",
        "Faces that lie flat on the build platform; they take on its finish.",
        _field("platform_contact_mm2"),
    ),
)
WHOLE = (
    _Measure(
        "support_volume_mm3",
        "Support volume",
        "mm³",
        "Room between overhangs and what lies below them, taken as straight upright columns.",
        _field("support_volume_mm3"),
    ),
    _Measure(
        "landing_platform",
        "Support on the platform",
        "mm²",
        "Platform area on which supports stand.",
        lambda measures: measures.landing_area_mm2.platform,
    ),
    _Measure(
        "islands",
        "Islands",
        "",
        "Places where a layer starts in mid-air, however steep the surface is there.",
        _field("islands"),
        at_rest=True,
    ),
    _Measure(
        "island_support_mm3",
        "Support under islands",
        "mm³",
        "What stands under islands; under level ones it is part of the support volume, too.",
        _field("island_support_mm3"),
        only_if_any=True,
        at_rest=True,
    ),
    _Measure(
        "unreachable_support_mm3",
        "Unreachable support",
        "mm³",
        "Support that no straight way out of the part leads to; it cannot be broken out.",
        _field("unreachable_support_mm3"),
        only_if_any=True,
        at_rest=True,
    ),
    _Measure(
        "sealed_support_mm3",
        "Sealed support",
        "mm³",
        "Support in a closed hollow: it stays inside for good, whatever it is made of.",
        _field("sealed_support_mm3"),
        only_if_any=True,
        at_rest=True,
    ),
    _Measure(
        "must_dissolve_mm3",
        "Must dissolve",
        "mm³",
        "Unreachable support that is not sealed: only a soluble material comes out of there.",
        lambda measures: must_dissolve_mm3(measures),
        only_if_any=True,
        at_rest=True,
    ),
    _Measure(
        "height_mm", "Height", "mm", "Height of the part above the platform.", _field("height_mm")
    ),
    _Measure(
        "layers", "Layers", "", "Number of layers at the chosen layer height.", _field("layers")
    ),
    _Measure(
        "first_layer_mm2",
        "First layer",
        "mm²",
        "Section of the part at half the first layer: what holds it to the platform.",
        _field("first_layer_mm2"),
    ),
    _Measure(
        "tip_angle_deg",
        "Tip angle",
        "°",
        "How far the part alone could be tilted before it falls over; below 0 it falls by itself.",
        _field("tip_angle_deg"),
    ),
    _Measure(
        "tip_angle_supported_deg",
        "Tip angle with supports",
        "°",
        "The same for part and supports together, supports at a fifth of the part's density.",
        _field("tip_angle_supported_deg"),
        at_rest=True,
    ),
    _Measure(
        "tip_angle_worst_deg",
        "Tip angle, least",
        "°",
        "The smallest tip angle of what is printed so far, supports included.",
        _field("tip_angle_worst_deg"),
        at_rest=True,
    ),
    _Measure(
        "tip_angle_worst_mm",
        "Least at a height of",
        "mm",
        "Height printed when the tip angle is smallest.",
        _field("tip_angle_worst_mm"),
        at_rest=True,
    ),
)


def must_dissolve_mm3(measures: PoseMeasures) -> float | None:
    """Unreachable support that is not sealed, None where neither was looked for."""
    if measures.unreachable_support_mm3 is None:
        return None
    return max(measures.unreachable_support_mm3 - measures.sealed_support_mm3, 0.0)


def number_rows(measures: PoseMeasures, pinned: PoseMeasures | None) -> tuple[Row, ...]:
    """All rows for `measures`, with differences to `pinned` where it is given."""
    rows = [_by_class_row(one, measures, pinned) for one in BY_CLASS]
    rows += [_whole_row(one, measures, pinned) for one in WHOLE]
    if all(cell.difference in ("", "=") for row in rows for cell in row.cells.values()):
        rows = [_without_differences(row) for row in rows]  # the pinned pose itself
    return tuple(rows)


def _without_differences(row: Row) -> Row:
    cells = {column: replace(cell, difference="") for column, cell in row.cells.items()}
    return replace(row, cells=cells)


def _by_class_row(one: _Measure, measures: PoseMeasures, pinned: PoseMeasures | None) -> Row:
    values, errors = one.read(measures), measures.error.get(one.key)
    before = one.read(pinned) if pinned is not None else None
    scale = _scale(one.unit, on_part(values, "total"), WIDEST_BY_CLASS)
    cells = {
        column: _cell(
            on_part(values, column), on_part(errors, column), on_part(before, column), scale
        )
        for column in COLUMNS
    }
    shown = not one.only_if_any or any(
        part is not None and part.total > 0 for part in (values, before)
    )
    return Row(one.key, say(one.name), scale.unit, say(one.explanation), cells, shown)


def on_part(values: object, column: str) -> float | None:
    """One class of a measure; the total of a Landing is taken without the platform."""
    if values is None:
        return None
    if isinstance(values, Landing) and column == "total":
        return values.A + values.B + values.unmarked
    return getattr(values, column)


def _whole_row(one: _Measure, measures: PoseMeasures, pinned: PoseMeasures | None) -> Row:
    value, error = one.read(measures), measures.error.get(one.key)
    before = one.read(pinned) if pinned is not None else None
    scale = _scale(one.unit, value, WIDEST_WHOLE)
    if value is None:
        cell = Cell("" if one.at_rest and measures.tier == "quick" else "–")
    elif isinstance(value, int):
        gap = "" if before is None else written(value - before, "+,d").replace("-", "−")
        cell = Cell(written(value, ",d"), "", "=" if gap == "+0" else gap)
    else:
        cell = _cell(value, error, before, scale)
    shown = not one.only_if_any or any((number or 0) > 0 for number in (value, before))
    return Row(one.key, say(one.name), scale.unit, say(one.explanation), {"whole": cell}, shown)


def _scale(unit: str, value: float | None, widest: float) -> _Scale:
    """mm² and mm³, or cm² and cm³ for a row whose largest number would not fit."""
    per_larger = {"mm²": ("cm²", 0.01), "mm³": ("cm³", 0.001)}.get(unit)
    if per_larger is None or value is None or abs(value) < widest:
        return _Scale(unit, 1.0)
    return _Scale(*per_larger)


def _cell(value: float | None, error: float | None, before: float | None, scale: _Scale) -> Cell:
    if value is None:
        return Cell("")
    value = value * scale.factor
    return Cell(
        number_text(value),
        error_text(error * scale.factor, value) if error is not None else "",
        difference_text(value, before * scale.factor) if before is not None else "",
    )
