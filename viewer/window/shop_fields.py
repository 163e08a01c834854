"""What the form asks of a machine, material, pair or process: words, units and ranges by field.

The ranges are those that the things themselves accept; a test holds the two against each other.
"""

from dataclasses import dataclass, field
from typing import get_args

from viewer.shop.machines import ForbiddenArea, Machine, Nozzle
from viewer.shop.materials import Material, Warping, WhenIdle
from viewer.shop.pairs import Pair, Removal
from viewer.shop.processes import Order, Process
from viewer.words import later, say

# Of a field's name, the longest first: what its number is counted in.
UNITS = {
    "_mm3_s": "mm³/s", "_mm_s2": "mm/s²", "_g_cm3": "g/cm³", "_mm_s": "mm/s", "_mm3": "mm³",
    "_mm": "mm", "_deg": "°", "_s": "s",
}  # fmt: skip
TITLES = {
    "machines": later("Machines"),
    "materials": later("Materials"),
    "pairs": later("Pairs"),
    "processes": later("Walls and fill"),
}
CHOICE_WORDS = {
    "cut": later("cut off"), "peel": later("peel off"), "water": later("water"),
    "solvent": later("solvent"), "little": later("little"), "some": later("some"),
    "much": later("much"), "oozes": later("oozes"), "strings": later("strings"),
    "chars": later("chars"), "alternating": later("alternating"), "fixed": later("fixed"),
}  # fmt: skip


@dataclass(frozen=True)
class FormField:
    """One value of the form.

    kind : "number", "count", "text", "yes", "choice", "choices", "place" (x, y), "size" (x, y, z),
        "material" (a name of one) or "parts" (a list of things of their own)
    low, high : what a number may be; choices : what a choice may be
    """

    name: str
    title: str
    tip: str = ""
    kind: str = "number"
    low: float = 0.0
    high: float = 1e6
    decimals: int = 1
    choices: tuple[str, ...] = field(default=())

    @property
    def unit(self) -> str:
        """What a number is counted in, "" for a bare one."""
        return next((unit for end, unit in UNITS.items() if self.name.endswith(end)), "")

    @property
    def told_tip(self) -> str:
        """What it means, and within which range a number has to lie."""
        if self.kind not in ("number", "count", "place", "size"):
            return say(self.tip)
        unit = f" {self.unit}" if self.unit else ""
        between = say(
            "Between {low:g} and {high:,g}{unit}.", low=self.low, high=self.high, unit=unit
        )
        return f"{say(self.tip)} {between}".strip()


def _text(name: str, title: str, tip: str = "") -> FormField:
    return FormField(name, title, tip, "text")


def _choice(name: str, title: str, tip: str, of: object, kind: str = "choice") -> FormField:
    return FormField(name, title, tip, kind, choices=get_args(of))


