"""Several copies and test pieces side by side on a platform, boxes apart, by rectangle-packer.

The library packs upright rectangles of whole sizes as tightly as it can; here a size is counted in
tenths of a millimetre, rounded up. Forbidden areas and pieces that stand already leave smaller free
rectangles of the platform, which are filled one after the other, the largest first.
"""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
import rpack

from viewer.errors import RequestProblem
from viewer.shop.free_rectangles import free_rectangles, reach_of
from viewer.shop.machines import Machine
from viewer.shop.placing import Rectangle
from viewer.words import say

_STEPS_PER_MM = 10
_TRIED = 3  # free rectangles in which packing is begun, each from its middle and its corners
MOST_PIECES = 500


class Footprint(NamedTuple):
    """What a piece takes of the platform.

    size_mm : its box (x, y) as it lies; height_mm : how high it gets
    nozzles : places of the nozzles that print it, () where all of them do or it is not known
    turns : whether it may be turned by a quarter
    """

    name: str
    size_mm: tuple[float, float]
    height_mm: float = 0.0
    nozzles: tuple[int, ...] = ()
    turns: bool = True


class Placed(NamedTuple):
    """Where one piece stands: the middle of its box on the platform, and whether it was turned."""

    x_mm: float
    y_mm: float
    turned: bool


class _Task(NamedTuple):
    """(n, 2) float64 sizes, (n,) bool which may turn, what each lies in, the gap between two."""

    sizes: np.ndarray
    turns: np.ndarray
    reaches: tuple[Rectangle, ...]
    gap_mm: float


_Found = dict[int, Placed]


def pack(
    pieces: Sequence[Footprint],
    machine: Machine,
    gap_mm: float = 5.0,
    purge_body_mm: tuple[float, float] = (0.0, 0.0),
) -> tuple[Placed, ...]:
    """Places for these pieces, a gap apart, in the order given.

    A piece that `turns` may be turned by a quarter; each stays off forbidden areas and lies where
    each of its nozzles reaches. Where something is purged into a body, its place is kept free too,
    where all nozzles reach. Raises RequestProblem if a piece is too high or no packing was found.
    """
    if not pieces:
        return ()
    if len(pieces) > MOST_PIECES:
        raise RequestProblem(
            say(
                "At most {most_pieces} pieces can be placed at once; ask for fewer.",
                most_pieces=MOST_PIECES,
            )
        )
    for piece in pieces:
        _check_height(piece, machine)
    sizes = [piece.size_mm for piece in pieces]
    turns = [piece.turns for piece in pieces]
    reaches = [reach_of(machine, piece.nozzles) for piece in pieces]
    if min(purge_body_mm) > 0:
        sizes.append(tuple(purge_body_mm))
        turns.append(True)
        reaches.append(reach_of(machine))
    task = _Task(np.array(sizes, np.float64), np.array(turns), tuple(reaches), gap_mm)
    forbidden = [Rectangle(each.low_mm, each.high_mm) for each in machine.forbidden]
    found = _pack_by_reach(task, reach_of(machine), forbidden)
    if found is None:
        raise RequestProblem(
            say(
                '{count} pieces do not find room on "{name}"; print fewer at once, or choose a '
                "smaller gap or a larger machine.",
                count=len(pieces),
                name=say(machine.name),
            )
        )
    return tuple(found[place] for place in range(len(pieces)))


def most_copies(
    piece: Footprint,
    machine: Machine,
    gap_mm: float = 5.0,
    purge_body_mm: tuple[float, float] = (0.0, 0.0),
    beside: Sequence[Footprint] = (),
) -> int:
    """How many copies find room, beside other pieces; more may where packing is a riddle."""

    def fits(count: int) -> bool:
        try:
            pack([*[piece] * count, *beside], machine, gap_mm, purge_body_mm)
        except RequestProblem:
            return False
        return True

    low, high = 0, 1
    while high + len(beside) <= MOST_PIECES and fits(high):
        low, high = high, 2 * high
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if fits(middle) else (low, middle)
    return low


def _check_height(piece: Footprint, machine: Machine) -> None:
    places = piece.nozzles or range(len(machine.nozzles))
    top = min(machine.high_mm[2], *(machine.nozzles[k].reach_high_mm[2] for k in places))
    if piece.height_mm > top + 1e-6:
        raise RequestProblem(
            say(
                '{piece} is {height_mm:.0f} mm high, and "{name}" prints up to {top:.0f} mm there; '
                "leave it out or choose another machine.",
                piece=piece.name,
                height_mm=piece.height_mm,
                name=say(machine.name),
                top=top,
            )
        )


