"""Copies of the part and test pieces on a platform: where each stands, and how many find room."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from viewer.errors import RequestProblem
from viewer.shop.machines import Machine
from viewer.shop.packing import MOST_PIECES, Footprint, Placed, most_copies, pack


class Outline(NamedTuple):
    """What a piece takes of the platform, as an outline.

    outline_mm : (k, 2) float64 about the middle of its box; height_mm : how high it gets
    nozzles : places of the nozzles that print it, () for all of them
    """

    name: str
    outline_mm: np.ndarray
    height_mm: float = 0.0
    nozzles: tuple[int, ...] = ()

    @property
    def footprint(self) -> Footprint:
        """Its box."""
        x, y = np.ptp(self.outline_mm, axis=0)
        return Footprint(self.name, (float(x), float(y)), self.height_mm, self.nozzles)


@dataclass(frozen=True, eq=False)
class CopiesPlan:
    """Copies of one outline and other pieces on a platform.

    wanted : copies; most : how many of them find room beside the other pieces
    outlines_mm : (k, 2) float64 each, on the platform, empty where not all find room or one copy
        stands alone; pieces : name and outline there of each other piece
    one_mm : middle of the copy that stands as the part is laid and nearest to the platform's
        middle, None where there is none such; problem : why not all find room
    """

    wanted: int
    most: int
    outlines_mm: tuple[np.ndarray, ...]
    problem: str = ""
    one_mm: tuple[float, float] | None = None
    pieces: tuple[tuple[str, np.ndarray], ...] = ()


def plan_copies(
    part: Outline,
    machine: Machine,
    wanted: int,
    gap_mm: float,
    purge_body_mm: tuple[float, float],
    beside: Sequence[Outline] = (),
) -> CopiesPlan:
    """Copies of the part and the pieces beside them, boxes a gap apart."""
    others = [piece.footprint for piece in beside]
    most = most_copies(part.footprint, machine, gap_mm, purge_body_mm, others)
    if wanted == 1 and not beside:
        return CopiesPlan(1, most, ())
    copies = min(wanted, MOST_PIECES + 1)
    places: tuple[Placed, ...] = ()
    problem = ""
    for turns in (False, True):  # the part that is drawn is one copy: it had better stay as it lies
        first = part.footprint._replace(turns=turns)
        asked = [first, *[part.footprint] * (copies - 1), *others]
        try:
            places = pack(asked, machine, gap_mm, purge_body_mm)
            break
        except RequestProblem as found:
            problem = str(found)
    if not places:
        return CopiesPlan(wanted, most, (), problem)
    laid = [
        _laid(piece.outline_mm, place)
        for piece, place in zip([*[part] * copies, *beside], places, strict=True)
    ]
    straight = [(place.x_mm, place.y_mm) for place in places[:copies] if not place.turned]
    one = min(straight, key=lambda at: at[0] ** 2 + at[1] ** 2, default=None)
    named = tuple((piece.name, at) for piece, at in zip(beside, laid[copies:], strict=True))
    return CopiesPlan(wanted, max(most, wanted), tuple(laid[:copies]), "", one, named)


def _laid(outline_mm: np.ndarray, place: Placed) -> np.ndarray:
    turned = np.column_stack([-outline_mm[:, 1], outline_mm[:, 0]])
    return (turned if place.turned else outline_mm) + (place.x_mm, place.y_mm)
