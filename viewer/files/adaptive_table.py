"""Layers of different heights as a table: a row for each run of equal layers, lowest first."""

import csv
import io
from pathlib import Path

from viewer.files.atomic_write import replacing
from viewer.geometry.adaptive_layers import LayerStack
from viewer.progress import Progress

COLUMNS = ("from_mm", "to_mm", "layer_mm", "layers")


def adaptive_table(stack: LayerStack) -> str:
    """The text of the table, comma-separated, points as decimal signs."""
    text = io.StringIO()
    table = csv.writer(text, lineterminator="\r\n")  # RFC 4180
    table.writerow(COLUMNS)
    for run in stack.table():
        ends = (f"{run.from_mm:.4f}", f"{run.to_mm:.4f}", f"{run.layer_mm:.4f}")
        table.writerow([*ends, run.layers])
    return text.getvalue()


def write_adaptive_table(stack: LayerStack, path: Path, progress: Progress | None = None) -> None:
    """Write the table; raises CannotWrite, Cancelled."""
    (progress or Progress()).check()
    with replacing(path) as temporary:
        temporary.write_bytes(adaptive_table(stack).encode("utf-8"))
