"""Which test pays: for each open question of a pose the piece that answers it in the least time.

Specimens have their steps narrowed to the range that is open; where the face itself can be asked, a
cut-out of the worst patch competes with them.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from viewer.errors import RequestProblem
from viewer.geometry.closed_part import ClosedPart, closed_part
from viewer.geometry.cut_pieces import Piece, cut_out, largest_body
from viewer.geometry.specimens.bridge_ladder import bridge_ladder
from viewer.geometry.specimens.inclination_fan import inclination_fan
from viewer.geometry.specimens.pair_release import pair_release
from viewer.geometry.specimens.slender_fins import slender_fins
from viewer.geometry.specimens.specimen import Specimen
from viewer.geometry.specimens.terrace_wedge import terrace_wedge
from viewer.geometry.worst_patch import worst_patch
from viewer.progress import Progress
from viewer.shop.lessons import ROUND, value_text
from viewer.shop.open_points import Asked, OpenPoint, open_points
from viewer.shop.piece_numbers import (
    LaidBody,
    PieceNumbers,
    Printing,
    numbers_of_bodies,
    numbers_of_cut,
)
from viewer.shop.trial_steps import PIECE_NAMES
from viewer.shop.trials import CUT_OUT_TERRACE, CUT_OUT_TOUCH
from viewer.words import later, say, written

MOST_STEPS = 5
# Smaller than usual, and still enough to be looked at.
SMALL_BLADE_MM = (12.0, 8.0, 2.0)  # length, width, thickness
SMALL_BEAM_MM = (6.0, 5.0, 1.2)  # width, height above the base, thickness
SMALL_RUN_MM = 8.0
TALLEST_FIN_MM = 80.0
FIN_SHARES = (0.7, 1.0, 1.4)  # of the section's thickness
QUESTIONS = {
    "support_limit_deg": later(
        "{area} mm² of class A need support or not, depending on a limit between {low} and {high}"
    ),
    "bridge_mm": later(
        "{area} mm² of class A are bridged or touched, depending on a limit between {low} and "
        "{high}"
    ),
    "visible_terrace_mm": later(
        "{area} mm² of class A have terraces that may show: they show from between {low} and {high}"
    ),
    "touch_weight": later(
        "supports touch class A, and how such a face comes out is known only between {low} and "
        "{high} (0 clean, 1 as broken off)"
    ),
    "slender": later(
        "{area} mm² of class A lie on a section that is {low} thick and {high} tall and may waver"
    ),
}


class Candidate(NamedTuple):
    """One piece that would answer: a specimen, or a piece cut out of the part.

    values : the steps to be judged; numbers : what it takes
    """

    kind: str
    values: tuple[float, ...]
    specimen: Specimen | None
    cut: Piece | None
    numbers: PieceNumbers


@dataclass(frozen=True, eq=False)
class Proposal:
    """A question and the piece that answers it in the least time.

    others : the pieces that would take longer
    """

    point: OpenPoint
    best: Candidate
    others: tuple[Candidate, ...] = ()

    @property
    def time_s(self) -> float:
        """Likely printing time, infinite where the machine cannot print it."""
        return seconds_of(self.best)

    @property
    def sentence(self) -> str:
        """Why this piece pays, in one sentence."""
        point = self.point
        low, high = point_range_text(point)
        why = say(QUESTIONS[point.kind], area=written(point.stake_mm2, ",.0f"), low=low, high=high)
        return say(
            "{piece}{steps}, {minutes:.0f} min: {why}.",
            piece=say(PIECE_NAMES[self.best.kind]), steps=_steps_text(self.best),
            minutes=self.time_s / 60.0, why=why,
        )  # fmt: skip


def propose_tests(
    asked: Asked, printing: Printing, progress: Progress | None = None
) -> tuple[Proposal, ...]:
    """For each open question the quickest piece; first what decides most class A in an hour.

    A piece that the machine cannot print is left out. Raises Cancelled.
    """
    progress = progress or Progress()
    points = open_points(asked, progress.part(0.0, 0.2))
    solid = _Solid(asked)
    found = []
    for number, point in enumerate(points):
        share = progress.part(
            0.2 + 0.8 * number / len(points), 0.2 + 0.8 * (number + 1) / len(points)
        )
        made = [each for each in _candidates(point, asked, printing, solid, share)
                if each.numbers.estimate is not None]  # fmt: skip
        made.sort(key=seconds_of)
        if made:
            found.append(Proposal(point, made[0], tuple(made[1:])))
    return tuple(sorted(found, key=lambda each: -each.point.stake_mm2 / max(each.time_s, 1.0)))


def seconds_of(candidate: Candidate) -> float:
    """Likely printing time of a piece."""
    made = candidate.numbers.estimate
    return math.inf if made is None else made.time_s.likely


class _Solid:
    """The part made closed, once it is needed."""

    def __init__(self, asked: Asked) -> None:
        self._asked = asked
        self._made: ClosedPart | None = None

    def get(self, progress: Progress) -> ClosedPart:
        if self._made is None:
            self._made = closed_part(self._asked.part, progress)
        return self._made


def _candidates(
    point: OpenPoint, asked: Asked, printing: Printing, solid: _Solid, progress: Progress
) -> list[Candidate]:
    values = narrowed_steps(point, asked)
    make: Callable[[], Specimen] = {
        "support_limit_deg": lambda: inclination_fan(values, SMALL_BLADE_MM),
        "bridge_mm": lambda: bridge_ladder(values, *SMALL_BEAM_MM),
        "visible_terrace_mm": lambda: terrace_wedge(values, max(SMALL_RUN_MM, 6.0 * point.high)),
        "touch_weight": lambda: pair_release(values),
        "slender": lambda: slender_fins(values, min(point.high, TALLEST_FIN_MM)),
    }[point.kind]
    specimen = make()
    bodies = [LaidBody(b.mesh.vertices_mm, b.mesh.faces, b.material) for b in specimen.bodies]
    numbers = numbers_of_bodies(bodies, printing, progress.part(0.0, 0.2))
    made = [Candidate(specimen.kind, values, specimen, None, numbers)]
    if point.kind in ("touch_weight", "visible_terrace_mm"):
        cut = _cut_out(point, asked, printing, solid, progress.part(0.2, 1.0))
        made += [] if cut is None else [cut]
    return made


def _cut_out(
    point: OpenPoint, asked: Asked, printing: Printing, solid: _Solid, progress: Progress
) -> Candidate | None:
    """The worst patch of the part itself, with its supports; None where none can be cut out."""
    touch = point.kind == "touch_weight"
    try:
        patch = worst_patch(
            asked.part, asked.face_classes, asked.measures.faces, asked.pose, asked.settings,
            "touch" if touch else "terrace",
        )  # fmt: skip
        whole = solid.get(progress.part(0.0, 0.4))
        piece = largest_body(cut_out(whole, patch.planes, progress.part(0.4, 0.6)).pieces[0])
        classes = piece.classes(asked.face_classes)
        numbers = numbers_of_cut(piece.mesh, classes, asked.pose, printing, progress.part(0.6, 1.0))
    except RequestProblem:
        return None
    if touch:
        return Candidate(CUT_OUT_TOUCH, (asked.chosen.pair.contact_gap_mm,), None, piece, numbers)
    width = round(_mean_width_mm(asked, patch.faces), 2)
    return Candidate(CUT_OUT_TERRACE, (width,), None, piece, numbers)


def _mean_width_mm(asked: Asked, faces: np.ndarray) -> float:
    """Area-weighted mean of s = t / tan α over some faces (CALC)."""
    level = np.abs(asked.part.mesh.face_normals[faces] @ np.asarray(asked.pose.up))
    width = asked.settings.layer_mm * level / np.sqrt(np.maximum(1.0 - level * level, 1e-12))
    return float(np.average(np.minimum(width, 20.0), weights=asked.part.mesh.face_areas_mm2[faces]))


def narrowed_steps(point: OpenPoint, asked: Asked) -> tuple[float, ...]:
    """The steps of a specimen for one question: few, and within the range that is open."""
    low, high = point.low, point.high
    if point.kind == "support_limit_deg":
        return _spread(np.linspace(low, high, MOST_STEPS), 1.0, 10, 80)
    if point.kind == "bridge_mm":
        return _spread(np.geomspace(max(low, 2.0), max(high, 3.0), MOST_STEPS), 1.0, 2, 200)
    if point.kind == "visible_terrace_mm":
        widths = np.geomspace(low, high, MOST_STEPS)
        angles = np.degrees(np.arctan(asked.settings.layer_mm / widths))
        return _spread(np.sort(angles), 1.0 if angles.min() > 6 else 0.5, 1, 60)
    if point.kind == "touch_weight":
        gap = asked.chosen.pair.contact_gap_mm
        return _spread(np.array([gap - 0.1, gap, gap + 0.1]), 0.01, 0, 2)
    return _spread(point.low * np.array(FIN_SHARES), 0.1, 0.3, 10)


def _spread(values: np.ndarray, step: float, low: float, high: float) -> tuple[float, ...]:
    """Values rounded to whole steps within limits, each once, in rising order."""
    rounded = np.clip(np.round(values / step) * step, low, high)
    return tuple(float(each) for each in np.unique(np.round(rounded, 4)))


def point_range_text(point: OpenPoint) -> tuple[str, str]:
    """Both ends of what is open, with their unit."""
    if point.kind == "slender":
        return f"{written(point.low, '.1f')} mm", f"{written(point.high, '.0f')} mm"
    step = ROUND[point.kind]
    low, high = (round(step * round(each / step), 4) for each in (point.low, point.high))
    return value_text(point.kind, low), value_text(point.kind, high)


def _steps_text(candidate: Candidate) -> str:
    """The steps of a specimen behind its name; a cut-out has none of its own."""
    if candidate.specimen is None:
        return ""
    unit = "°" if candidate.specimen.steps[0].unit == "deg" else " mm"
    values = "; ".join(written(value, "g") for value in candidate.values)
    return say(" with {values}{unit}", values=values, unit=unit)
