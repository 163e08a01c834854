"""Patterns that carry a meaning without its colour."""

from enum import Enum

from viewer.words import later


class Hatch(Enum):
    """The pattern that carries a meaning without its colour."""

    NONE = "none"
    RISING = later("rising stripes")
    FALLING = later("falling stripes")
    LEVEL = later("level stripes")
    DOTS = "dots"
    TRANSLUCENT = "translucent"
