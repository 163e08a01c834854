"""What the trials of a machine with a material say about its limits, and how sure they are.

Only proposals: nothing is changed until the user takes them (`taken_limits`).
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from viewer.geometry.print_settings import PrintSettings
from viewer.shop.materials import Material
from viewer.shop.pairs import Pair
from viewer.shop.taken_limits import Limit, TakenLimit, pair_with
from viewer.shop.threshold import Graded, Prior, Threshold, threshold
from viewer.shop.touch_weight import HIGHEST_WEIGHT, TouchTrial, touch_worth
from viewer.shop.trials import (
    CUT_OUT_TERRACE,
    CUT_OUT_TOUCH,
    MODEL_ON_SUPPORT,
    Outcome,
    StepResult,
    Trial,
)
from viewer.words import later, say, written

CLEAN_ONLY: tuple[Outcome, ...] = ("clean",)
GOOD_ENOUGH: tuple[Outcome, ...] = ("clean", "acceptable")

# Common practice, no source: what a material's start value is worth, by how much prints of one
# shop differ, and how finely an outcome is judged. Lengths are counted in their logarithms.
_SUPPORT = {"spread": 8.0, "between": 3.0, "reading": 1.0}
_BRIDGE = {"spread": 0.6, "between": 0.25, "reading": 0.08}
_TERRACE = {"spread": 0.7, "between": 0.25, "reading": 0.1}
NORMAL_NINE_IN_TEN = 1.645  # standard deviations of a normal distribution
NEAR_GAP_MM = 0.051  # a gap within half a step of the usual piece is the pair's own
_START_BRIDGE_MM = 5.0  # where a material has none
ROUND = {"support_limit_deg": 0.5, "bridge_mm": 0.5, "visible_terrace_mm": 0.01,
         "touch_weight": 0.05}  # fmt: skip
UNITS = {"support_limit_deg": "°", "bridge_mm": " mm", "visible_terrace_mm": " mm",
         "touch_weight": ""}  # fmt: skip
NAMES = {
    "support_limit_deg": later("Support limit"),
    "bridge_mm": later("Bridge limit"),
    "visible_terrace_mm": later("Visible terraces"),
    "touch_weight": later("Touched face"),
}
_DIGITS = {"support_limit_deg": ".1f", "bridge_mm": ".1f", "visible_terrace_mm": ".2f",
           "touch_weight": ".2f"}  # fmt: skip


@dataclass(frozen=True)
class Lesson:
    """What trials say about one limit.

    likely : the middle of what they say, low, high : nine tenths of it; safe : at which nine of ten
        prints come out; now : what is in force, start : what was believed before any trial
    machine, of : whose limit it is; prints : how many, first_day, last_day : of these
    one_sided : "good" where every step came out, "bad" where none did, so that the limit itself
        was not seen; "" otherwise
    """

    limit: Limit
    low: float
    likely: float
    high: float
    safe: float
    now: float
    start: float
    machine: str
    of: str
    prints: int
    first_day: str
    last_day: str
    one_sided: str = ""

    def take(self, value: float | None = None) -> TakenLimit:
        """The limit to take at its likely value, or at another one."""
        return TakenLimit(
            self.limit, self.likely if value is None else value, self.now, self.machine, self.of,
            self.prints, self.first_day, self.last_day,
        )  # fmt: skip


def lessons(
    trials: Iterable[Trial],
    machine: str,
    material: Material,
    settings: PrintSettings,
    good: tuple[Outcome, ...] = CLEAN_ONLY,
) -> tuple[Lesson, ...]:
    """What trials on that machine with that material say about the limits of the process.

    good : outcomes that count as having come out
    """
    own = [each for each in trials if each.machine == machine and each.model == material.name]
    made = (
        _support_limit(own, material, settings, good),
        _bridge_limit(own, material, settings, good),
        _visible_terrace(own, material, settings, good),
    )
    return tuple(each for each in made if each is not None)


def believed(limit: Limit, material: Material, settings: PrintSettings) -> tuple[float, float]:
    """Nine tenths of what is believed of a limit of the process before any trial, low and high."""
    if limit == "support_limit_deg":
        away = NORMAL_NINE_IN_TEN * _SUPPORT["spread"]
        start = material.support_limit_deg
        return max(start - away, 0.0), min(start + away, 90.0)
    bridge = limit == "bridge_mm"
    start = (material.bridge_limit_mm or _START_BRIDGE_MM) if bridge else settings.road_mm
    times = math.exp(NORMAL_NINE_IN_TEN * (_BRIDGE if bridge else _TERRACE)["spread"])
    return start / times, min(start * times, 200.0 if bridge else 20.0)


def _support_limit(own, material, settings, good) -> Lesson | None:
    own = [each for each in own if each.kind == "inclination-fan"]
    prints = [graded(each, good, lambda step, _: step.value) for each in own]
    prior = Prior(material.support_limit_deg, **_SUPPORT)
    found = threshold(prints, prior) if prints else None
    return _lesson(
        "support_limit_deg", own, prints, found, settings.support_limit_deg,
        material.support_limit_deg, material.name, (0.0, 90.0),
    )  # fmt: skip


def _bridge_limit(own, material, settings, good) -> Lesson | None:
    own = [each for each in own if each.kind == "bridge-ladder"]
    prints = [graded(each, good, lambda step, _: math.log(step.value)) for each in own]
    start = material.bridge_limit_mm or _START_BRIDGE_MM
    found = _of_logarithms(prints, Prior(math.log(start), **_BRIDGE))
    return _lesson(
        "bridge_mm", own, prints, found, settings.bridge_mm, start, material.name, (0.0, 200.0)
    )


def _visible_terrace(own, material, settings, good) -> Lesson | None:
    own = [each for each in own if each.kind in ("terrace-wedge", CUT_OUT_TERRACE)]
    prints = [graded(each, good, _log_terrace) for each in own]
    start = settings.road_mm
    found = _of_logarithms(prints, Prior(math.log(start), **_TERRACE))
    return _lesson(
        "visible_terrace_mm", own, prints, found, settings.shown_terrace_mm, start, material.name,
        (0.01, 20.0),
    )  # fmt: skip


def release_lesson(
    trials: Iterable[Trial], machine: str, pair: Pair, taken: tuple[TakenLimit, ...] = ()
) -> Lesson | None:
    """What trials with that pair say about how a touched face comes out, as `touch_weight` has it.

    Of a release piece counts the step that is nearest to the pair's own gap, model on support.
    """
    own = [each for each in trials if each.machine == machine and each.pair == pair.name]
    told = [(each, step) for each in own for step in touched_steps(each, pair)]
    if not told:
        return None
    found = touch_worth(
        pair, tuple(TouchTrial(step.outcome, step.ra_um, each.layer_mm) for each, step in told)
    )
    low, likely, high = (
        _rounded(value, "touch_weight", (0.0, HIGHEST_WEIGHT))
        for value in (found.low, found.weight, found.high)
    )
    prints = {each.key: each.day for each, _ in told}
    return Lesson(
        "touch_weight", low, likely, high, high, pair_with(pair, taken).touch_weight,
        pair.touch_weight, machine, pair.name, len(prints), min(prints.values()),
        max(prints.values()),
    )  # fmt: skip


def touched_steps(trial: Trial, pair: Pair) -> list[StepResult]:
    """The steps that show a face of the part which a support of that pair bore against."""
    if trial.kind == CUT_OUT_TOUCH:
        return list(trial.steps)
    if trial.kind != "pair-release":
        return []
    rows = [step for step in trial.steps if step.row == MODEL_ON_SUPPORT]
    away = [abs(step.value - pair.contact_gap_mm) for step in rows]
    near = [step for step, off in zip(rows, away, strict=True) if off <= NEAR_GAP_MM]
    return sorted(near, key=lambda step: abs(step.value - pair.contact_gap_mm))[:1]


def terrace_mm(step_value: float, unit: str, layer_mm: float) -> float:
    """Terrace width of a step, s = t / tan α where it is given as an inclination (CALC)."""
    return layer_mm / math.tan(math.radians(step_value)) if unit == "deg" else step_value


def _log_terrace(step, trial: Trial) -> float:
    return math.log(terrace_mm(step.value, step.unit, trial.layer_mm))


def graded(trial: Trial, good: tuple[Outcome, ...], place) -> Graded:
    """A trial as a graded print; `place(step, trial)` is where a step lies on the scale."""
    steps = [step for step in trial.steps if 0 < step.value < 90 or step.unit == "mm"]
    steps = [step for step in steps if step.value > 0]
    at = np.array([place(step, trial) for step in steps], float)
    return Graded(at, np.array([step.outcome in good for step in steps], bool))


def _of_logarithms(prints: list[Graded], prior: Prior) -> Threshold | None:
    if not prints:
        return None
    return Threshold(*(math.exp(each) for each in threshold(prints, prior, rising=False)))


def _lesson(
    limit: Limit,
    own: list[Trial],
    prints: list[Graded],
    found: Threshold | None,
    now: float,
    start: float,
    of: str,
    within: tuple[float, float],
) -> Lesson | None:
    if found is None:
        return None
    low, likely, high, safe = (_rounded(each, limit, within) for each in found)
    outcomes = np.concatenate([each.good for each in prints])
    one_sided = "good" if outcomes.all() else "" if outcomes.any() else "bad"
    days = sorted(each.day for each in own)
    return Lesson(
        limit, low, likely, high, safe, now, start, own[0].machine, of, len(own), days[0], days[-1],
        one_sided,
    )  # fmt: skip


def _rounded(value: float, limit: Limit, within: tuple[float, float]) -> float:
    step = ROUND[limit]
    return round(min(max(step * round(value / step), within[0]), within[1]), 4)


# --- in words
def value_text(limit: Limit, value: float) -> str:
    """A value of a limit with its unit."""
    whole = limit in ("support_limit_deg", "bridge_mm") and value == round(value)
    return written(value, ".0f" if whole else _DIGITS[limit]) + UNITS[limit]


def lesson_sentence(lesson: Lesson) -> str:
    """Such as "3 trials say 38°, between 34° and 42°; now 45°."."""
    values = {
        name: value_text(lesson.limit, getattr(lesson, name))
        for name in ("likely", "low", "high", "now")
    }
    if lesson.prints == 1:
        return say("1 trial says {likely}, between {low} and {high}; now {now}.", **values)
    return say(
        "{count} trials say {likely}, between {low} and {high}; now {now}.",
        count=lesson.prints,
        **values,
    )


def basis_sentence(lesson: Lesson) -> str:
    """What it was based on: whose prints, of which days, and what was believed before."""
    told = say(
        "“{of}” on “{machine}”, {days}. Before any trial: {start}, which counts as a loose guess.",
        of=say(lesson.of),
        machine=say(lesson.machine),
        days=days_text(lesson),
        start=value_text(lesson.limit, lesson.start),
    )
    if lesson.limit == "touch_weight":
        return told + say(" 0 is as clean as any face, 1 as after breaking a support off.")
    told += say(
        " Nine of ten prints come out at {safe}.", safe=value_text(lesson.limit, lesson.safe)
    )
    if lesson.one_sided == "good":
        told += say(" Every step came out, so the limit itself was not seen: try harder steps.")
    elif lesson.one_sided == "bad":
        told += say(" No step came out, so the limit itself was not seen: try easier steps.")
    return told


def days_text(lesson: Lesson) -> str:
    """The day, or the first and the last."""
    if lesson.first_day == lesson.last_day:
        return lesson.first_day
    return say("{first} to {last}", first=lesson.first_day, last=lesson.last_day)
