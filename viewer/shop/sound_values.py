"""How the shop refuses a value: one sentence that names the thing, the field and what it may be."""

import math
from collections.abc import Iterable, Mapping

from viewer.errors import RequestProblem
from viewer.words import say

LONGEST_NAME = 80


def refuse(owner: str, checks: Iterable[tuple[bool, str]]) -> None:
    """Raise RequestProblem with the first sentence whose check does not hold.

    owner : what the value belongs to, such as 'Machine "Mill"'
    """
    for holds, sentence in checks:
        if not holds:  # also catches NaN, which fails every comparison
            raise RequestProblem(f"{owner}: {sentence}")


def name_check(name: str) -> tuple[bool, str]:
    """The check that a name can be shown in a list and found again."""
    sound = 0 < len(name) <= LONGEST_NAME and name == name.strip() and name.isprintable()
    return sound, say(
        "give it a name of 1 to {longest_name} letters, without line breaks.",
        longest_name=LONGEST_NAME,
    )


def sources_check(
    sources: Mapping[str, str], fields: Iterable[str], inner: str = ""
) -> tuple[bool, str]:
    """The check that each source belongs to a field; those of a list are written "list.field"."""
    known = set(fields)
    strange = next((key for key in sources if key not in known), "")
    example = say(" or {inner}", inner=inner) if inner else ""
    return not strange, say(
        'the source of "{strange}" belongs to no value; name one{example}.',
        strange=strange,
        example=example,
    )


def all_finite(*values: float) -> bool:
    """Whether no value is NaN or infinite."""
    return all(math.isfinite(value) for value in values)