NOZZLE = (
    _text("name", later("Name")),
    FormField("diameter_mm", later("Diameter"), low=0.05, high=5, decimals=2),
    FormField("flow_limit_mm3_s", later("Flow limit"),
              later("The most that it melts in a second."), low=0.05, high=2000, decimals=2),
    FormField("reach_low_mm", later("Reach from"),
              later("Lower corner of the box it reaches; x and y are 0 at the platform's centre."),
              "size", -10_000, 10_000),
    FormField("reach_high_mm", later("Reach to"), later("Upper corner of that box."), "size",
              -10_000, 10_000),
)  # fmt: skip
FORBIDDEN = (
    _text("name", later("Name")),
    FormField("low_mm", later("From"), later("Lower corner of the rectangle."), "place",
              -10_000, 10_000),
    FormField("high_mm", later("To"), later("Upper corner of the rectangle."), "place",
              -10_000, 10_000),
    FormField("to_mm", later("Up to"), later("Height up to which it stays free; 0 for any."),
              high=10_000),
)  # fmt: skip
PARTS = {"nozzles": (Nozzle, NOZZLE), "forbidden": (ForbiddenArea, FORBIDDEN)}
FIELDS: dict[type, tuple[FormField, ...]] = {
    Machine: (
        _text("name", later("Name")),
        FormField("build_volume_mm", later("Build volume"), later("Width, depth and height."),
                  "size", 1, 10_000),
        FormField("nozzles", later("Nozzles"),
                  later("Each with the box it reaches, which two rarely share."), "parts"),
        FormField("shared_nozzle", later("Shared nozzle"),
                  later("All materials go through one nozzle, which is purged at each change."),
                  "yes"),
        FormField("materials", later("Materials loaded"), later("How many at once."), "count",
                  1, 64),
        FormField("travel_mm_s", later("Travel"), later("Speed of moves without printing."),
                  low=1, high=5000),
        FormField("acceleration_mm_s2", later("Acceleration"), later("Of all moves."),
                  low=1, high=1e6, decimals=0),
        FormField("tool_change_s", later("Tool change"),
                  later("Time of a change of material, without what is purged."), high=3600),
        FormField("purge_mm3", later("Purge"),
                  later("Pushed through a shared nozzle at each change."), high=10_000),
        FormField("prime_mm3", later("Prime"),
                  later("Pushed out when a nozzle of its own takes over."), high=10_000),
        FormField("purge_body_mm", later("Purge body"),
                  later("Foot of the body printed beside the part out of what is purged; 0 for "
                        "none."), "place", 0, 1000),
        FormField("layer_low_mm", later("Lowest layer"), low=0.01, high=5, decimals=2),
        FormField("layer_high_mm", later("Highest layer"), low=0.01, high=5, decimals=2),
        FormField("start_s", later("Start"), later("Heating, levelling and cooling down."),
                  high=86_400, decimals=0),
        FormField("layer_change_s", later("Layer change"), later("Moving up, at each layer."),
                  high=600),
        FormField("hourly_rate", later("Hourly rate"), later("Money for an hour."), high=1e6,
                  decimals=2),
        _text("currency", later("Currency"), later("In up to 8 letters.")),
        FormField("forbidden", later("Forbidden areas"),
                  later("Rectangles of the platform that must stay free."), "parts"),
        _text("notes", later("Notes")),
    ),
    Material: (
        _text("name", later("Name")),
        FormField("density_g_cm3", later("Density"), low=0.05, high=25, decimals=3),
        FormField("price_per_kg", later("Price per kg"), later("In the machine's currency."),
                  high=1e6, decimals=2),
        FormField("flow_limit_mm3_s", later("Flow limit"),
                  later("The most that melts well in a second."), low=0.05, high=2000, decimals=2),
        FormField("min_layer_s", later("Minimum layer time"),
                  later("A layer printed quicker is still soft under the next one."), high=600),
        FormField("bridge_limit_mm", later("Bridge limit"), later("What it spans in the air."),
                  high=200),
        FormField("support_limit_deg", later("Support limit"),
                  later("The smallest inclination from horizontal that holds itself up."), high=90),
        FormField("flexible", later("Flexible"), later("It wobbles on tall slender sections."),
                  "yes"),
        _choice("warping", later("Warping"), later("How much its corners lift."), Warping),
        _choice("when_idle", later("When idle"),
                later("What it does in a hot nozzle that waits."), WhenIdle, "choices"),
        _text("drying", later("Drying")),
        _text("emissions", later("Emissions")),
        FormField("cautions", later("Cautions"), kind="choices"),
    ),
    Pair: (
        _text("name", later("Name")),
        FormField("model", later("Part"), later("What the part is made of."), "material"),
        FormField("support_body", later("Support body"), later("The bulk of the supports."),
                  "material"),
        FormField("contact", later("Contact layers of"),
                  later("The few layers next to the part; may be of another material."),
                  "material"),
        FormField("contact_layers", later("Contact layers"), later("How many."), "count", 0, 100),
        FormField("contact_gap_mm", later("Contact gap"),
                  later("Left between part and support; 0 where unlike materials part by "
                        "themselves."), high=5, decimals=2),
        FormField("support_density", later("Support density"), later("Share that is filled."),
                  low=0.01, high=1, decimals=2),
        FormField("contact_density", later("Contact density"), later("Share that is filled."),
                  low=0.01, high=1, decimals=2),
        _choice("removal", later("Removal"), later("How the support comes off."), Removal),
        _text("solvent", later("Solvent"), later("The liquid that dissolves it.")),
        _text("bond", later("Bond"), later("What is known about how the two hold together.")),
        _text("bond_source", later("Bond, source"), later("From where.")),
        _text("touched_face", later("Touched face"),
              later("How a face comes out that the support bore against.")),
        FormField("touch_weight", later("Weight of touch"),
                  later("How much worse a touched face is than a clean one: 0 as clean, 1 as after "
                        "breaking off. Ranking weighs touch by it."), high=10, decimals=2),
        FormField("cautions", later("Cautions"), kind="choices"),
    ),
    Process: (
        _text("name", later("Name")),
        FormField("walls", later("Walls"), later("Roads along each outline."), "count", 0, 100),
        FormField("skin_layers", later("Full layers"), later("At tops and bottoms."), "count",
                  0, 50),
        FormField("fill_density", later("Fill density"), later("Share of the inside."), high=1,
                  decimals=2),
        FormField("wall_mm_s", later("Walls, speed"), low=0.1, high=5000),
        FormField("fill_mm_s", later("Fill, speed"), low=0.1, high=5000),
        FormField("support_mm_s", later("Supports, speed"), low=0.1, high=5000),
        FormField("first_layer_mm_s", later("First layer, speed"), low=0.1, high=5000),
        _choice("order", later("Order"),
                later("Alternating starts each layer with the material of the last; fixed prints "
                      "support first in every layer."), Order),
        FormField("spacing_mm", later("Spacing"), later("Gap between copies on the platform."),
                  high=1000),
    ),
}  # fmt: skip
