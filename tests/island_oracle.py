"""Islands by their definition, from exact sections of a solid modeller, to test the fast search.

Sections of neighbouring layers are cut with one another: a component of a section that has no area
in common with the section below is an island. It shares nothing with the program but that.
"""

from dataclasses import dataclass

import manifold3d
import numpy as np

_OVER_MM = 2e-6  # the program takes a level face on a plane to lie below it
_LEAST_MM2 = 1e-8


@dataclass(frozen=True)
class FoundIsland:
    """layer : 0-based; area_mm2; centre_mm : (2,) centroid of the region;
    leaning : connected to the layer below through what lies between the two, though not over it.
    """

    layer: int
    area_mm2: float
    centre_mm: np.ndarray
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
                found.append(FoundIsland(k, part.area(), _centroid(part), leaning))
        below = here
    return found


def _centroid(part) -> np.ndarray:
    area, moment = 0.0, np.zeros(2)
    for outline in part.to_polygons():
        a, b = outline, np.roll(outline, -1, axis=0)
        twice = a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]
        area += twice.sum()
        moment += ((a + b) * twice[:, None]).sum(axis=0) / 3
    return moment / area


def _connected(solid, part, k, layer_mm):
    """Whether a region is connected to the layer below through the slab between the two."""
    top, floor = (k + 0.5) * layer_mm + _OVER_MM, (k - 0.5) * layer_mm + _OVER_MM
    slab = solid.trim_by_plane((0, 0, -1), -top - _OVER_MM).trim_by_plane((0, 0, 1), floor)
    for piece in slab.decompose():
        if (piece.slice(top) ^ part).area() > 0.5 * part.area():
            return piece.bounding_box()[2] <= floor + 1e-9
    raise AssertionError("the region is in no piece of its slab")
