"""Trials made up for tests."""

from viewer.shop.trials import StepResult, Trial

OUTCOME = {"c": "clean", "a": "acceptable", "b": "bad"}


def steps(values, outcomes: str, unit: str = "deg", row: str = "") -> tuple[StepResult, ...]:
    """One result for each value; outcomes as letters such as "bbacc"."""
    return tuple(
        StepResult(value=float(value), unit=unit, outcome=OUTCOME[letter], row=row)
        for value, letter in zip(values, outcomes, strict=True)
    )


def trial(key: str = "one", values=(30, 35, 40), outcomes: str = "bac", **more) -> Trial:
    """A fan that was printed on the made machine, unless more says otherwise."""
    made = {
        "key": key, "day": "2026-11-26", "kind": "inclination-fan", "machine": "Made",
        "model": "PLA", "support": "PLA", "pair": "PLA alone",
        "steps": steps(values, outcomes, more.pop("unit", "deg"), more.pop("row", "")),
    }  # fmt: skip
    return Trial(**(made | more))
