"""The same answers in words and columns, for people at a terminal."""

from typing import Any

from viewer.command.layer_answers import layers_text
from viewer.command.shop_text import shop_text
from viewer.geometry import fault_words

CLASS_KEYS = ("A", "B", "unmarked", "platform", "total")

# key of the answer, what it is called, its unit
ROWS = (
    ("overhang_area_mm2", "overhang", "mm²"),
    ("touch_area_mm2", "touch", "mm²"),
    ("landing_area_mm2", "landing", "mm²"),
    ("platform_contact_mm2", "on the platform", "mm²"),
    ("terrace_mean_width_mm", "terrace width, mean", "mm"),
    ("terrace_visible_area_mm2", "terraces wider than a road", "mm²"),
    ("cusp_mean_mm", "cusp, mean", "mm"),
    ("ra_estimate_um", "Ra, estimated", "µm"),
    ("graze_area_mm2", "graze", "mm²"),
)


def size_text(size_mm: list[float]) -> str:
    """Three lengths as one phrase."""
    return " × ".join(f"{length:.1f}" for length in size_mm) + " mm"


def counted(count: int, noun: str) -> str:
    """1 shell, 2 shells."""
    return f"{count:,} {noun}" if count == 1 else f"{count:,} {noun}s"


def check_text(answer: dict[str, Any]) -> str:
    """What is wrong with a file, at which height, and the verdict."""
    lines = [f"{answer['file']}: {answer['verdict']}. {answer.get('reason', '')}".rstrip()]
    lines.append(
        f"  {answer['faces']:,} faces, {counted(answer['shells'], 'shell')},"
        f" {size_text(answer['size_mm'])}, read in {answer['units']['unit']}"
    )
    if answer["units"]["doubt"]:
        lines.append(f"  {answer['units']['doubt']}")
    for fault in answer["faults"]:
        found = fault_words.counted(fault["kind"], fault["count"])
        lines.append(
            f"  {fault['from_mm']:.2f} to {fault['to_mm']:.2f} mm: {found}."
            f" {fault['effect']} {fault['advice']}"
        )
    return "\n".join([*lines, *(f"  {note}" for note in answer["notes"])])


def number(value: float | None, error: float | None = None) -> str:
    """A number to three or four digits, with its standard error if it was sampled."""
    if value is None:
        return "–"
    digits = 3 if abs(value) < 1 else 2 if abs(value) < 100 else 0
    text = f"{value:,.{digits}f}"
    return f"{text} ± {error:,.{digits}f}" if error and round(error, digits) > 0 else text


def measure_text(answer: dict[str, Any]) -> str:
    """The numbers of a pose by class, in columns."""
    part, error = answer["part"], answer["error"]
    columns = ("class A", "class B", "unmarked", "platform", "total")
    lines = [
        f"{part['file']}: {part['faces']:,} faces, {size_text(part['size_mm'])},"
        f" height {answer['height_mm']:.2f} mm, {answer['layers']:,} layers",
        " " * 34 + "".join(f"{name:>16}" for name in columns),
    ]
    for key, name, unit in ROWS:
        values, errors = answer[key], error.get(key) or {}
        cells = (number(values[k], errors.get(k)) if k in values else "" for k in CLASS_KEYS)
        lines.append(f"  {name + ', ' + unit:<32}" + "".join(f"{cell:>16}" for cell in cells))
    volume = number(answer["support_volume_mm3"], error.get("support_volume_mm3"))
    lines.append(f"  support volume {volume} mm³")
    lines += [f"  {sentence}" for sentence in shut_in_texts(answer)]
    lines.append(f"  {standing_text(answer['tip_angle_deg'])}")
    if answer["tip_angle_worst_deg"] is not None:
        lines.append(
            f"  least tip angle while printing, with supports: {answer['tip_angle_worst_deg']:.1f}°"
            f" at {answer['tip_angle_worst_mm']:.1f} mm"
        )
    if "time_s" in answer:
        lines.append(shop_text(answer))
    if "adaptive_layers" in answer:
        lines.append(layers_text(answer))
    return "\n".join([*lines, *(f"  {note}" for note in answer["notes"])])


def shut_in_texts(answer: dict[str, Any]) -> list[str]:
    """Islands, and supports that do not come out, one sentence each; none where there are none."""
    sentences = []
    if answer["islands"]:
        places = answer["island_places"]
        lowest = min(place["height_mm"] for place in places)
        sentences.append(
            f"{counted(answer['islands'], 'island')}, the lowest at {lowest:.2f} mm;"
            f" support under them {number(answer['island_support_mm3'])} mm³"
        )
    if answer["unreachable_support_mm3"] > 0:
        sealed = answer["sealed_support_mm3"]
        dissolve = max(answer["unreachable_support_mm3"] - sealed, 0.0)
        sentences.append(
            f"unreachable support: {number(dissolve)} mm³ must dissolve,"
            f" {number(sealed)} mm³ is sealed in"
        )
    return sentences


def standing_text(tip_angle_deg: float | None) -> str:
    """How safely the part stands by itself."""
    if tip_angle_deg is None:
        return "it touches the platform in a point or a line: it does not stand by itself"
    if tip_angle_deg <= 0:
        return f"its weight lies outside its foot ({tip_angle_deg:.1f}°): it falls over by itself"
    return f"tip angle {tip_angle_deg:.1f}°"


def pose_text(answer: dict[str, Any]) -> str:
    """Where the posed part was written."""
    return "\n".join([f"Wrote {answer['out']}.", *(f"  {note}" for note in answer["notes"])])
