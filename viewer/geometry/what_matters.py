"""What a job's results are ordered by: positions of the sliders, and the limits in force."""

import math
from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace
from typing import Self

from viewer.errors import RequestProblem
from viewer.geometry.aims import AIM_KEYS, PRESETS, SHOW_SIDE
from viewer.geometry.hard_limits import LIMIT_KEYS
from viewer.words import say

MOST = 100.0


@dataclass(frozen=True)
class WhatMatters:
    """positions : of the sliders, 0 to 100, in the order of AIM_KEYS; those of the first preset
    limits : keys of the hard limits in force, in the order of LIMIT_KEYS; all of them

    Raises RequestProblem where a position lies outside 0 to 100, or a limit does not exist.
    """

    positions: tuple[float, ...] = tuple(SHOW_SIDE.weights[key] for key in AIM_KEYS)
    limits: tuple[str, ...] = LIMIT_KEYS

    def __post_init__(self) -> None:
        sound = len(self.positions) == len(AIM_KEYS) and all(
            math.isfinite(position) and 0.0 <= position <= MOST for position in self.positions
        )
        if not sound:
            raise RequestProblem(say("How much something matters is a number from 0 to 100."))
        if self.limits != tuple(key for key in LIMIT_KEYS if key in self.limits):
            raise RequestProblem(say("One of the limits is not known."))

    @classmethod
    def of(cls, weights: Mapping[str, float], limits: Collection[str]) -> Self:
        """With weights by the keys of AIM_KEYS, 0 where one is not given, and those limits.

        Keys that this version does not know are passed over.
        """
        positions = tuple(float(weights.get(key, 0.0)) for key in AIM_KEYS)
        return cls(positions, tuple(key for key in LIMIT_KEYS if key in limits))

    @property
    def weights(self) -> dict[str, float]:
        """The position of each slider by its key."""
        return dict(zip(AIM_KEYS, self.positions, strict=True))

    @property
    def preset(self) -> str:
        """Key of the preset whose sliders these are, "" for none."""
        return next((each.key for each in PRESETS if dict(each.weights) == self.weights), "")

    def with_weights(self, weights: Mapping[str, float]) -> Self:
        """With other positions of some sliders, held within 0 and 100."""
        held = {key: min(max(float(weight), 0.0), MOST) for key, weight in weights.items()}
        return self.of({**self.weights, **held}, self.limits)

    def with_limit(self, key: str, on: bool) -> Self:
        """With one limit put in force or out of it."""
        kept = (each for each in LIMIT_KEYS if (on if each == key else each in self.limits))
        return replace(self, limits=tuple(kept))
