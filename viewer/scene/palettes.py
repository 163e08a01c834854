"""The published colours everything in the scene is drawn with.

Okabe & Ito, "Color universal design" (2008): colours that people with any common colour vision
tell apart. Crameri, Shephard & Heron 2020, Nat Commun 11:5444: ordered maps of even steps.
"""

from functools import cache

import numpy as np

from viewer.resource_files import resource_file

Colour = tuple[float, float, float]  # red, green, blue, 0 to 1, as on the screen (sRGB)


def colour(code: str) -> Colour:
    """The colour of a six-digit code such as "CC79A7"."""
    return tuple(int(code[k : k + 2], 16) / 255.0 for k in (0, 2, 4))


# Okabe–Ito
ORANGE = colour("E69F00")
SKY_BLUE = colour("56B4E9")
BLUE = colour("0072B2")
BLUISH_GREEN = colour("009E73")
YELLOW = colour("F0E442")
VERMILION = colour("D55E00")
REDDISH_PURPLE = colour("CC79A7")

# By face class: unmarked, A, B.
WARM_GREY = colour("D6CFC6")
MID_GREY = colour("7F7F7F")
DARK_GREY = colour("6A6A6A")  # apart from bluish green also without M cones, where mid grey is not
LUMA = (0.2126, 0.7152, 0.0722)
INK_FROM, DARK_INK, LIGHT_INK = 0.42, 0.3, 0.7  # a hatch is dark on colours lighter than the first
CLASS_COLOURS = (WARM_GREY, REDDISH_PURPLE, SKY_BLUE)
TOUCH_COLOURS = (MID_GREY, VERMILION, ORANGE)
ISLAND_COLOUR, SHUT_IN_COLOUR = BLUE, BLUISH_GREEN
SUPPORT_GREY = colour("3C4043")
PRINT_MATERIAL = colour("C4C7CA")  # neutral, so that shades alone tell what is what
CUT_GREY = colour("AFC3D0")  # the inside of a part that is cut open: cool beside warm grey


@cache
def crameri(name: str) -> np.ndarray:
    """(256, 3) float64, the sRGB values 0 to 1 of "lajolla", "lapaz" (dark to light) or "vik"."""
    table = np.loadtxt(resource_file(f"palettes/{name}.txt"))
    table.flags.writeable = False
    return table


def overhang_table() -> np.ndarray:
    """(256, 3) lajolla from a ceiling (0° from horizontal, dark) to the support limit (pale).

    The darkest fifth is left out, so that shading and hatching stay readable on a ceiling.
    """
    return _resampled(crameri("lajolla"), 0.22, 0.97)


def terrace_table() -> np.ndarray:
    """(256, 3) lapaz backwards: from no terrace (pale) to the widest shown (dark blue).

    The palest tenth is left out, so that a part without terraces stands out from a light ground.
    """
    return _resampled(crameri("lapaz"), 0.9, 0.0)


def deviation_table() -> np.ndarray:
    """(256, 3) lajolla backwards: from the part as received (the neutral grey) to far off (dark).

    It leaves the grey gradually, so that what is all but in its place does not look speckled. The
    darkest tenth is left out, so that shading stays readable.
    """
    grey = np.clip(1.0 - np.linspace(0.0, 1.0, 256)[:, None] / 0.4, 0.0, 1.0) ** 2
    return grey * np.array(WARM_GREY) + (1.0 - grey) * _resampled(crameri("lajolla"), 0.93, 0.12)


def difference_table() -> np.ndarray:
    """(256, 3) vik from narrower (blue) over equal (pale) to broader (brown), each half darkening.

    The darkest seventh at each end is left out, so that shading and hatching stay readable.
    """
    return _resampled(crameri("vik"), 0.15, 0.85)


def direction_table() -> np.ndarray:
    """(256, 3) lapaz from what is worst (dark blue) to what is best (pale); see `terrace_table`."""
    return _resampled(crameri("lapaz"), 0.06, 0.97)


def _resampled(table: np.ndarray, start: float, end: float) -> np.ndarray:
    places = np.linspace(start, end, 256) * (len(table) - 1)
    return np.stack([np.interp(places, np.arange(len(table)), table[:, k]) for k in range(3)], 1)


def ink_on(rgb: Colour) -> Colour:
    """The colour of a hatch on that colour, at least 3:1 apart from it (as `part_shader.INK`)."""
    if sum(share * c for share, c in zip(LUMA, rgb, strict=True)) > INK_FROM:
        return tuple(DARK_INK * c for c in rgb)
    return tuple(c + LIGHT_INK * (1.0 - c) for c in rgb)
