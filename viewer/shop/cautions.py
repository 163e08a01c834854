"""The usual cautions about materials and pairs, shown where they are chosen and for the client.

They do not replace a supplier's safety data sheet or the rules of a place.
"""

from typing import NamedTuple

from viewer.errors import RequestProblem
from viewer.shop.pairs import Pair
from viewer.shop.shop import PairMaterials
from viewer.words import say


class Caution(NamedTuple):
    """One caution; `source` says where it comes from."""

    key: str
    text: str
    source: str


_ALL = (
    Caution(
        "ventilate",
        "Printing gives off ultrafine particles and vapours: ventilate the room, and do not sit "
        "beside the machine. ANSI/CAN/UL 2904 is the test method by which machines and materials "
        "are compared.",
        "READ Stephens et al. 2013; Azimi et al. 2016; ANSI/CAN/UL 2904 as test method",
    ),
    Caution(
        "hot",
        "Nozzle, platform and fresh material are hot: let them cool before you reach in.",
        "common practice, no source",
    ),
    Caution(
        "data-sheet",
        "Follow the supplier's safety data sheet of every material and liquid, and the rules of "
        "your place; where they say otherwise, they are right.",
        "common practice, no source",
    ),
    Caution(
        "not-qualified",
        "Not for parts that bear loads or protect, for medical use, food or children, without the "
        "qualified assessment that applies there.",
        "common practice, no source",
    ),
    Caution(
        "styrene",
        "This material gives off styrene as well: ventilate to the outside.",
        "READ Stephens et al. 2013; Azimi et al. 2016 (ABS and HIPS)",
    ),
    Caution(
        "dissolving-solvent",
        "Solvents: wear gloves and glasses, ventilate, keep away from flames and sparks, collect "
        "what is used up as hazardous waste, never into drains.",
        "common practice, no source",
    ),
    Caution(
        "limonene",
        "Limonene (CAS 5989-27-5) is flammable (flash point 48 °C), irritates and sensitises the "
        "skin (H226, H304, H315, H317), and is very toxic to water life (H410): not into drains. "
        "Rags soaked in it can take fire by themselves: keep them in a closed metal bin, wet.",
        "READ safety data sheet; the closed bin is common practice, no source",
    ),
    Caution(
        "dissolving-water",
        "Water with dissolved support goes to waste as the supplier says, in small amounts with "
        "much water; the material takes up moisture and has to be kept dry until it is printed.",
        "READ/MEM supplier notes",
    ),
    Caution(
        "test-bond",
        "How strongly these two hold depends on grades, temperatures and on which lies on top: "
        "print a test piece in both stacking orders first.",
        "READ Zatloukal et al. 2025, Materials 18:3846, for PLA and PETG",
    ),
    Caution(
        "knife",
        "Breaking and cutting supports off throws splinters: wear glasses, cut away from yourself.",
        "common practice, no source",
    ),
)
CAUTIONS = {caution.key: caution for caution in _ALL}
ALWAYS = ("ventilate", "hot", "data-sheet", "not-qualified")


def cautions_for(pair: Pair, materials: PairMaterials) -> tuple[Caution, ...]:
    """What to say about a pair: what is particular first, then what always holds.

    Raises RequestProblem if pair or materials name a caution that does not exist.
    """
    keys = [*pair.cautions, *(key for material in materials for key in material.cautions)]
    if pair.removal == "solvent":
        keys.append("dissolving-solvent")
    unknown = next((key for key in keys if key not in CAUTIONS), None)
    if unknown is not None:
        raise RequestProblem(
            say(
                '"{name}" names the caution "{unknown}", which there is not; known: {keys}.',
                name=pair.name,
                unknown=unknown,
                keys=", ".join(CAUTIONS),
            )
        )
    return tuple(CAUTIONS[key] for key in dict.fromkeys([*keys, *ALWAYS]))
