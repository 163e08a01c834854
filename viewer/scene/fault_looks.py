"""How faults look wherever they are drawn: a colour, a hatch and a shape for each family."""

from dataclasses import dataclass
from enum import Enum

from viewer.scene import palettes
from viewer.scene.hatches import Hatch
from viewer.scene.palettes import Colour
from viewer.words import later


class Shape(Enum):
    """The outline of a marker."""

    DISC = "disc"
    DIAMOND = "diamond"
    TRIANGLE = "triangle"
    SQUARE = "square"
    RING = "ring"
    CROSS = "cross"


@dataclass(frozen=True)
class FaultLook:
    """What the faults of one family share."""

    label: str
    colour: Colour
    hatch: Hatch
    shape: Shape


# In the order of the numbers that the shader reads, from 1.
FAULT_LOOKS = (
    FaultLook(later("does not close"), palettes.VERMILION, Hatch.RISING, Shape.DISC),
    FaultLook(later("crosses or meets wrongly"), palettes.BLUE, Hatch.FALLING, Shape.DIAMOND),
    FaultLook(later("faces the wrong way"), palettes.ORANGE, Hatch.LEVEL, Shape.TRIANGLE),
    FaultLook(later("is there twice"), palettes.BLUISH_GREEN, Hatch.DOTS, Shape.SQUARE),
    FaultLook(later("thin, small or loose"), palettes.DARK_GREY, Hatch.NONE, Shape.RING),
)
_FAMILY = {
    "open_edges": 1,
    "loose_surfaces": 1,
    "nonmanifold_edges": 2,
    "nonmanifold_vertices": 2,
    "self_intersecting_faces": 2,
    "touching_shells": 2,
    "edge_contacts": 2,
    "overlapping_shells": 2,
    "flipped_edges": 3,
    "inward_shells": 3,
    "duplicate_faces": 4,
    "opposite_faces": 4,
    "doubled_faces": 4,
    "zero_thickness_sheets": 4,
}


def family(kind: str) -> int:
    """Number of a kind's family, from 1: its place in FAULT_LOOKS."""
    return _FAMILY.get(kind, len(FAULT_LOOKS))


def look_of(kind: str) -> FaultLook:
    """How a kind of fault is drawn."""
    return FAULT_LOOKS[family(kind) - 1]
