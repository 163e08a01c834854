"""Does a pose with its supports fit a machine, with every material in reach of its nozzle?

The part may stand anywhere on the platform. Outlines count with their hulls, and a forbidden area
at every height, so that a fit is sure; what does not fit may still do by a hand's breadth.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import permutations

import numpy as np

from viewer.shop.machines import Machine
from viewer.shop.outline import PoseOutline
from viewer.shop.pairs import Pair
from viewer.shop.placing import Rectangle, free_shift
from viewer.shop.print_job import why_not_printable
from viewer.shop.spins import Boxed, least_over, over_mm, spins_that_fit_rad
from viewer.shop.turning_hull import TurningHull, reach_mm, turned_mm
from viewer.words import say

_MOST_SPINS = 90  # tried for a free place among forbidden areas
_HALVINGS = 24


@dataclass(frozen=True, eq=False)
class Fit:
    """Whether and how a pose fits a machine.

    spin_deg : the present spin where it fits, else the nearest that fits, else the one at which
        least sticks out
    over_mm : by how much it is too large at that spin, 0 where it fits
    place_mm : where the middle of the part's box then stands on the platform (x, y)
    nozzles : place of the nozzle for each material that is used, model first
    purge_body : where the body of purged material stands, None where there is none
    why : one sentence, "" where it fits as it is laid
    """

    machine: str
    fits: bool
    spin_deg: float
    over_mm: float
    place_mm: tuple[float, float] = (0.0, 0.0)
    nozzles: tuple[int, ...] = (0,)
    purge_body: Rectangle | None = None
    why: str = ""


@dataclass(frozen=True, eq=False)
class _Way:
    """One assignment of materials to nozzles."""

    nozzles: tuple[int, ...]
    boxed: tuple[Boxed, ...]
    over_z_mm: float
    too_high: str


def fit_machine(
    outline: PoseOutline,
    machine: Machine,
    pair: Pair,
    spin_deg: float = 0.0,
    purge_body_mm: tuple[float, float, float] = (0.0, 0.0, 0.0),
) -> Fit:
    """The fit of one machine; `purge_body_mm` (width, depth, height) has to find room as well."""
    if outline.supports is not None and (problem := why_not_printable(machine, pair)):
        return Fit(machine.name, False, spin_deg % 360.0, 0.0, why=problem)
    best: Fit | None = None
    for way in _ways(outline, machine, pair):
        fit = _fit_way(outline, machine, way, spin_deg, purge_body_mm)
        if fit.fits and fit.spin_deg == spin_deg % 360.0:
            return fit
        if best is None or (not fit.fits, fit.over_mm) < (not best.fits, best.over_mm):
            best = fit
    return best


def machines_that_fit(fits: dict[str, Fit]) -> tuple[str, ...]:
    """Names of the machines that fit, those first for which nothing has to be turned."""
    ready = [name for name, fit in fits.items() if fit.fits and not fit.why]
    return (*ready, *(name for name, fit in fits.items() if fit.fits and fit.why))


def _ways(outline: PoseOutline, machine: Machine, pair: Pair) -> Iterator[_Way]:
    names = pair.materials if outline.supports is not None else pair.materials[:1]
    if machine.shared_nozzle:
        assignments = [(0,) * len(names)]
    else:
        assignments = list(permutations(range(len(machine.nozzles)), len(names)))
    for nozzles in assignments:
        boxed, over_z, too_high = [], -np.inf, ""
        for place, nozzle_at in enumerate(nozzles):
            nozzle = machine.nozzles[nozzle_at]
            own = place == 0
            hull = outline.part if own else outline.supports
            top = outline.height_mm if own else outline.support_height_mm
            low = np.maximum(nozzle.reach_low_mm, machine.low_mm)
            high = np.minimum(nozzle.reach_high_mm, machine.high_mm)
            over = max(top - high[2], low[2])
            if over > over_z:
                over_z = over
                too_high = say('higher than nozzle "{name}" reaches', name=say(nozzle.name))
            boxed.append(Boxed(hull, tuple(low[:2]), tuple(high[:2])))
        if len(names) > 1 and pair.support_body == pair.model:
            boxed.append(Boxed(outline.supports, boxed[0].low_mm, boxed[0].high_mm))
        yield _Way(nozzles, _merged(boxed), float(over_z), too_high)


def _merged(boxed: list[Boxed]) -> tuple[Boxed, ...]:
    """Supports lie within the part's outline: in the same box the part alone decides."""
    first, *others = boxed
    kept = [one for one in others if (one.low_mm, one.high_mm) != (first.low_mm, first.high_mm)]
    return (first, *kept)


