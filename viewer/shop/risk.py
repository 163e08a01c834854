"""What may go wrong while a pose is printed, each with its reason and its place.

All limits are common practice, no source; they say where to look, not what will happen.
"""

import numpy as np

from viewer.shop.looked import Looked, Risk, heights_mm, in_part
from viewer.shop.materials import Material
from viewer.shop.slender_risks import thin_walls, wobble
from viewer.words import later, say

SAFE_TIP_DEG = 10.0
SMALL_ISLAND_ROADS = 5.0  # side of an island that hardly sticks
SHRINKS = {"little": later("a little"), "some": later("somewhat"), "much": later("much")}
LIFTING_MM = {"little": 200.0, "some": 120.0, "much": 60.0}  # foot longer than this lifts
SMALL_FOOT_MM2, SLENDER_FOOT = 30.0, 8.0  # height over the side of a square as large as the foot
LONG_IDLE_S = 1200.0
HIGHEST_LAYER = 0.8  # of the nozzle's diameter
MOST_PLACES = 20


def find_risks(looked: Looked) -> tuple[Risk, ...]:
    """All risks, the serious ones first, then from the platform up."""
    found = [
        risk
        for look in (
            _tip_over, thin_walls, _small_islands, _lifting, _unreachable, _small_foot, wobble,
            _ooze, _idle, _limits,
        )
        for risk in look(looked)
    ]  # fmt: skip
    return tuple(sorted(found, key=lambda risk: (not risk.serious, risk.from_mm)))


def _tip_over(looked: Looked) -> list[Risk]:
    measures = looked.measures
    worst, at = measures.tip_angle_worst_deg, measures.tip_angle_worst_mm
    if worst is None:
        return [Risk("tip_over", True, say("Nothing stands on the platform."), 0.0, 0.0)]
    if worst >= SAFE_TIP_DEG:
        return []
    if worst <= 0:
        reason = say(
            "At {at:.1f} mm its weight lies outside its foot, and it falls over by itself.", at=at
        )
    else:
        reason = say(
            "At {at:.1f} mm it tips over when it is tilted by {worst:.1f}°.", at=at, worst=worst
        )
    return [Risk("tip_over", worst <= 3.0, reason, at, at)]


def _small_islands(looked: Looked) -> list[Risk]:
    least = (SMALL_ISLAND_ROADS * looked.settings.road_mm) ** 2
    small = [place for place in looked.measures.island_places or () if place.area_mm2 < least]
    found = [
        Risk(
            "small_island",
            False,
            say(
                "A layer starts in mid-air with {area_mm2:.2f} mm²; that hardly sticks to its "
                "support.",
                area_mm2=place.area_mm2,
            ),
            place.height_mm,
            place.height_mm,
            place.place_mm,
        )
        for place in small[:MOST_PLACES]
    ]
    if len(small) > MOST_PLACES:
        more = small[MOST_PLACES:]
        heights = [place.height_mm for place in more]
        reason = say("{count} more layers start in mid-air with very little.", count=len(more))
        found.append(Risk("small_island", False, reason, min(heights), max(heights)))
    return found


def _lifting(looked: Looked) -> list[Risk]:
    polygon, material = looked.measures.contact_polygon_mm, looked.materials.model
    if polygon is None or len(polygon) < 3 or looked.measures.first_layer_mm2 < 100.0:
        return []
    apart = np.linalg.norm(polygon[:, None] - polygon[None], axis=2)
    length, limit = float(apart.max()), LIFTING_MM[material.warping]
    if length <= limit:
        return []
    middle = polygon.mean(axis=0)
    corner = polygon[np.argmax(np.linalg.norm(polygon - middle, axis=1))]
    shrinks = say(SHRINKS[material.warping])
    reason = say(
        "Its foot is {length:.0f} mm long, and {name} shrinks {shrinks} while it cools: the "
        "corners may lift.",
        length=length,
        name=material.name,
        shrinks=shrinks,
    )
    serious = material.warping == "much" and length > 2 * limit
    return [Risk("lifting", serious, reason, 0.0, 2.0, in_part(looked, (*corner, 0.0)))]


def _unreachable(looked: Looked) -> list[Risk]:
    found = []
    for place in (looked.measures.unreachable_places or ())[:MOST_PLACES]:
        if place.sealed:
            reason = say(
                "{volume_mm3:.0f} mm³ of support are sealed in and stay there.",
                volume_mm3=place.volume_mm3,
            )
        elif not looked.pair.dissolves:
            reason = say(
                "{volume_mm3:.0f} mm³ of support cannot be reached in a straight line; a "
                "support that dissolves would come out.",
                volume_mm3=place.volume_mm3,
            )
        else:
            continue
        found.append(
            Risk("unreachable", True, reason, place.height_mm, place.height_mm, place.place_mm)
        )
    return found


