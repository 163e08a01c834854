"""How much worse a touched face is than a clean one, by pair, and what trials say about it.

The scale: 0 as clean, 0.5 as bad as terraces wider than a road, 1 as after breaking a support of
the same material off. The preset "Show side above all" gives terraces half of what it gives marks
of supports; weighed so, a touched face and a face of wide terraces at 0.5 count alike.
"""

import math
from typing import Literal, NamedTuple

import msgspec

from viewer.errors import RequestProblem
from viewer.shop.pairs import Pair
from viewer.words import say, written

Outcome = Literal["clean", "acceptable", "bad"]

AS_WIDE_TERRACES = 0.5
WEIGHT_OF_OUTCOME = {"clean": 0.0, "acceptable": AS_WIDE_TERRACES, "bad": 1.0}
HIGHEST_WEIGHT = 10.0
# Common practice, no source: what the pair says counts as much as two trials would, and trials of
# one pair differ by a quarter of the scale.
PRIOR_TRIALS, PRIOR_SPREAD = 2.0, 0.25
NINE_IN_TEN = 1.645  # standard deviations of a normal distribution


class TouchTrial(NamedTuple):
    """How a touched face of one test piece came out.

    outcome : as it was judged; ra_um : measured roughness of the touched face, None where it was
        not measured, which counts before the judgement; layer_mm : layer height of that print
    """

    outcome: Outcome
    ra_um: float | None = None
    layer_mm: float = 0.2


class TouchWorth(NamedTuple):
    """The weight of touch for one pair.

    weight : 0 as clean, 1 as after breaking off; low, high : range of nine in ten trials' means
    trials : how many trials it rests on; source : where it comes from, in words for people
    """

    pair: str
    touched_face: str
    weight: float
    low: float
    high: float
    trials: int
    source: str


def weight_of_trial(trial: TouchTrial) -> float:
    """What one trial says.

    With a measured roughness: beside the ideal Ra = t/4 of a nearly flat terraced face (triangular
    profile, CALC), which stands at AS_WIDE_TERRACES. Raises RequestProblem for a roughness below 0
    or a layer height that is not above 0.
    """
    if trial.ra_um is None:
        return WEIGHT_OF_OUTCOME[trial.outcome]
    if not (math.isfinite(trial.ra_um) and trial.ra_um >= 0 and trial.layer_mm > 0):
        raise RequestProblem(
            say("Give the roughness in µm, 0 or more, and a layer height above 0 mm.")
        )
    wide_um = 1000.0 * trial.layer_mm / 4.0
    return min(AS_WIDE_TERRACES * trial.ra_um / wide_um, HIGHEST_WEIGHT)


def touch_worth(pair: Pair, trials: tuple[TouchTrial, ...] = ()) -> TouchWorth:
    """The weight of touch of a pair, corrected by trials with that pair.

    The mean of what the pair says, worth PRIOR_TRIALS trials, and of what each trial says; the
    range from their spread (normal mean with a conjugate prior; Gelman et al., Bayesian Data
    Analysis, MEM).
    """
    found = [weight_of_trial(trial) for trial in trials]
    count = PRIOR_TRIALS + len(found)
    mean = (PRIOR_TRIALS * pair.touch_weight + sum(found)) / count
    apart = PRIOR_TRIALS * (pair.touch_weight - mean) ** 2 + sum((w - mean) ** 2 for w in found)
    spread = math.sqrt((PRIOR_TRIALS * PRIOR_SPREAD**2 + apart) / count)
    away = NINE_IN_TEN * spread / math.sqrt(count)
    source = say(pair.source("touch_weight")) or say("set by you")
    if found:
        source = say("{source}; corrected by trials: {count}", source=source, count=len(found))
    return TouchWorth(
        pair.name,
        pair.touched_face,
        mean,
        max(mean - away, 0.0),
        min(mean + away, HIGHEST_WEIGHT),
        len(found),
        source,
    )


def pair_with_worth(pair: Pair, worth: TouchWorth) -> Pair:
    """The same pair with the corrected weight, its source saying so; for keeping it in the shop."""
    sources = {**pair.sources, "touch_weight": worth.source}
    weight = round(worth.weight, 2)
    return msgspec.structs.replace(pair, touch_weight=weight, sources=sources)


def worth_sentences(worth: TouchWorth, limit_in_force: bool) -> tuple[str, ...]:
    """Why marks of supports weigh what they weigh, for beside the sliders.

    limit_in_force : whether directions in which supports touch class A are cut out altogether
    """
    told = [
        say(
            "“{pair}”: marks of supports count {weight} times their slider.",
            pair=say(worth.pair),
            weight=written(worth.weight, ".2f"),
        )
    ]
    if worth.touched_face:
        told.append(say("A touched face comes out {how}.", how=say(worth.touched_face)))
    told.append(
        say("(0 as clean, 0.5 as wide terraces, 1 as after breaking off; {source}.)",
            source=worth.source)
    )  # fmt: skip
    if limit_in_force and worth.weight < AS_WIDE_TERRACES:
        told.append(
            say(
                "The limit “no support touches class A” cuts such directions out all the same; "
                "without it they are weighed against terraces."
            )
        )
    return tuple(told)
