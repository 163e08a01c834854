"""One sentence that says why a direction is worth a look, in the user's words."""

import numpy as np

from viewer.geometry.direction_table import DirectionTable
from viewer.words import say, written

_NOTHING_MM2 = 0.01
_NOTHING_MM3 = 0.5


def why_this_pose(table: DirectionTable, row: int, among: np.ndarray) -> str:
    """What supports, terraces and the platform do to the side that shows, and what it costs.

    row : of the table; among : (d,) bool, the directions it is compared with
    """
    values = table.row(row)
    clauses = [*_marks(table, values), *_terraces(table, values), *_platform(table, values)]
    clauses += [_support(table, values, among), *_layers(table, values, among)]
    if table.flat_standing[row]:
        clauses.append(say("stands on a flat face"))
    sentence = "; ".join(clause for clause in clauses if clause)
    return sentence[:1].upper() + sentence[1:] + "."


def with_time(sentence: str, more_s: float) -> str:
    """The sentence with what the pose takes longer than the quickest one beside it."""
    minutes = round(more_s / 60)
    hours, rest = divmod(minutes, 60)
    clause = say("the quickest of these")
    if hours:
        clause = say(
            "{hours} h {minutes:02d} min longer than the quickest of these",
            hours=hours,
            minutes=rest,
        )
    elif minutes:
        clause = say("{minutes} min longer than the quickest of these", minutes=minutes)
    return f"{sentence.removesuffix('.')}; {clause}."


def share_text(area_mm2: float, whole_mm2: float) -> str:
    """An area as a share of a class: "3 %", or in mm² where that would read 0 %."""
    if area_mm2 >= 0.01 * whole_mm2:
        return f"{written(100 * area_mm2 / whole_mm2, '.0f')} %"
    return f"{written(area_mm2, ',.1f' if area_mm2 < 100 else ',.0f')} mm²"


def _shown(table: DirectionTable) -> list[tuple[str, str, float]]:
    """The classes that show: letter, name, area; the whole part where nothing is marked."""
    area = table.area_mm2
    found = [("a", "A", area.A), ("b", "B", area.B)]
    marked = [entry for entry in found if entry[2] > 0]
    return marked or [("", say("the part"), area.total)]


def _marks(table: DirectionTable, values: dict[str, float]) -> list[str]:
    clauses = []
    for letter, name, whole in _shown(table):
        touch = values.get(f"touch_{letter}_mm2" if letter else "touch_mm2", 0.0)
        landing = values.get(f"landing_{letter}_mm2" if letter else "landing_part_mm2", 0.0)
        if touch <= _NOTHING_MM2 and landing <= _NOTHING_MM2:
            clauses.append(say("no support touches {name}", name=name))
        elif touch <= _NOTHING_MM2:
            clauses.append(
                say("no support touches {name} but {share} bear some",
                    name=name, share=share_text(landing, whole))
            )  # fmt: skip
        elif landing <= _NOTHING_MM2:
            clauses.append(
                say("supports touch {share} of {name}", name=name, share=share_text(touch, whole))
            )
        else:
            clauses.append(
                say("supports touch {share} of {name} and stand on {landing}", name=name,
                    share=share_text(touch, whole), landing=share_text(landing, whole))
            )  # fmt: skip
        graze = values.get(f"graze_{letter}_mm2" if letter else "graze_mm2", 0.0)
        if graze > _NOTHING_MM2:
            clauses.append(
                say("they pass close to {share} of {name}",
                    share=share_text(graze, whole), name=name)
            )  # fmt: skip
    return clauses


def _terraces(table: DirectionTable, values: dict[str, float]) -> list[str]:
    clauses = []
    for letter, name, whole in _shown(table)[:1]:
        area = values.get(f"terrace_{letter}_mm2" if letter else "terrace_mm2", 0.0)
        if area <= _NOTHING_MM2:
            clauses.append(say("no terraces wider than a road on {name}", name=name))
        else:
            clauses.append(
                say("terraces wider than a road on {share} of {name}",
                    share=share_text(area, whole), name=name)
            )  # fmt: skip
    return clauses


def _platform(table: DirectionTable, values: dict[str, float]) -> list[str]:
    area = values.get("platform_a_mm2", 0.0)
    if not table.area_mm2.A or area <= _NOTHING_MM2:
        return []
    share = share_text(area, table.area_mm2.A)
    return [say("{share} of A lies on the platform", share=share)]


def _support(table: DirectionTable, values: dict[str, float], among: np.ndarray) -> str:
    volume = values.get("support_volume_mm3", 0.0)
    if volume <= _NOTHING_MM3:
        touches = values.get("touch_mm2", 0.0) > _NOTHING_MM2
        return say("hardly any support") if touches else say("no support at all")
    least = _least(table, "support_volume_mm3", among, volume)
    if volume <= 1.01 * least:
        return say("{volume} of support, the least of all", volume=_volume_text(volume))
    return say(
        "{volume} of support, {more} more than the least",
        volume=_volume_text(volume),
        more=_volume_text(volume - least),
    )


def _layers(table: DirectionTable, values: dict[str, float], among: np.ndarray) -> list[str]:
    height = values.get("height_mm", 0.0)
    more = round((height - _least(table, "height_mm", among, height)) / table.layer_mm)
    if more <= 0:
        return [say("the fewest layers of all")]
    if more == 1:
        return [say("1 layer more than the lowest")]
    return [say("{more:,} layers more than the lowest", more=more)]


def _least(table: DirectionTable, key: str, among: np.ndarray, at_most: float) -> float:
    column = table.column(key)[among]
    column = column[np.isfinite(column)]
    return min(float(column.min()), at_most) if len(column) else at_most


def _volume_text(volume_mm3: float) -> str:
    if volume_mm3 >= 995:
        return f"{written(volume_mm3 / 1000, ',.1f')} cm³"
    return f"{written(volume_mm3, '.0f' if volume_mm3 >= 9.5 else '.1f')} mm³"
