"""Bridge ladder: level beams over wider and wider spans, to find the bridge limit."""

from collections.abc import Sequence

from viewer.geometry.specimens.relief import HEIGHT_MM, label, label_width_mm, text_of
from viewer.geometry.specimens.specimen import Body, Specimen, Step, block, in_order, united
from viewer.words import later, say

SPANS_MM = (5, 10, 15, 20, 25, 30, 40, 50)
_POST_MM = 4.0
_BASE_MM = 1.0


def bridge_ladder(
    spans_mm: Sequence[float] = SPANS_MM,
    width_mm: float = 8.0,
    clear_mm: float = 8.0,
    beam_mm: float = 2.0,
    gap_mm: float = 4.0,
    labels: bool = True,
) -> Specimen:
    """Gates side by side on one base; each beam lies on two posts, `clear_mm` above the base."""
    spans = in_order(spans_mm, 2, 200, later("spans in mm"))
    room = HEIGHT_MM + 5.0
    longest, total = spans[-1] + 2 * _POST_MM, len(spans) * (width_mm + gap_mm) + gap_mm
    solids = [block((-room, 0, 0), (longest, total, _BASE_MM))]
    for k, span in enumerate(spans):
        y = gap_mm + k * (width_mm + gap_mm)
        far, under, top = span + _POST_MM, _BASE_MM + clear_mm, _BASE_MM + clear_mm + beam_mm
        solids += [
            block((0, y, 0), (_POST_MM, y + width_mm, top)),
            block((far, y, 0), (far + _POST_MM, y + width_mm, top)),
            block((0, y, under), (far + _POST_MM, y + width_mm, top)),
        ]
        if labels:
            text = text_of(span)
            x = -room + 0.5 * (room - label_width_mm(text))
            solids += label(text, x, y + 0.5 * (width_mm - HEIGHT_MM), _BASE_MM)
    steps = tuple(
        Step(span, "mm", text_of(span), later("beam level, sagging or torn")) for span in spans
    )
    return Specimen(
        "bridge-ladder",
        say("How wide a gap does a level underside cross without support?"),
        (Body("ladder", "model", united(solids)),),
        steps,
    )
