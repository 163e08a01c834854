"""Trials as a table: a row for each step, comma-separated, points as decimal signs."""

import csv
import io
from pathlib import Path

from viewer.errors import CannotWrite
from viewer.files.atomic_write import replacing
from viewer.shop.trials import StepResult, Trial
from viewer.words import say

COLUMNS = (
    "trial", "day", "test_piece", "machine", "model", "support", "pair", "layer_mm", "up_x", "up_y",
    "up_z", "spin_deg", "job", "step", "unit", "row", "outcome", "ra_um", "terrace_mm", "photo",
    "note",
)  # fmt: skip


def write_trial_table(trials: tuple[Trial, ...], path: Path) -> None:
    """Write the table, in the order given. Raises CannotWrite."""
    if not trials:
        raise CannotWrite(say("No result is written down yet; write one down first."))
    text = io.StringIO()
    table = csv.writer(text, lineterminator="\r\n")  # RFC 4180
    table.writerow(COLUMNS)
    for trial in trials:
        for step in trial.steps:
            table.writerow(_row(trial, step))
    with replacing(path) as temporary:  # the mark tells spreadsheets that it is UTF-8
        temporary.write_bytes(b"\xef\xbb\xbf" + text.getvalue().encode("utf-8"))


def _row(trial: Trial, step: StepResult) -> list[str]:
    names = (trial.machine, trial.model, trial.support, trial.pair)
    return [
        trial.key, trial.day, trial.kind, *map(_text_cell, names), f"{trial.layer_mm:g}",
        *(f"{x:.9g}" for x in trial.up), f"{trial.spin_deg:g}", _text_cell(trial.job),
        f"{step.value:g}", step.unit, step.row, step.outcome, _number(step.ra_um),
        _number(step.terrace_mm), "yes" if trial.photo else "no", _text_cell(trial.note),
    ]  # fmt: skip


def _number(value: float | None) -> str:
    return "" if value is None else f"{value:g}"


def _text_cell(text: str) -> str:
    """Words that a spreadsheet takes as text even where they begin like a formula."""
    return f"'{text}" if text[:1] in ("=", "+", "-", "@") else text
