"""Nozzle-offset check: two combs of slightly different pitch, one in each material.

The pair of bars that lines up tells the offset between two nozzles along that axis, as on the
vernier of a calliper; one pair of combs along x, one along y.
"""

import manifold3d

from viewer.errors import RequestProblem
from viewer.geometry.specimens.relief import HEIGHT_MM, label, label_width_mm, text_of
from viewer.geometry.specimens.specimen import Body, Specimen, Step, block, united
from viewer.words import later, say

_BAR_MM = (1.2, 8.0, 1.2)  # across, along, high
_BASE_MM = 0.6


def nozzle_offset(
    step_mm: float = 0.05, bars: int = 13, pitch_mm: float = 4.0, labels: bool = True
) -> Specimen:
    """Combs of `bars` bars; pair number k from the middle lines up at an offset of k · step.

    step_mm : 0.01 to 0.5; bars : an odd number from 3 to 41
    """
    if not (0.01 <= step_mm <= 0.5 and 3 <= bars <= 41 and bars % 2 and pitch_mm >= 2.5):
        raise RequestProblem(
            say(
                "The offset check takes a step from 0.01 to 0.5 mm and an odd number of bars, "
                "3 to 41."
            )
        )
    half = bars // 2
    model, support = [], []
    for axis in (0, 1):
        solids = _comb(axis, half, pitch_mm, step_mm, labels)
        model += solids[0]
        support += solids[1]
    words = later("bars of both materials in one line")
    steps = tuple(
        Step(k * step_mm, "mm", text_of(k * step_mm), words) for k in range(-half, half + 1)
    )
    return Specimen(
        "nozzle-offset",
        say("How far is the second nozzle off the first along x and y?"),
        (Body("model", "model", united(model)), Body("support", "support", united(support))),
        steps,
    )


def _comb(axis, half, pitch, step, labels) -> tuple[list, list]:
    """The combs along one axis: base and bars of the model, bars of the other material."""
    across, along, high = _BAR_MM
    reach = half * pitch + 4.0
    room = HEIGHT_MM + 2.0
    top = _BASE_MM + high
    model = [block((-reach, -along - room, 0), (reach, along + 1.0, _BASE_MM))]
    other = []
    for k in range(-half, half + 1):
        at, beside = k * pitch, k * (pitch - step)
        model.append(block((at - across / 2, -along, 0), (at + across / 2, 0, top)))
        low = (beside - across / 2, 0.2, _BASE_MM)
        other.append(block(low, (beside + across / 2, 0.2 + along, top)))
    if labels:
        for k in (-half, 0, half):
            text = text_of(k * step)
            x = min(max(k * pitch - label_width_mm(text) / 2, -reach + 0.5),
                    reach - 0.5 - label_width_mm(text))  # fmt: skip
            model += label(text, x, -along - room + 1.0, _BASE_MM)
    if axis == 0:
        return model, other
    away = reach + along + room + 6.0
    return _turned(model, away), _turned(other, away)


def _turned(solids: list[manifold3d.Manifold], away_mm: float) -> list[manifold3d.Manifold]:
    """Combs that run along y, beside those along x."""
    return [solid.rotate([0, 0, 90]).translate([away_mm, 0, 0]) for solid in solids]