def _pack_by_reach(task: _Task, common: Rectangle, forbidden: list[Rectangle]) -> _Found | None:
    """All where every nozzle reaches; else group by group, those that reach least first."""
    every = np.arange(len(task.sizes))
    found = _fill(task, every, common, forbidden)
    groups = sorted(set(task.reaches), key=_area)
    if found is not None or groups == [common]:
        return found
    found, taken = {}, list(forbidden)
    for reach in groups:
        group = every[[each == reach for each in task.reaches]]
        placed = _fill(task, group, reach, taken)
        if placed is None:
            return None
        found |= placed
        taken += [_box(task, place, placed[place]) for place in placed]
    return found


def _fill(
    task: _Task, pieces: np.ndarray, reach: Rectangle, taken: list[Rectangle], first: bool = True
) -> _Found | None:
    """Places for the pieces: all in one free rectangle, else as many as it holds, and so on."""
    if not len(pieces):
        return {}
    if task.sizes[pieces].prod(axis=1).sum() > _area(reach):
        return None
    free = free_rectangles(reach, taken)
    for room in free:
        found = _pack_in(task, pieces, room, (0.5, 0.5))
        if found is not None:
            return found
    large_first = pieces[np.argsort(-task.sizes[pieces].prod(axis=1), kind="stable")]
    corners = [(x, y) for x in (0.0, 1.0) for y in (0.0, 1.0)] if first else [(0.0, 0.0)]
    for room in free[: _TRIED if first else 1]:
        count = _most_in(task, large_first, room)
        for corner in corners if count else ():
            found = _pack_in(task, large_first[:count], room, corner)
            boxes = [_box(task, place, at) for place, at in found.items()]
            rest = _fill(task, large_first[count:], reach, [*taken, _round(boxes)], False)
            if rest is not None:
                return found | rest
    return None


def _most_in(task: _Task, pieces: np.ndarray, room: Rectangle) -> int:
    """How many of the pieces, from the first on, one rectangle holds."""
    low, high = 0, len(pieces)
    while high - low > 1:
        middle = (low + high) // 2
        fits = _pack_in(task, pieces[:middle], room, (0.0, 0.0)) is not None
        low, high = (middle, high) if fits else (low, middle)
    return low


def _pack_in(
    task: _Task, pieces: np.ndarray, room: Rectangle, aside: tuple[float, float]
) -> _Found | None:
    """Places within one rectangle: as the pieces lie, or all with their long side one way.

    aside : where what is left over goes, 0 to the upper end of x and y, 1 to the lower, 0.5 to both
    """
    gap_mm, sizes = task.gap_mm, task.sizes[pieces]
    limits = np.floor((np.subtract(room.high_mm, room.low_mm) + gap_mm) * _STEPS_PER_MM + 1e-6)
    limits = limits.astype(int)
    long_x, turns = sizes[:, 0] < sizes[:, 1], task.turns[pieces]
    for turned in (np.zeros(len(sizes), bool), turns & long_x, turns & ~long_x):
        laid = np.where(turned[:, None], sizes[:, ::-1], sizes)
        steps = np.ceil((laid + gap_mm) * _STEPS_PER_MM - 1e-6).astype(int)
        if (steps > limits).any() or steps.prod(axis=1).sum() > limits.prod():
            continue
        try:
            corners = rpack.pack([tuple(s) for s in steps.tolist()], *(int(r) for r in limits))
        except rpack.PackingImpossibleError:
            continue
        corners = np.array(corners) / _STEPS_PER_MM
        used = (corners + laid).max(axis=0)
        spare = np.maximum(np.subtract(room.high_mm, room.low_mm) - used, 0.0)
        middle = corners + 0.5 * laid + room.low_mm + np.array(aside) * spare
        return {
            int(place): Placed(float(x), float(y), bool(t))
            for place, (x, y), t in zip(pieces, middle, turned, strict=True)
        }
    return None


def _box(task: _Task, place: int, at: Placed) -> Rectangle:
    """The box of a piece that stands, and a gap round it."""
    half = 0.5 * (task.sizes[place][::-1] if at.turned else task.sizes[place]) + task.gap_mm
    low, high = np.array([at.x_mm, at.y_mm]) - half, np.array([at.x_mm, at.y_mm]) + half
    return Rectangle(tuple(low.tolist()), tuple(high.tolist()))


def _round(boxes: list[Rectangle]) -> Rectangle:
    """The least rectangle round all boxes."""
    low = np.min([box.low_mm for box in boxes], axis=0)
    high = np.max([box.high_mm for box in boxes], axis=0)
    return Rectangle(tuple(low.tolist()), tuple(high.tolist()))


def _area(of: Rectangle) -> float:
    return float(np.prod(np.subtract(of.high_mm, of.low_mm)))
