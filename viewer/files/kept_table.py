"""The kept poses as a table: a row each, comma-separated, points as decimal signs."""

import csv
import io
from pathlib import Path

from viewer.document.state import State
from viewer.errors import CannotWrite
from viewer.files.atomic_write import replacing
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.pose_measures import PoseMeasures
from viewer.geometry.prepared_part import prepare_part
from viewer.progress import Progress
from viewer.words import say

COLUMNS = (
    "name", "note", "up_x", "up_y", "up_z", "spin_deg", "height_mm", "layers", "touch_a_mm2",
    "touch_b_mm2", "touch_mm2", "landing_a_mm2", "landing_b_mm2", "landing_part_mm2",
    "graze_a_mm2", "terrace_a_mm2", "terrace_b_mm2", "support_volume_mm3", "unreachable_mm3",
    "platform_mm2", "tip_angle_deg",
)  # fmt: skip


def write_kept_table(state: State, path: Path, progress: Progress | None = None) -> None:
    """Measure every kept pose by the full tier and write the table in their order.

    Raises CannotWrite, Cancelled.
    """
    progress = progress or Progress()
    if state.part is None or not state.kept_poses:
        raise CannotWrite(say("No pose is kept yet; keep one first (K)."))
    progress.report(0.0, say("Measuring the kept poses"))
    part = prepare_part(state.part.mesh, progress.part(0.0, 0.2))
    text = io.StringIO()
    table = csv.writer(text, lineterminator="\r\n")  # RFC 4180
    table.writerow(COLUMNS)
    for place, one in enumerate(state.kept_poses):
        each = 0.8 / len(state.kept_poses)
        some = progress.part(0.2 + place * each, 0.2 + (place + 1) * each)
        measures = measure_pose(part, state.face_classes, one.pose, state.settings, "full", some)
        up = [f"{x:.9g}" for x in one.pose.up]
        words = (_text_cell(one.name), _text_cell(one.note))
        table.writerow([*words, *up, f"{one.pose.spin_deg:g}", *_numbers(measures)])
    with replacing(path) as temporary:  # the mark tells spreadsheets that it is UTF-8
        temporary.write_bytes(b"\xef\xbb\xbf" + text.getvalue().encode("utf-8"))


def _text_cell(text: str) -> str:
    """Words that a spreadsheet takes as text even where they begin like a formula."""
    return f"'{text}" if text[:1] in ("=", "+", "-", "@") else text


def _numbers(m: PoseMeasures) -> list[str]:
    landing = m.landing_area_mm2
    values = (
        m.touch_area_mm2.A, m.touch_area_mm2.B, m.touch_area_mm2.total, landing.A, landing.B,
        landing.A + landing.B + landing.unmarked, m.graze_area_mm2.A,
        m.terrace_visible_area_mm2.A, m.terrace_visible_area_mm2.B, m.support_volume_mm3,
        m.unreachable_support_mm3, m.platform_contact_mm2.total,
    )  # fmt: skip
    tip = "" if m.tip_angle_deg is None else f"{m.tip_angle_deg:.2f}"
    return [f"{m.height_mm:.4f}", str(m.layers), *(f"{x:.4f}" for x in values), tip]
