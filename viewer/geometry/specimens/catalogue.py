"""All specimens by name, each with the steps it has unless others are asked for."""

from collections.abc import Callable, Sequence

from viewer.errors import RequestProblem
from viewer.geometry.specimens.bridge_ladder import bridge_ladder
from viewer.geometry.specimens.inclination_fan import inclination_fan
from viewer.geometry.specimens.nozzle_offset import nozzle_offset
from viewer.geometry.specimens.pair_release import pair_release
from viewer.geometry.specimens.slender_fins import slender_fins
from viewer.geometry.specimens.specimen import Specimen
from viewer.geometry.specimens.terrace_wedge import terrace_wedge
from viewer.words import later, say

_MAKERS: dict[str, Callable[..., Specimen]] = {
    "inclination-fan": inclination_fan,
    "bridge-ladder": bridge_ladder,
    "terrace-wedge": terrace_wedge,
    "pair-release": pair_release,
    "slender-fins": slender_fins,
    "nozzle-offset": nozzle_offset,
}
KINDS = tuple(_MAKERS)
SPECIMEN_NAMES = {
    "inclination-fan": later("Inclination fan"),
    "bridge-ladder": later("Bridge ladder"),
    "terrace-wedge": later("Terrace wedge"),
    "pair-release": later("Pair release piece"),
    "slender-fins": later("Tall slender fins"),
    "nozzle-offset": later("Nozzle-offset check"),
}


def make_specimen(kind: str, steps: Sequence[float] | None = None) -> Specimen:
    """A specimen by name.

    steps : angles, spans, gaps or thicknesses to try instead of the usual ones; for the offset
        check the one step by which bars follow each other
    Raises RequestProblem for an unknown name or steps out of range.
    """
    if kind not in _MAKERS:
        raise RequestProblem(
            say(
                "There is no specimen {kind}; choose from {known}.",
                kind=kind,
                known=", ".join(KINDS),
            )
        )
    if steps is None:
        return _MAKERS[kind]()
    if kind == "nozzle-offset":
        if len(steps) != 1:
            raise RequestProblem(say("The offset check takes one step, such as 0.05."))
        return nozzle_offset(step_mm=float(steps[0]))
    return _MAKERS[kind](steps)
