"""Islands by their definition, from exact sections of a solid modeller, to test the fast search.

Sections of neighbouring layers are cut with one another: a component of a section that has no area
in common with the section below is an island. It shares nothing with the program but that.
"""

from dataclasses import dataclass

import manifold3d
import numpy as np

_STEPS = 24  # sections between two layers, to see whether a sliver leans out of the layer below
_OVER_MM = 2e-6  # the program takes a level face on a plane to lie below it
_LEAST_MM2 = 1e-8


@dataclass(frozen=True)
class FoundIsland:
    """layer : 0-based; area_mm2; box_mm : (4,) low x, low y, high x, high y of the region;
    leaning : connected to the layer below through what lies between them, without overlapping it.
    """

    layer: int
    area_mm2: float
    box_mm: tuple[float, float, float, float]
    leaning: bool


def islands_by_sections(solid: manifold3d.Manifold, layer_mm: float) -> list[FoundIsland]:
    """All islands of a solid that stands on z = 0."""
    height = solid.bounding_box()[5]
    found = []
    below = solid.slice(0.5 * layer_mm + _OVER_MM)
    for k in range(1, int(np.ceil(height / layer_mm)) + 1):
        here = solid.slice((k + 0.5) * layer_mm + _OVER_MM)
        for part in here.decompose():
            if part.area() > _LEAST_MM2 and (part ^ below).area() <= _LEAST_MM2:
                leaning = _connected(solid, part, k, layer_mm)
                found.append(FoundIsland(k, part.area(), part.bounds(), leaning))
        below = here
    return found


def _connected(solid, part, k, layer_mm):
    """Whether a region is connected to the layer below through sections between the two."""
    nodes, edges = [[part]], []
    for step in range(1, _STEPS + 1):
        z = (k + 0.5 - step / _STEPS) * layer_mm + _OVER_MM
        nodes.append(solid.slice(z).decompose())
        for i, upper in enumerate(nodes[-2]):
            for j, lower in enumerate(nodes[-1]):
                if (upper ^ lower).area() > 0:
                    edges.append(((step - 1, i), (step, j)))
    reached, grew = {(0, 0)}, True
    while grew:
        more = {b for a, b in edges if a in reached} | {a for a, b in edges if b in reached}
        grew = not more <= reached
        reached |= more
    return any(step == _STEPS for step, _ in reached)