def _fit_way(
    outline: PoseOutline,
    machine: Machine,
    way: _Way,
    spin_deg: float,
    purge_body_mm: tuple[float, float, float],
) -> Fit:
    now = float(np.radians(spin_deg))
    wanted = spin_deg % 360.0
    over_z = max(way.over_z_mm, purge_body_mm[2] - machine.build_volume_mm[2])
    bodies = _purge_places(machine, purge_body_mm)
    if over_z <= 0 and over_mm(way.boxed, np.array([now]))[0] <= 1e-9:
        placed = _placed(outline.part, machine, way, now, bodies)
        if placed is not None:
            return Fit(machine.name, True, wanted, 0.0, *placed)
    fitting = spins_that_fit_rad(way.boxed)
    if not len(fitting):
        spin, over = least_over(way.boxed)
        deg = float(np.degrees(spin)) % 360.0
        why = say(
            "too wide by {over:.1f} mm at the best spin, {deg:.0f}°.", over=max(over, 0.0), deg=deg
        )
        if over_z > over:
            why = say("{too_high}, by {over_z:.1f} mm.", too_high=way.too_high, over_z=over_z)
        return Fit(machine.name, False, deg, max(over, over_z), why=why[:1].upper() + why[1:],
                   nozzles=way.nozzles)  # fmt: skip
    for spin in _nearest_first(fitting, now)[:_MOST_SPINS]:
        placed = _placed(outline.part, machine, way, spin, bodies)
        if placed is None:
            continue
        deg = round(float(np.degrees(spin)) % 360.0, 9)
        if over_z > 0:
            why = say("{too_high}, by {over_z:.1f} mm.", too_high=way.too_high, over_z=over_z)
            return Fit(machine.name, False, deg, over_z, *placed, why[:1].upper() + why[1:])
        why = say("Fits when its spin is {deg:g}°.", deg=deg)
        return Fit(machine.name, True, deg, 0.0, *placed, why)
    spin = float(_nearest_first(fitting, now)[0])
    over = _overlap_mm(outline.part, machine, way, spin, bodies)
    what = say("a forbidden area") if not bodies else say("the purged body and forbidden areas")
    why = say("No room beside {what}, by {over:.1f} mm.", what=what, over=over)
    deg = float(np.degrees(spin)) % 360.0
    return Fit(machine.name, False, deg, max(over, over_z), nozzles=way.nozzles, why=why)


def _nearest_first(spins: np.ndarray, now: float) -> np.ndarray:
    """Spins by how far one has to turn; whole degrees before others at that distance."""
    away = np.abs(np.mod(spins - now + np.pi, 2 * np.pi) - np.pi)
    whole = np.abs(np.degrees(spins) - np.round(np.degrees(spins))) < 1e-9
    return spins[np.lexsort((away, ~whole))]


def _placed(part: TurningHull, machine: Machine, way: _Way, spin: float,
            bodies: list[Rectangle] | None):  # fmt: skip
    """Place of the box's middle, nozzles and purged body; None where nothing is free."""
    reach = reach_mm(part, np.array([spin]))[0]
    middle = 0.5 * (reach[0] + reach[1])
    shifts = _shifts(way.boxed, spin)
    forbidden = tuple(Rectangle(each.low_mm, each.high_mm) for each in machine.forbidden)
    outline = turned_mm(part.corners_mm, spin)
    for body in bodies if bodies is not None else [None]:
        obstacles = forbidden if body is None else (*forbidden, body)
        shift = free_shift(outline, shifts, obstacles, -middle)
        if shift is not None:
            place = shift + middle
            place[np.abs(place) < 1e-9] = 0.0
            return (float(place[0]), float(place[1])), way.nozzles, body
    return None


def _shifts(boxed: tuple[Boxed, ...], spin: float) -> Rectangle:
    """The shifts at which all hulls lie in their boxes; a point where rounding leaves less."""
    reach = [reach_mm(one.hull, np.array([spin]))[0] for one in boxed]
    low = np.max([np.array(b.low_mm) - r[0] for b, r in zip(boxed, reach, strict=True)], axis=0)
    high = np.min([np.array(b.high_mm) - r[1] for b, r in zip(boxed, reach, strict=True)], axis=0)
    return Rectangle(tuple(np.minimum(low, high)), tuple(np.maximum(low, high)))


def _purge_places(machine: Machine, size_mm: tuple[float, float, float]) -> list[Rectangle] | None:
    """Where the purged body may stand; None where there is none.

    Whatever line parts it from a convex outline, it can be pushed away from that line until it
    meets a side of what the nozzles reach or a forbidden area: corners of these are enough.
    """
    if min(size_mm) <= 0:
        return None
    reaches = machine.nozzles
    low = np.max([machine.low_mm, *(nozzle.reach_low_mm for nozzle in reaches)], axis=0)[:2]
    high = np.min([machine.high_mm, *(nozzle.reach_high_mm for nozzle in reaches)], axis=0)[:2]
    forbidden = [Rectangle(each.low_mm, each.high_mm) for each in machine.forbidden]
    found = []
    for size in dict.fromkeys((size_mm[:2], size_mm[1::-1])):
        starts = [
            [low[k], high[k] - size[k]]
            + [each.high_mm[k] for each in forbidden]
            + [each.low_mm[k] - size[k] for each in forbidden]
            for k in (0, 1)
        ]
        for y in starts[1][::-1]:
            for x in starts[0][::-1]:
                body = Rectangle((x, y), (x + size[0], y + size[1]))
                inside = (np.array(body.low_mm) >= low - 1e-9).all()
                inside &= (np.array(body.high_mm) <= high + 1e-9).all()
                if inside and not any(body.overlaps(each) for each in forbidden):
                    found.append(body)
    return found


def _overlap_mm(part: TurningHull, machine: Machine, way: _Way, spin: float,
                bodies: list[Rectangle] | None) -> float:  # fmt: skip
    """By how much each obstacle would have to shrink on all sides for the part to find room."""
    forbidden = [Rectangle(each.low_mm, each.high_mm) for each in machine.forbidden]
    outline, shifts = turned_mm(part.corners_mm, spin), _shifts(way.boxed, spin)
    if bodies == []:
        return min(machine.build_volume_mm[:2])  # the purged body alone finds no room
    least = np.inf
    for body in bodies or [None]:
        obstacles = forbidden if body is None else [*forbidden, body]
        low, high = 0.0, max(min(np.subtract(o.high_mm, o.low_mm)) for o in obstacles) / 2
        for _ in range(_HALVINGS):
            by = 0.5 * (low + high)
            left = tuple(o for each in obstacles if (o := each.shrunk(by)) is not None)
            free = free_shift(outline, shifts, left, np.zeros(2)) is not None
            low, high = (low, by) if free else (by, high)
        least = min(least, high)
    return float(least)
