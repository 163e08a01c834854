"""Inclination fan: blades that lean at known angles, to find the support limit of a material."""

from collections.abc import Sequence

import numpy as np

from viewer.geometry.specimens.relief import HEIGHT_MM, label, label_width_mm, text_of
from viewer.geometry.specimens.specimen import (
    Body,
    Specimen,
    Step,
    block,
    drawn_out,
    in_order,
    united,
)
from viewer.words import later, say

ANGLES_DEG = (15, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 75)


def inclination_fan(
    angles_deg: Sequence[float] = ANGLES_DEG,
    blade_mm: tuple[float, float, float] = (20.0, 10.0, 3.0),
    gap_mm: float = 3.0,
    base_mm: float = 3.0,
    labels: bool = True,
) -> Specimen:
    """Blades side by side, each leaning over the edge of one base at an angle from horizontal.

    angles_deg : 10° to 80°; blade_mm : length along the slope, width, thickness
    The underside of each blade has its whole length and width to be looked at.
    """
    angles = in_order(angles_deg, 10, 80, later("angles in degrees"))
    length, width, thickness = blade_mm
    feet = [thickness / np.sin(np.radians(angle)) for angle in angles]
    room = HEIGHT_MM + 3.0
    back, total = max(feet) + room, len(angles) * (width + gap_mm) + gap_mm
    solids = [block((-back, 0, 0), (0, total, base_mm))]
    for k, (angle, foot) in enumerate(zip(angles, feet, strict=True)):
        out, up = length * np.cos(np.radians(angle)), length * np.sin(np.radians(angle))
        outline = [
            (-foot, 0.0), (0.0, 0.0), (0.0, base_mm), (out, base_mm + up),
            (out - foot, base_mm + up), (-foot, base_mm),
        ]  # fmt: skip
        y = gap_mm + k * (width + gap_mm)
        solids.append(drawn_out(outline, y, y + width))
        if labels:
            text = text_of(angle)
            x = -back + 0.5 * (room - label_width_mm(text))
            solids += label(text, x, y + 0.5 * (width - HEIGHT_MM), base_mm)
    steps = tuple(
        Step(angle, "deg", text_of(angle), later("underside clean, rough or drooping"))
        for angle in angles
    )
    return Specimen(
        "inclination-fan",
        say("From which inclination on does an underside hold itself up cleanly?"),
        (Body("fan", "model", united(solids)),),
        steps,
    )