def _small_foot(looked: Looked) -> list[Risk]:
    measures = looked.measures
    foot = measures.first_layer_mm2 + measures.landing_area_mm2.platform
    if foot <= 0:
        return []  # told by tip_over
    slender = measures.height_mm / np.sqrt(foot)
    if foot >= SMALL_FOOT_MM2 and slender <= SLENDER_FOOT:
        return []
    reason = say(
        "{foot:.0f} mm² hold a print of {height_mm:.0f} mm to the platform; a wider rim round "
        "its foot would help.",
        foot=foot,
        height_mm=measures.height_mm,
    )
    return [Risk("small_foot", slender > 2 * SLENDER_FOOT, reason, 0.0, 1.0)]


def _of_supports(looked: Looked) -> list[Material]:
    """The materials that only supports are made of, without repeats."""
    others = {material.name: material for material in looked.materials[1:]}
    others.pop(looked.pair.model, None)
    return list(others.values())


def _ooze(looked: Looked) -> list[Risk]:
    """The support's nozzle waits beside the part in every layer that has both."""
    oozing = [material for material in _of_supports(looked) if "oozes" in material.when_idle]
    profile = looked.measures.profile
    if not oozing or looked.class_a_mm is None:
        return []
    low, high = looked.class_a_mm
    shown = profile.mixed & (profile.z_mm >= low) & (profile.z_mm <= high)
    if not shown.any():
        return []
    first, end = int(np.flatnonzero(shown)[0]), int(np.flatnonzero(shown)[-1]) + 1
    reason = say(
        "{name} oozes while it waits: in {count:,} layers it may leave threads on class A.",
        name=oozing[0].name,
        count=int(shown.sum()),
    )
    return [Risk("ooze", False, reason, *heights_mm(profile, first, end))]


def _idle(looked: Looked) -> list[Risk]:
    """The longest stretch of time between two layers in which the support's nozzle is used."""
    if looked.estimate is None or looked.machine is None or looked.machine.shared_nozzle:
        return []  # in a shared nozzle it does not wait
    profile, found = looked.measures.profile, []
    used = np.flatnonzero(profile.support_area_mm2 > 1e-6)
    if not len(used):
        return []
    until = np.cumsum(looked.estimate.layer_s)
    waits = np.diff(until[used])
    longest = int(np.argmax(waits)) if len(waits) else 0
    for material in _of_supports(looked):
        if "chars" in material.when_idle and len(waits) and waits[longest] > LONG_IDLE_S:
            heights = used[longest] * profile.layer_mm, (used[longest + 1] + 1) * profile.layer_mm
            reason = say(
                "{name} waits hot for {minutes:.0f} minutes and chars; let the nozzle cool "
                "meanwhile.",
                name=material.name,
                minutes=waits[longest] / 60.0,
            )
            found.append(Risk("idle", True, reason, *heights))
        if "strings" in material.when_idle and profile.mixed.sum() > 100:
            mixed = np.flatnonzero(profile.mixed)
            reason = say(
                "{name} draws threads each time it starts anew, in {count:,} layers.",
                name=material.name,
                count=len(mixed),
            )
            heights = heights_mm(profile, int(mixed[0]), int(mixed[-1]) + 1)
            found.append(Risk("idle", False, reason, *heights))
    return found


def _limits(looked: Looked) -> list[Risk]:
    """Where the process asks for more than material or machine give."""
    settings, material, machine = looked.settings, looked.materials.model, looked.machine
    told = []
    if settings.support_limit_deg < material.support_limit_deg:
        told.append(
            say(
                "{name} needs support below {needed_deg:g}°, and the support limit is "
                "{limit_deg:g}°.",
                name=material.name,
                needed_deg=material.support_limit_deg,
                limit_deg=settings.support_limit_deg,
            )
        )
    if settings.bridge_mm > material.bridge_limit_mm:
        told.append(
            say(
                "{name} spans {bridge_limit_mm:g} mm, and the bridge limit is {bridge_mm:g} mm.",
                name=material.name,
                bridge_limit_mm=material.bridge_limit_mm,
                bridge_mm=settings.bridge_mm,
            )
        )
    if machine is not None:
        low, high = machine.layer_low_mm, machine.layer_high_mm
        high = min(high, HIGHEST_LAYER * min(nozzle.diameter_mm for nozzle in machine.nozzles))
        if not low - 1e-9 <= settings.layer_mm <= high + 1e-9:
            told.append(
                say(
                    '"{name}" prints layers of {low:g} to {high:g} mm, and the layer height is '
                    "{layer_mm:g} mm.",
                    name=say(machine.name),
                    low=low,
                    high=high,
                    layer_mm=settings.layer_mm,
                )
            )
    top = looked.measures.height_mm
    return [Risk("limits", False, reason, 0.0, top) for reason in told]
