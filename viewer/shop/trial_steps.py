"""The steps of a test piece, to be judged one by one, and a trial in a few words."""

from collections import Counter
from collections.abc import Sequence
from typing import Literal, NamedTuple

from viewer.geometry.specimens.catalogue import KINDS as SPECIMENS
from viewer.geometry.specimens.catalogue import SPECIMEN_NAMES, make_specimen
from viewer.shop.trials import (
    CUT_OUT_TERRACE,
    CUT_OUT_TOUCH,
    MODEL_ON_SUPPORT,
    OUTCOMES,
    SUPPORT_ON_MODEL,
    Trial,
)
from viewer.words import later, say, written

PIECE_NAMES = SPECIMEN_NAMES | {
    CUT_OUT_TOUCH: later("Cut-out with a touched face"),
    CUT_OUT_TERRACE: later("Cut-out with terraces"),
}
WHAT_TO_LOOK_AT = {
    "inclination-fan": later("Underside of each blade: clean, rough, or drooping?"),
    "bridge-ladder": later("Each beam from below: level, sagging, or torn?"),
    "terrace-wedge": later("Each slope at the distance it is seen from: no steps, some, or plain?"),
    "pair-release": later("Lift each tab: comes off clean, leaves marks, or tears and stays?"),
    "slender-fins": later("Each fin to its top: straight, wavering, or ruined?"),
    "nozzle-offset": later("Each pair of bars: in one line, nearly, or not?"),
    CUT_OUT_TOUCH: later("The face that the support bore against: clean, acceptable, or bad?"),
    CUT_OUT_TERRACE: later("The slope that shows: no steps, some, or plain?"),
}
OUTCOME_NAMES = {
    "clean": later("clean"), "acceptable": later("acceptable"), "bad": later("bad"),
}  # fmt: skip
SIGNS = {"clean": "✓", "acceptable": "~", "bad": "✗"}
ROW_NAMES = {
    MODEL_ON_SUPPORT: later("model on support"), SUPPORT_ON_MODEL: later("support on model"),
}  # fmt: skip


class AskedStep(NamedTuple):
    """One step whose outcome is asked for; `row` as of `StepResult`."""

    value: float
    unit: Literal["deg", "mm"]
    row: str = ""


def usual_values(kind: str) -> tuple[float, ...]:
    """The steps that a piece has unless others are asked for, each value once."""
    if kind not in SPECIMENS:
        return ()
    return tuple(dict.fromkeys(round(step.value, 4) for step in make_specimen(kind).steps))


def asked_steps(kind: str, values: Sequence[float]) -> tuple[AskedStep, ...]:
    """What to judge on a piece of that kind with steps of these values.

    Those of a release piece come once in each stacking order.
    """
    unit = "deg" if kind in ("inclination-fan", "terrace-wedge") else "mm"
    if kind == "pair-release":
        return tuple(
            AskedStep(value, "mm", row)
            for row in (MODEL_ON_SUPPORT, SUPPORT_ON_MODEL)
            for value in values
        )
    return tuple(AskedStep(value, unit) for value in values)


def step_text(step: AskedStep) -> str:
    """Such as "40°" or "0.1 mm, model on support"."""
    value = f"{step.value:.2f}".rstrip("0").rstrip(".")
    text = written(float(value), f".{len(value.partition('.')[2])}f")
    text += "°" if step.unit == "deg" else " mm"
    return f"{text}, {say(ROW_NAMES[step.row])}" if step.row in ROW_NAMES else text


def outcome_text(trial: Trial) -> str:
    """How many steps came out how, such as "3 ✓ 2 ✗"."""
    counts = Counter(step.outcome for step in trial.steps)
    return " ".join(f"{counts[name]} {SIGNS[name]}" for name in OUTCOMES if counts[name])


def trial_text(trial: Trial) -> str:
    """Everything of a trial but its photo, in lines."""
    lines = [
        f"{say(PIECE_NAMES[trial.kind])}, {trial.day}",
        say(
            "“{machine}”, {pair}, layers of {layer_mm:g} mm",
            machine=say(trial.machine), pair=say(trial.pair or trial.model),
            layer_mm=trial.layer_mm,
        ),
    ]  # fmt: skip
    for step in trial.steps:
        line = f"{step_text(AskedStep(step.value, step.unit, step.row))}: "
        line += say(OUTCOME_NAMES[step.outcome])
        if step.ra_um is not None:
            line += f", Ra {written(step.ra_um, 'g')} µm"
        if step.terrace_mm is not None:
            line += say(", terrace {terrace_mm:g} mm", terrace_mm=step.terrace_mm)
        lines.append(line)
    if trial.job:
        lines.append(say("For {job}", job=trial.job))
    if trial.note:
        lines.append(trial.note)
    return "\n".join(lines)
