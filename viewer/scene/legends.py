"""What the colours of a lens mean, as data: for the window, the pictures and the client sheet."""

from dataclasses import dataclass

import numpy as np

from viewer.geometry.deviation import Deviation
from viewer.geometry.print_settings import PrintSettings
from viewer.scene import palettes
from viewer.scene.fault_looks import FAULT_LOOKS
from viewer.scene.hatches import Hatch
from viewer.scene.lenses import Lens
from viewer.scene.palettes import Colour


@dataclass(frozen=True)
class Entry:
    """One colour of a legend; `letter` is "" where there is none."""

    colour: Colour
    label: str
    hatch: Hatch = Hatch.NONE
    letter: str = ""


@dataclass(frozen=True)
class Scale:
    """A continuous scale from `low` to `high` in the legend's unit.

    stops : (256, 3) float64 sRGB colours from low to high
    mark : value of the contour line, with mark_label saying what it is
    above : what is beyond `high`: "" nothing, "+" the last colour stands for all above it
    """

    low: float
    high: float
    stops: np.ndarray
    mark: float
    mark_label: str
    above: str = ""


@dataclass(frozen=True)
class Legend:
    """Title, unit of the numbers ("" if there are none), a scale or none, and single colours.

    note : a sentence about the part shown, "" for none
    """

    title: str
    unit: str
    explanation: str
    scale: Scale | None
    entries: tuple[Entry, ...]
    note: str = ""


def terrace_top_mm(settings: PrintSettings) -> float:
    """The terrace width at the top of the scale: three roads, mm."""
    return 3.0 * settings.road_mm


def deviation_top_mm(settings: PrintSettings) -> float:
    """The distance at the top of the scale: one road, but clearly more than a layer, mm."""
    return max(settings.road_mm, 1.5 * settings.layer_mm)


def legend(lens: Lens, settings: PrintSettings) -> Legend:
    """The legend of a lens under the process settings in force."""
    return _LEGENDS[lens](settings)


def _classes(settings: PrintSettings) -> Legend:
    grey, a, b = palettes.CLASS_COLOURS
    return Legend(
        title="Classes",
        unit="",
        explanation="How much each face shows on the finished part.",
        scale=None,
        entries=(
            Entry(a, "class A: always in view", letter="A"),
            Entry(b, "class B: seen in use", letter="B"),
            Entry(grey, "unmarked: hidden", letter="–"),
        ),
    )


def _overhang(settings: PrintSettings) -> Legend:
    limit = settings.support_limit_deg
    scale = Scale(0.0, limit, palettes.overhang_table(), limit, f"support limit {limit:g}°")
    if limit == 0.0:  # nothing lies below it: a scale from 0 to 0 would show nothing
        scale = None
    return Legend(
        title="Overhang",
        unit="°",
        explanation="Inclination of undersides from horizontal: 0° is a ceiling, 90° a wall.",
        scale=scale,
        entries=(Entry(palettes.WARM_GREY, "holds itself up, or faces upward"),),
    )


def _touch(settings: PrintSettings) -> Legend:
    grey, a, b = palettes.TOUCH_COLOURS
    return Legend(
        title="Touch and landing",
        unit="",
        explanation="Where supports bear against the part (stripes) and stand on it (dots).",
        scale=None,
        entries=(
            Entry(a, "touch on class A", Hatch.RISING, "A"),
            Entry(b, "touch on class B", Hatch.FALLING, "B"),
            Entry(grey, "touch elsewhere", Hatch.LEVEL),
            Entry(a, "landing on class A", Hatch.DOTS, "A"),
            Entry(b, "landing on class B", Hatch.DOTS, "B"),
            Entry(grey, "landing elsewhere, platform", Hatch.DOTS),
            Entry(palettes.SUPPORT_GREY, "support", Hatch.TRANSLUCENT),
            Entry(palettes.ISLAND_COLOUR, "island", letter="▲"),
            Entry(palettes.SHUT_IN_COLOUR, "support shut in", letter="■"),
        ),
    )


def _terraces(settings: PrintSettings) -> Legend:
    road, top = settings.road_mm, terrace_top_mm(settings)
    return Legend(
        title="Terraces",
        unit="mm",
        explanation="Width of one stair step: layer height ÷ tangent of the inclination.",
        scale=Scale(0.0, top, palettes.terrace_table(), road, f"road width {road:g} mm", above="+"),
        entries=(Entry(palettes.WARM_GREY, "level or within one layer: no stairs"),),
    )


def _faults(settings: PrintSettings) -> Legend:
    return Legend(
        title="Faults",
        unit="",
        explanation="Where the surface is at fault; markers and edges show through the part.",
        scale=None,
        entries=tuple(Entry(look.colour, look.label, look.hatch) for look in FAULT_LOOKS),
    )


def _deviation(settings: PrintSettings) -> Legend:
    layer, top = settings.layer_mm, deviation_top_mm(settings)
    table = palettes.deviation_table()
    return Legend(
        title="Deviation",
        unit="mm",
        explanation="How far the mended surface lies from the part as received.",
        scale=Scale(0.0, top, table, layer, f"layer {layer:g} mm", above="+"),
        entries=(),
    )


def deviation_note(deviation: Deviation | None, mended: bool) -> str:
    """What the lens Deviation says in numbers about a part, `mended` or not."""
    if not mended:
        return "Nothing was mended since the file was opened."
    if deviation is None:
        return "Comparing with the part as received \u2026"
    new, old = deviation.new, deviation.old
    return (
        f"At most {new.max_mm:.2g} mm off, 95 % within {new.share_95_mm:.2g} mm, mean"
        f" {new.mean_mm:.2g} mm; nothing of the part as received is farther away than"
        f" {old.max_mm:.2g} mm."
    )


_LEGENDS = {
    Lens.CLASSES: _classes,
    Lens.OVERHANG: _overhang,
    Lens.TOUCH: _touch,
    Lens.TERRACES: _terraces,
    Lens.FAULTS: _faults,
    Lens.DEVIATION: _deviation,
}
