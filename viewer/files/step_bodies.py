"""The bodies of a CAD file, and the sentence that says which of them enclose anything."""

from dataclasses import dataclass

from viewer.words import say

SOLID = "solid"
OPEN_SOLID = "open solid"
CLOSED_SURFACE = "closed surface"
LOOSE_SURFACE = "loose surface"

_WORDS = {
    SOLID: ("solid", "solids"),
    CLOSED_SURFACE: (
        "closed surface that is not called a solid",
        "closed surfaces that are not called solids",
    ),
    OPEN_SOLID: ("solid whose surface has a gap", "solids whose surfaces have gaps"),
    LOOSE_SURFACE: ("loose surface that encloses nothing", "loose surfaces that enclose nothing"),
}
_MOST_NAMED = 3


@dataclass(frozen=True)
class Body:
    """One solid or free surface of a CAD file, placed as the assembly places it.

    names : names from the root of the assembly down to the body; a part used twice comes twice
    kind : SOLID, OPEN_SOLID (called a solid by the file, yet its surface has a gap),
        CLOSED_SURFACE (encloses space without being called a solid), LOOSE_SURFACE
    patch_count : faces of the CAD model it has; patches are numbered body after body
    """

    names: tuple[str, ...]
    kind: str
    patch_count: int

    @property
    def is_closed(self) -> bool:
        """Whether the body encloses space without a gap."""
        return self.kind in (SOLID, CLOSED_SURFACE)


def bodies_sentence(bodies: tuple[Body, ...]) -> str:
    """What the file holds, such as "3 solids, 2 loose surfaces that enclose nothing."."""
    said = []
    for kind, (one, many) in _WORDS.items():
        count = sum(body.kind == kind for body in bodies)
        if count:
            said.append(f"{count:,} {say(one if count == 1 else many)}")
    return ", ".join(said) + "."


def names_sentence(bodies: tuple[Body, ...]) -> str:
    """The first few bodies by name; "" for a single body or where none has a name."""
    names = [" / ".join(filter(None, body.names)) for body in bodies]
    if len(bodies) < 2 or not any(names):
        return ""
    told = [name or say("one without a name") for name in names[:_MOST_NAMED]]
    more = len(names) - len(told)
    return (
        say("Bodies: ") + ", ".join(told) + (say(" and {more:,} more.", more=more) if more else ".")
    )


def advice(bodies: tuple[Body, ...], sew_mm: float) -> str:
    """What to do about surfaces that enclose nothing; "" where every body is closed."""
    if all(body.is_closed for body in bodies):
        return ""
    if sew_mm > 0.0:
        return say(
            "Sewn at {sew_mm:g} mm, some edges still have no partner: sew at a "
            "larger tolerance, or have the CAD model closed.",
            sew_mm=sew_mm,
        )
    return say(
        "Loose surfaces and gaps do not print: sew them at a tolerance, or close the CAD model."
    )
