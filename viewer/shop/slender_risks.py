"""Risks of what is slender: thin tall walls, and columns of a flexible material.

Whole sections are looked at in every layer, their islands at some heights (`section_islands`).
"""

import numpy as np

from viewer.shop.looked import Looked, Risk, heights_mm, in_part_of_turned, runs_of
from viewer.shop.slender import Slender, slender_runs
from viewer.words import say

THIN_ROADS = 8.0  # a wall of fewer roads is thin
TALL_WALL = 15.0  # height of a thin wall over its thickness
SLENDER_MM = (3.0, 5.0, 8.0, 12.0, 20.0, 30.0)
WOBBLE = 5.0  # length of a flexible column over its thickness
BRACE_AT = 0.6  # of the way up such a column
MOST_FINGERS = 5
MOSTLY = 0.6  # of its height: what is told of so much is told


def thin_walls(looked: Looked) -> list[Risk]:
    """Thin tall walls. A strip of thickness d has area d·L and perimeter 2·L: d = 2·A/P (CALC)."""
    profile = looked.measures.profile
    there = profile.area_mm2 > 1e-6
    thick = 2.0 * profile.area_mm2 / np.maximum(profile.perimeter_mm, 1e-9)
    found = []
    for first, end in runs_of(there & (thick < THIN_ROADS * looked.settings.road_mm)):
        mean = float(thick[first:end].mean())
        tall = (end - first) * profile.layer_mm
        if tall > TALL_WALL * mean:
            reason = say(
                "{tall:.0f} mm of walls that are {mean:.1f} mm thick on average; they sway and "
                "show it.",
                tall=tall,
                mean=mean,
            )
            serious = tall > 3 * TALL_WALL * mean
            found.append(Risk("thin_walls", serious, reason, *heights_mm(profile, first, end)))
    return found + _thin_islands(looked, found)


def _thin_islands(looked: Looked, told: list[Risk]) -> list[Risk]:
    """Thin fingers and walls that stand beside other parts of their layers."""
    islands, found = looked.measures.profile.section_islands, []
    thin = THIN_ROADS * looked.settings.road_mm
    for each in slender_runs(islands, islands.thickness_mm(), thin):
        tall = each.to_mm - each.from_mm
        if tall <= TALL_WALL * each.thick_mm or _is_told(each, told):
            continue
        reason = say(
            "{tall:.0f} mm of a finger or wall that is {mean:.1f} mm thick on average beside other "
            "parts of its layers; it sways and shows it.",
            tall=tall,
            mean=each.thick_mm,
        )
        serious = tall > 3 * TALL_WALL * each.thick_mm
        place = in_part_of_turned(looked, each.places_mm[-1])
        found.append(
            Risk("thin_walls", serious, reason, each.from_mm, each.to_mm, place, each.thick_mm)
        )
    return sorted(found, key=lambda risk: (risk.from_mm - risk.to_mm) / risk.thick_mm)[
        :MOST_FINGERS
    ]


def _is_told(each: Slender, told: list[Risk]) -> bool:
    """Whether it is all that is there, or as good as all of its heights is told already."""
    tall = each.to_mm - each.from_mm
    over = (min(each.to_mm, risk.to_mm) - max(each.from_mm, risk.from_mm) for risk in told)
    return each.alone or any(share > MOSTLY * tall for share in over)


def wobble(looked: Looked) -> list[Risk]:
    """Columns of a flexible material, the thinnest first.

    They are as thick as a circle as large as the section.
    """
    if not looked.materials.model.flexible:
        return []
    profile = looked.measures.profile
    across = 2.0 * np.sqrt(profile.area_mm2 / np.pi)
    there, taken = profile.area_mm2 > 1e-6, np.zeros(len(across), bool)
    found = []
    for limit in SLENDER_MM:
        for first, end in runs_of(there & (across <= limit)):
            length = (end - first) * profile.layer_mm
            if length < WOBBLE * limit or taken[first:end].any():
                continue
            taken[first:end] = True
            low, high = heights_mm(profile, first, end)
            brace = low + BRACE_AT * (high - low)
            reason = say(
                "{name} is flexible, and {length:.0f} mm are at most {limit:g} mm thick: it "
                "wobbles under the nozzle. A brace at about {brace:.0f} mm would help.",
                name=looked.materials.model.name,
                length=length,
                limit=limit,
                brace=brace,
            )
            place = _middle_of_section(looked, brace)
            found.append(Risk("wobble", length > 2 * WOBBLE * limit, reason, low, high, place))
    return found + _wobbling_islands(looked, found)


def _wobbling_islands(looked: Looked, told: list[Risk]) -> list[Risk]:
    """Thin columns that stand beside other parts of their layers, the thinnest first."""
    islands, found = looked.measures.profile.section_islands, []
    across = 2.0 * np.sqrt(islands.area_mm2 / np.pi)
    for limit in SLENDER_MM:
        for each in slender_runs(islands, across, limit):
            length = each.to_mm - each.from_mm
            if length < WOBBLE * limit or _is_told(each, told + found):
                continue
            places = each.places_mm
            brace = places[min(int(BRACE_AT * len(places)), len(places) - 1)]
            reason = say(
                "{name} is flexible, and a column beside other parts of its layers is {length:.0f} "
                "mm long and at most {limit:g} mm thick: it wobbles under the nozzle. A brace at "
                "about {brace:.0f} mm would help.",
                name=looked.materials.model.name,
                length=length,
                limit=limit,
                brace=brace[2],
            )
            place = in_part_of_turned(looked, brace)
            serious = length > 2 * WOBBLE * limit
            found.append(
                Risk("wobble", serious, reason, each.from_mm, each.to_mm, place, each.thick_mm)
            )
    return found[:MOST_FINGERS]


def _middle_of_section(looked: Looked, height_mm: float) -> tuple[float, float, float] | None:
    """Centroid of the section at a height, in part coordinates: where a brace would hold it."""
    profile = looked.measures.profile
    layer = min(int(height_mm / profile.layer_mm), len(profile.area_mm2) - 1)
    x, y = profile.moment_mm3[layer] / max(profile.area_mm2[layer], 1e-9)
    return in_part_of_turned(looked, (x, y, height_mm))
