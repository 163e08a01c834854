"""Patterns that carry a meaning without its colour."""

from enum import Enum


class Hatch(Enum):
    """The pattern that carries a meaning without its colour."""

    NONE = "none"
    RISING = "rising stripes"
    FALLING = "falling stripes"
    LEVEL = "level stripes"
    DOTS = "dots"
    TRANSLUCENT = "translucent"
