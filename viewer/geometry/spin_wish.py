"""What decides the spin when a part is laid for a direction, as it is kept with the job."""

import math
from dataclasses import dataclass, replace
from enum import Enum
from typing import Self

import numpy as np

from viewer.errors import RequestProblem
from viewer.words import say

Side = tuple[float, float, float]


class SpinRule(Enum):
    """What decides the spin; the value is how a job file calls it."""

    RECTANGLE = "least-rectangle"
    SEAM_AWAY = "seam-away-from-a"
    SEAM_SIDE = "seam-on-a-side"
    WALLS = "walls-along-x-or-y"
    KEEP = "leave-it"


@dataclass(frozen=True)
class SpinWish:
    """rule : what decides; side : direction of the part that may carry the seam, unit length, for
    the rule that goes by one, otherwise None

    Raises RequestProblem where that rule has no side, or one without a direction.
    """

    rule: SpinRule = SpinRule.RECTANGLE
    side: Side | None = None

    def __post_init__(self) -> None:
        if self.rule is not SpinRule.SEAM_SIDE:
            object.__setattr__(self, "side", None)
            return
        length = math.hypot(*self.side) if self.side is not None else 0.0
        if not (math.isfinite(length) and length > 0):
            raise RequestProblem(say("The side that may carry the seam is not known."))
        if abs(length - 1.0) > 1e-12:  # a saved one comes back to the digit
            object.__setattr__(self, "side", tuple(float(x) / length for x in self.side))

    def turned(self, turn: np.ndarray) -> Self:
        """The same wish after the part was turned by (3, 3) in its own coordinates."""
        if self.side is None:
            return self
        return replace(self, side=tuple(float(x) for x in turn @ np.array(self.side)))
