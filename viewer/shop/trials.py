"""A trial: one printed test piece, and what came out of each of its steps."""

import math
import re
from typing import Literal

import msgspec

from viewer.errors import RequestProblem
from viewer.geometry.specimens.catalogue import KINDS as SPECIMENS
from viewer.shop.sound_values import LONGEST_NAME, all_finite, refuse
from viewer.words import say

Outcome = Literal["clean", "acceptable", "bad"]
OUTCOMES: tuple[Outcome, ...] = ("clean", "acceptable", "bad")
CUT_OUT_TOUCH, CUT_OUT_TERRACE = "cut-out-touch", "cut-out-terrace"
MODEL_ON_SUPPORT, SUPPORT_ON_MODEL = "model on support", "support on model"  # rows of a pair
KINDS = (*SPECIMENS, CUT_OUT_TOUCH, CUT_OUT_TERRACE)
MOST_STEPS = 100
MOST_PHOTO_BYTES = 4_000_000
LONGEST_NOTE = 2000
_DAY = re.compile(r"\d{4}-\d{2}-\d{2}")


class StepResult(msgspec.Struct, frozen=True, kw_only=True):
    """What came out of one step.

    value : what was tried, in `unit`; row : where a piece has several rows of the same values,
        which one, such as "model on support"; "" otherwise
    ra_um : measured roughness Ra; terrace_mm : measured height of a terrace; None where it was not
    """

    value: float
    unit: Literal["deg", "mm"]
    outcome: Outcome
    row: str = ""
    ra_um: float | None = None
    terrace_mm: float | None = None


class Trial(msgspec.Struct, frozen=True, kw_only=True):
    """One printed test piece with its result.

    key : its own for ever, by which a shop and a job know that they hold the same one
    day : as 2026-11-26; kind : one of KINDS; machine, model, support, pair : names in the shop
    up, spin_deg : how it lay; job : what it was printed for
    photo : bytes of a picture file, b"" for none
    """

    key: str
    day: str
    kind: str
    machine: str = ""
    model: str = ""
    support: str = ""
    pair: str = ""
    layer_mm: float = 0.2
    up: tuple[float, float, float] = (0.0, 0.0, 1.0)
    spin_deg: float = 0.0
    job: str = ""
    steps: tuple[StepResult, ...] = ()
    note: str = ""
    photo: bytes = b""

    def __post_init__(self) -> None:
        names = (self.key, self.machine, self.model, self.support, self.pair)
        refuse(
            say("Trial"),
            (
                (bool(self.key), say("it needs a key of its own.")),
                (_is_day(self.day), say("write its day as 2026-11-26.")),
                (self.kind in KINDS, say("choose the test piece that was printed.")),
                (
                    max(map(len, names)) <= LONGEST_NAME and len(self.job) <= 1000,
                    say("one of its names is too long."),
                ),
                (0.01 <= self.layer_mm <= 5, say("its layer must lie between 0.01 and 5 mm.")),
                (
                    all_finite(*self.up, self.spin_deg) and any(self.up),
                    say("its build direction must be a direction."),
                ),
                (
                    0 < len(self.steps) <= MOST_STEPS,
                    say("say of at least one step how it came out."),
                ),
                (
                    all(map(_is_sound, self.steps)),
                    say("a measured value must not be negative, and a step must be a number."),
                ),
                (
                    len(self.note) <= LONGEST_NOTE,
                    say("its note has at most {most} letters.", most=LONGEST_NOTE),
                ),
                (
                    len(self.photo) <= MOST_PHOTO_BYTES,
                    say("its photo is too large; take one of less than 4 MB."),
                ),
            ),
        )


def with_trial(trials: tuple[Trial, ...], trial: Trial) -> tuple[Trial, ...]:
    """The trials with this one in place of that of its key, or else at their end."""
    if any(each.key == trial.key for each in trials):
        return tuple(trial if each.key == trial.key else each for each in trials)
    return (*trials, trial)


def without_trial(trials: tuple[Trial, ...], key: str) -> tuple[Trial, ...]:
    """The trials without the one of that key."""
    return tuple(each for each in trials if each.key != key)


def known_trials(of_shop: tuple[Trial, ...], of_job: tuple[Trial, ...]) -> tuple[Trial, ...]:
    """Those of shop and job, each once as the job has it, the oldest first."""
    by_key = {each.key: each for each in (*of_shop, *of_job)}
    return tuple(sorted(by_key.values(), key=lambda each: (each.day, each.key)))


def read_trials(packed: bytes) -> tuple[Trial, ...]:
    """Trials out of MessagePack (`packed_trials`). Raises RequestProblem."""
    try:
        return msgspec.msgpack.decode(packed, type=tuple[Trial, ...])
    except (msgspec.MsgspecError, RecursionError) as error:
        raise RequestProblem(say("The trials are damaged.")) from error


def packed_trials(trials: tuple[Trial, ...]) -> bytes:
    """Trials as MessagePack (msgpack.org), photos as they are."""
    return msgspec.msgpack.encode(trials)


def _is_day(day: str) -> bool:
    if not _DAY.fullmatch(day):
        return False
    _, month, number = (int(part) for part in day.split("-"))
    return 1 <= month <= 12 and 1 <= number <= 31


def _is_sound(step: StepResult) -> bool:
    measured = (step.ra_um or 0.0, step.terrace_mm or 0.0)
    return math.isfinite(step.value) and all(0 <= each < 1e6 for each in measured)
