"""The user's materials: what they weigh and cost, how fast they flow, what they are like."""

from typing import Literal

import msgspec

from viewer.shop.sound_values import name_check, refuse, sources_check
from viewer.words import say

Warping = Literal["little", "some", "much"]
WhenIdle = Literal["oozes", "strings", "chars"]


class Material(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """One material.

    flow_limit_mm3_s : most that melts well in a second
    min_layer_s : a layer printed quicker than that is still soft under the next one
    bridge_limit_mm, support_limit_deg : what it spans and leans without support, the latter from
        horizontal
    warping : how much its corners lift
    when_idle : what it does in a hot nozzle that waits
    drying, emissions : notes for people
    cautions : keys of texts in `cautions.py`
    sources : where each value comes from, by field
    """

    name: str
    density_g_cm3: float
    price_per_kg: float
    flow_limit_mm3_s: float = 10.0
    min_layer_s: float = 8.0
    bridge_limit_mm: float = 5.0
    support_limit_deg: float = 45.0
    flexible: bool = False
    warping: Warping = "little"
    when_idle: tuple[WhenIdle, ...] = ()
    drying: str = ""
    emissions: str = ""
    cautions: tuple[str, ...] = ()
    sources: dict[str, str] = {}

    def __post_init__(self) -> None:
        refuse(
            say('Material "{name}"', name=self.name),
            (
                name_check(self.name),
                (
                    0.05 <= self.density_g_cm3 <= 25,
                    say("its density must lie between 0.05 and 25 g/cm³."),
                ),
                (
                    0 <= self.price_per_kg <= 1e6,
                    say("its price per kg must lie between 0 and 1000000."),
                ),
                (
                    0.05 <= self.flow_limit_mm3_s <= 2000,
                    say("its flow limit must lie between 0.05 and 2000 mm³/s."),
                ),
                (
                    0 <= self.min_layer_s <= 600,
                    say("its shortest time for a layer must lie between 0 and 600 seconds."),
                ),
                (
                    0 <= self.bridge_limit_mm <= 200,
                    say("its bridge limit must lie between 0 and 200 mm."),
                ),
                (
                    0 <= self.support_limit_deg <= 90,
                    say("its support limit must lie between 0° and 90°."),
                ),
                sources_check(self.sources, self.__struct_fields__),
            ),
        )

    def source(self, field: str) -> str:
        """Where a value comes from, "" where that is not said."""
        return self.sources.get(field, "")
