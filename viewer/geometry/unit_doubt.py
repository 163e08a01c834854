"""Whether the numbers of a file look like millimetres, and which unit they look like if not."""

import numpy as np

from viewer.words import later, say

_MM_PER_METRE = 1000.0
# Common practice, no source: the longest side of parts that people print for clients.
SMALLEST_MM, LARGEST_MM = 10.0, 2000.0
# A part that metres would leave below this size is a part of a usual size drawn in metres.
_METRES_TO_MM = 400.0
_PLURAL = {"m": later("metres"), "inch": later("inches")}
_IN_WORDS = {"inch": later("inch"), "ft": later("ft"), "micron": later("micron")}


def unit_doubt(size_mm: np.ndarray) -> tuple[str, str]:
    """A question about the unit of a file read in mm, and the unit it looks like.

    size_mm : (3,) sides of the part's box with its numbers taken as mm
    returns ("", "") where there is no doubt; the unit is "" where none makes the part a usual size
    """
    longest = float(np.max(size_mm))
    if not longest > 0 or SMALLEST_MM <= longest <= LARGEST_MM:
        return "", ""
    size = " × ".join(f"{side:.3g}" for side in size_mm)
    if longest > LARGEST_MM:
        return say(
            "The part is {size} mm, larger than most machines: are these millimetres?", size=size
        ), ""
    suggested = likely_unit(longest)
    if not suggested:
        return say(
            "The part is only {size} mm, less than a grain: in which unit was it drawn?", size=size
        ), ""
    return say(
        "The part is only {size} mm: these look like {plural}. Scale?",
        size=size,
        plural=say(_PLURAL[suggested]),
    ), suggested


def likely_unit(longest: float) -> str:
    """The unit that brings a side of a few numbers' length to a usual size, "" where none does."""
    if longest * _MM_PER_METRE < SMALLEST_MM:
        return ""
    return "m" if longest * _MM_PER_METRE <= _METRES_TO_MM else "inch"


def unit_word(unit: str) -> str:
    """A unit of length as the user calls it: in German an inch is a Zoll, while mm stay mm."""
    return say(_IN_WORDS[unit]) if unit in _IN_WORDS else unit
