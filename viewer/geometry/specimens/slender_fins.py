"""Tall slender fins: how thin a wall may be at a height before the nozzle makes it sway."""

from collections.abc import Sequence

from viewer.geometry.specimens.relief import HEIGHT_MM, label, text_of
from viewer.geometry.specimens.specimen import Body, Specimen, Step, block, in_order, united
from viewer.words import later, say

THICKNESSES_MM = (0.8, 1.2, 1.6, 2.4)


def slender_fins(
    thicknesses_mm: Sequence[float] = THICKNESSES_MM,
    height_mm: float = 60.0,
    width_mm: float = 12.0,
    gap_mm: float = 12.0,
    base_mm: float = 2.0,
    labels: bool = True,
) -> Specimen:
    """Upright walls of `height_mm` on one base, each with its thickness beside it."""
    thicknesses = in_order(thicknesses_mm, 0.3, 10, later("thicknesses in mm"))
    solids, x = [], gap_mm
    for thickness in thicknesses:
        solids.append(block((x, 2.0, 0), (x + thickness, 2.0 + width_mm, base_mm + height_mm)))
        if labels:
            y = 2.0 + 0.5 * (width_mm - HEIGHT_MM)
            solids += label(text_of(thickness), x - gap_mm + 1.0, y, base_mm)
        x += thickness + gap_mm
    solids.append(block((0, 0, 0), (x - gap_mm + 4.0, width_mm + 4.0, base_mm)))
    steps = tuple(
        Step(thickness, "mm", text_of(thickness), later("height at which the wall starts to waver"))
        for thickness in thicknesses
    )
    return Specimen(
        "slender-fins",
        say("How thin may a tall wall be before it wavers as it is printed?"),
        (Body("fins", "model", united(solids)),),
        steps,
    )
