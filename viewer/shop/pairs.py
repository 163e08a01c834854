"""Pairs of a model and a support material: how they part, and how the face between comes out."""

from typing import Literal

import msgspec

from viewer.shop.sound_values import name_check, refuse, sources_check
from viewer.words import say

Removal = Literal["cut", "peel", "water", "solvent"]


class Pair(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """What a part and its supports are made of.

    model, support_body, contact : names of materials; the contact layers are the few next to the
        part, and may be of another material than the bulk of the support
    contact_gap_mm : left between part and support, 0 where unlike materials part by themselves
    contact_layers : how many layers next to the part
    support_density, contact_density : share of the room that is filled
    removal : how the support comes off; solvent : the liquid that dissolves it
    bond : what is known about how the two hold together; bond_source : from where
    touched_face : how a face comes out that the support bore against, in words
    touch_weight : how much worse such a face is than a clean one; 1 as after breaking a support of
        the same material off, 0 as clean. Ranking weighs touch by it, trials correct it
    cautions : keys of texts in `cautions.py`
    sources : where each value comes from, by field
    """

    name: str
    model: str
    support_body: str
    contact: str
    contact_gap_mm: float = 0.2
    contact_layers: int = 2
    support_density: float = 0.15
    contact_density: float = 0.7
    removal: Removal = "cut"
    solvent: str = ""
    bond: str = ""
    bond_source: str = ""
    touched_face: str = ""
    touch_weight: float = 1.0
    cautions: tuple[str, ...] = ()
    sources: dict[str, str] = {}

    def __post_init__(self) -> None:
        refuse(
            say('Pair "{name}"', name=self.name),
            (
                name_check(self.name),
                (
                    all((self.model, self.support_body, self.contact)),
                    say(
                        "name the materials of the model, of the support body and of the "
                        "contact layers."
                    ),
                ),
                (
                    0 <= self.contact_gap_mm <= 5,
                    say("its contact gap must lie between 0 and 5 mm."),
                ),
                (
                    0 <= self.contact_layers <= 100,
                    say("it must have between 0 and 100 contact layers."),
                ),
                (
                    0.01 <= self.support_density <= 1 and 0.01 <= self.contact_density <= 1,
                    say(
                        "the densities of support and contact layers must lie between 0.01 and 1 "
                        "(full)."
                    ),
                ),
                (
                    0 <= self.touch_weight <= 10,
                    say("the weight of touch must lie between 0 (as clean) and 10."),
                ),
                (
                    self.removal != "solvent" or bool(self.solvent),
                    say("name the solvent that its support is dissolved in."),
                ),
                sources_check(self.sources, self.__struct_fields__),
            ),
        )

    @property
    def materials(self) -> tuple[str, ...]:
        """Names of its materials without repeats: model, support body, contact layers."""
        contact = self.contact if self.contact_layers else self.support_body
        return tuple(dict.fromkeys((self.model, self.support_body, contact)))

    @property
    def dissolves(self) -> bool:
        """Whether the support next to the part comes off in a liquid."""
        return self.removal in ("water", "solvent")

    def source(self, field: str) -> str:
        """Where a value comes from, "" where that is not said."""
        return self.sources.get(field, "")
