"""Terrace wedge: gentle slopes side by side, to find the terrace width that starts to show."""

from collections.abc import Sequence

import numpy as np

from viewer.geometry.specimens.relief import HEIGHT_MM, label, label_width_mm, text_of
from viewer.geometry.specimens.specimen import (
    Body,
    Specimen,
    Step,
    drawn_out,
    in_order,
    united,
)
from viewer.words import later, say

ANGLES_DEG = (3, 5, 7, 10, 14, 20, 30, 45)


def terrace_wedge(
    angles_deg: Sequence[float] = ANGLES_DEG,
    run_mm: float = 24.0,
    width_mm: float = 9.0,
    base_mm: float = 2.0,
    labels: bool = True,
) -> Specimen:
    """Ramps side by side behind a level strip that bears the labels.

    angles_deg : from horizontal; with layers of t a terrace is t / tan α wide
    """
    angles = in_order(angles_deg, 1, 60, later("angles in degrees"))
    room = 11.0
    solids = []
    for k, angle in enumerate(angles):
        rise = run_mm * np.tan(np.radians(angle))
        outline = [
            (-room, 0.0), (run_mm, 0.0), (run_mm, base_mm + rise), (0.0, base_mm), (-room, base_mm)
        ]  # fmt: skip
        solids.append(drawn_out(outline, k * width_mm, (k + 1) * width_mm))
        if labels:
            text = text_of(angle)
            x = -room + 0.5 * (room - label_width_mm(text))
            solids += label(text, x, k * width_mm + 0.5 * (width_mm - HEIGHT_MM), base_mm)
    steps = tuple(
        Step(
            angle, "deg", text_of(angle), later("terraces seen and felt, seen only, or not at all")
        )
        for angle in angles
    )
    return Specimen(
        "terrace-wedge",
        say("Up to which inclination do terraces show, and how wide is a terrace that does?"),
        (Body("wedge", "model", united(solids)),),
        steps,
    )
