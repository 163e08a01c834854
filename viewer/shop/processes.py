"""How a part is printed beyond layer height and road width: walls, fill, speeds, order."""

from typing import Literal

import msgspec

from viewer.shop.sound_values import name_check, refuse, sources_check
from viewer.words import say

Order = Literal["alternating", "fixed"]


class Process(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """One set of process values.

    walls : roads along each outline
    skin_layers : full layers at tops and bottoms
    fill_density : share of the inside that is filled
    wall_mm_s, fill_mm_s, support_mm_s, first_layer_mm_s : speeds; flow limits may slow them down
    order : "alternating" starts each layer with the material of the last; "fixed" prints support,
        contact layers and model in this order in every layer
    spacing_mm : gap between copies on the platform
    sources : where each value comes from, by field
    """

    name: str
    walls: int = 2
    skin_layers: int = 4
    fill_density: float = 0.2
    wall_mm_s: float = 40.0
    fill_mm_s: float = 60.0
    support_mm_s: float = 60.0
    first_layer_mm_s: float = 20.0
    order: Order = "alternating"
    spacing_mm: float = 5.0
    sources: dict[str, str] = {}

    def __post_init__(self) -> None:
        speeds = (self.wall_mm_s, self.fill_mm_s, self.support_mm_s, self.first_layer_mm_s)
        refuse(
            say('Process "{name}"', name=self.name),
            (
                name_check(self.name),
                (0 <= self.walls <= 100, say("it must have between 0 and 100 walls.")),
                (0 <= self.skin_layers <= 50, say("it must have between 0 and 50 full layers.")),
                (
                    0 <= self.fill_density <= 1,
                    say("the density of the fill must lie between 0 and 1 (full)."),
                ),
                (
                    all(0.1 <= speed <= 5000 for speed in speeds),
                    say("each speed must lie between 0.1 and 5000 mm/s."),
                ),
                (0 <= self.spacing_mm <= 1000, say("the spacing must lie between 0 and 1000 mm.")),
                sources_check(self.sources, self.__struct_fields__),
            ),
        )

    def source(self, field: str) -> str:
        """Where a value comes from, "" where that is not said."""
        return self.sources.get(field, "")
