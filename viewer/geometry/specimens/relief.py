"""Labels in relief: digits of seven bars, as on a pocket calculator, made of boxes.

A bar is as wide as a road or two, so that a label prints as cleanly as what it names.
"""

import manifold3d

from viewer.geometry.specimens.specimen import block

HEIGHT_MM = 5.0  # of a digit
RELIEF_MM = 0.6
BAR_MM = 0.9
_WIDTH_MM, _GAP_MM = 3.0, 1.1

#  a        Level bars have a row, 0 at the bottom, upright ones a side, 0 left, and a half.
# f b
#  g
# e c
#  d
_LEVEL = {"d": 0, "g": 1, "a": 2}
_UPRIGHT = {"e": (0, 0), "c": (1, 0), "f": (0, 1), "b": (1, 1)}
_BARS = {
    "0": "abcdef", "1": "bc", "2": "abged", "3": "abgcd", "4": "fgbc", "5": "afgcd",
    "6": "afgedc", "7": "abc", "8": "abcdefg", "9": "abfgcd", "-": "g",
}  # fmt: skip
GLYPHS = (*_BARS, ".")


def label_width_mm(text: str) -> float:
    """How wide a label comes out."""
    return sum(_advance_mm(glyph) for glyph in text) - _GAP_MM if text else 0.0


def label(text: str, x_mm: float, y_mm: float, z_mm: float) -> list[manifold3d.Manifold]:
    """Boxes of a label that lies on a level face, its lower left corner at (x, y).

    text : digits, points and minus signs; z_mm : height of the face, into which it is sunk a little
    """
    solids = []
    for glyph in text:
        for low, high in _boxes(glyph):
            solids.append(
                block(
                    (x_mm + low[0], y_mm + low[1], z_mm - 0.1),
                    (x_mm + high[0], y_mm + high[1], z_mm + RELIEF_MM),
                )
            )
        x_mm += _advance_mm(glyph)
    return solids


def _advance_mm(glyph: str) -> float:
    return (BAR_MM if glyph == "." else _WIDTH_MM) + _GAP_MM


def _boxes(glyph: str) -> list[tuple[tuple[float, float], tuple[float, float]]]:
    if glyph == ".":
        return [((0.0, 0.0), (BAR_MM, BAR_MM))]
    boxes = []
    half = 0.5 * (HEIGHT_MM - BAR_MM)
    for bar in _BARS[glyph]:
        if bar in _LEVEL:
            low = _LEVEL[bar] * half
            boxes.append(((0.0, low), (_WIDTH_MM, low + BAR_MM)))
        else:
            side, upper = _UPRIGHT[bar]
            x = side * (_WIDTH_MM - BAR_MM)
            boxes.append(((x, upper * half), (x + BAR_MM, (upper + 1) * half + BAR_MM)))
    return boxes


def text_of(value: float) -> str:
    """A number as short as it can be written, such as 0.15 or 45."""
    return f"{value:.2f}".rstrip("0").rstrip(".")
