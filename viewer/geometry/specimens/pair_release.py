"""Pair release piece: does the support material come off, whichever of the two lies on top?

Stacking order matters (which material is printed onto the other), so there are two rows: support
on model, and model on support, each with gaps from 0 up. Every upper block has a tab to peel by.
"""

from collections.abc import Sequence

import manifold3d

from viewer.geometry.specimens.relief import HEIGHT_MM, label, text_of
from viewer.geometry.specimens.specimen import (
    Body,
    Material,
    Specimen,
    Step,
    block,
    in_order,
    united,
)
from viewer.words import later, say

GAPS_MM = (0.0, 0.1, 0.2, 0.3)
_BLOCK_MM = (16.0, 12.0, 4.0)  # that touch each other: along x, along y, high
_BESIDE_MM = 4.0  # between two blocks of a row
_TAB_MM, _TAB_AWAY_MM = 6.0, 0.6  # length of the tab, and how far it stands off the lower block
# Which of the two lies on top, by its name.
_ON = {
    "support": later("support on model: falls off, peels, tears or stays"),
    "model": later("model on support: falls off, peels, tears or stays"),
}
_ROW_MM = 16.0  # between the rows


def pair_release(gaps_mm: Sequence[float] = GAPS_MM, labels: bool = True) -> Specimen:
    """Two rows of stacked blocks: support on model in front, model on support behind.

    gaps_mm : upright distance between the two blocks of each stack, 0 to 2
    """
    gaps = in_order(gaps_mm, 0, 2, later("gaps in mm"))
    bodies, steps = [], []
    for row, (lower, upper) in enumerate((("model", "support"), ("support", "model"))):
        solids: dict[Material, list[manifold3d.Manifold]] = {"model": [], "support": []}
        y = row * (_BLOCK_MM[1] + _ROW_MM)
        for k, gap in enumerate(gaps):
            x = k * (_BLOCK_MM[0] + _TAB_AWAY_MM + _TAB_MM + _BESIDE_MM)
            solids[lower].append(_lower(x, y))
            solids[upper] += _upper(x, y, gap)
            if labels:
                z = 2 * _BLOCK_MM[2] + gap
                solids[upper] += label(
                    text_of(gap), x + 1.5, y + 0.5 * (_BLOCK_MM[1] - HEIGHT_MM), z
                )
            words = _ON[upper]
            steps.append(Step(gap, "mm", text_of(gap), words))
        bodies += [
            Body(f"{material}, {upper} on {lower}", material, united(made))
            for material, made in solids.items()
        ]
    return Specimen(
        "pair-release",
        say(
            "At which gap does this pair of materials hold while printing and come off afterwards?"
        ),
        tuple(bodies),
        tuple(steps),
    )


def _lower(x: float, y: float) -> manifold3d.Manifold:
    return block((x, y, 0), (x + _BLOCK_MM[0], y + _BLOCK_MM[1], _BLOCK_MM[2]))


def _upper(x: float, y: float, gap: float) -> list[manifold3d.Manifold]:
    """The upper block, and its tab that stands on the platform beside the lower one."""
    length, width, height = _BLOCK_MM
    under, top = height + gap, 2 * height + gap
    leg, end = x + length + _TAB_AWAY_MM, x + length + _TAB_AWAY_MM + _TAB_MM
    return [
        block((x, y, under), (end, y + width, top)),
        block((leg, y, 0), (end, y + width, top)),
    ]
