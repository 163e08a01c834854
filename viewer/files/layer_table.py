"""The layers of a pose as a table: one row a layer, comma-separated, points as decimal signs."""

import csv
import io

from viewer.geometry.pose_profile import TOUCH_CLASSES, PoseProfile

COLUMNS = (
    "layer", "z_mm", "area_mm2", "perimeter_mm", "support_area_mm2",
    *(f"touch_{name}_mm2" for name in TOUCH_CLASSES), "islands", "mixed",
)  # fmt: skip


def layer_table(profile: PoseProfile) -> str:
    """The text of the table, lowest layer first; the first layer is number 1."""
    text = io.StringIO()
    table = csv.writer(text, lineterminator="\r\n")  # RFC 4180
    table.writerow(COLUMNS)
    rows = zip(
        profile.z_mm.tolist(), profile.area_mm2.tolist(), profile.perimeter_mm.tolist(),
        profile.support_area_mm2.tolist(), profile.touch_mm2.tolist(), profile.islands.tolist(),
        profile.mixed.tolist(), strict=True,
    )  # fmt: skip
    for k, (z, area, around, support, touch, islands, mixed) in enumerate(rows, start=1):
        numbers = [f"{value:.4f}" for value in (z, area, around, support, *touch)]
        table.writerow([k, *numbers, islands, int(mixed)])
    return text.getvalue()
