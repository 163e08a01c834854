"""What the colours of a lens mean, as data: for the window, the pictures and the client sheet."""

from dataclasses import dataclass, replace

import numpy as np

from viewer.geometry.deviation import Deviation
from viewer.geometry.pose_difference import (
    PoseDifference,
    broadest_mm,
    clear_difference_mm,
)
from viewer.geometry.print_settings import PrintSettings
from viewer.scene import palettes
from viewer.scene.fault_looks import FAULT_LOOKS
from viewer.scene.hatches import Hatch
from viewer.scene.lenses import Lens
from viewer.scene.palettes import Colour
from viewer.scene.printed_look import DULLNESS, shown_colour
from viewer.words import say


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
    above : what is beyond `high`: "" nothing, "+" the last colour stands for all above it; where
        `low` is below 0, the first stands for all below it, too
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
    """The terrace width at the top of the scale: three times what counts as visible, mm."""
    return 3.0 * settings.shown_terrace_mm


def deviation_top_mm(settings: PrintSettings) -> float:
    """The distance at the top of the scale: one road, but clearly more than a layer, mm."""
    return max(settings.road_mm, 1.5 * settings.layer_mm)


def legend(lens: Lens, settings: PrintSettings) -> Legend:
    """The legend of a lens under the process settings in force."""
    return _LEGENDS[lens](settings)


def printed_in(shown: Legend, colour: Colour) -> Legend:
    """The legend of the Printed look of a material of that colour."""
    colour = shown_colour(colour)
    tinted = {palettes.PRINT_MATERIAL: colour, _shaded(palettes.PRINT_MATERIAL): _shaded(colour)}
    entries = (replace(entry, colour=tinted[entry.colour]) for entry in shown.entries)
    return replace(shown, entries=tuple(entries))


def _classes(settings: PrintSettings) -> Legend:
    grey, a, b = palettes.CLASS_COLOURS
    return Legend(
        title=say("Classes"),
        unit="",
        explanation=say("How much each face shows on the finished part."),
        scale=None,
        entries=(
            Entry(a, say("class A: always in view"), letter="A"),
            Entry(b, say("class B: seen in use"), letter="B"),
            Entry(grey, say("unmarked: hidden"), letter="–"),
        ),
    )


def _overhang(settings: PrintSettings) -> Legend:
    limit = settings.support_limit_deg
    scale = Scale(
        0.0, limit, palettes.overhang_table(), limit, say("support limit {limit:g}°", limit=limit)
    )
    if limit == 0.0:  # nothing lies below it: a scale from 0 to 0 would show nothing
        scale = None
    return Legend(
        title=say("Overhang"),
        unit="°",
        explanation=say("Inclination of undersides from horizontal: 0° is a ceiling, 90° a wall."),
        scale=scale,
        entries=(Entry(palettes.WARM_GREY, say("holds itself up, or faces upward")),),
    )


def _touch(settings: PrintSettings) -> Legend:
    grey, a, b = palettes.TOUCH_COLOURS
    return Legend(
        title=say("Touch and landing"),
        unit="",
        explanation=say("Where supports bear against the part (stripes) and stand on it (dots)."),
        scale=None,
        entries=(
            Entry(a, say("touch on class A"), Hatch.RISING, "A"),
            Entry(b, say("touch on class B"), Hatch.FALLING, "B"),
            Entry(grey, say("touch elsewhere"), Hatch.LEVEL),
            Entry(a, say("landing on class A"), Hatch.DOTS, "A"),
            Entry(b, say("landing on class B"), Hatch.DOTS, "B"),
            Entry(grey, say("landing elsewhere, platform"), Hatch.DOTS),
            Entry(palettes.SUPPORT_GREY, say("support"), Hatch.TRANSLUCENT),
            Entry(palettes.ISLAND_COLOUR, say("island"), letter="▲"),
            Entry(palettes.SHUT_IN_COLOUR, say("support shut in"), letter="■"),
        ),
    )


def _terraces(settings: PrintSettings) -> Legend:
    shown, top = settings.shown_terrace_mm, terrace_top_mm(settings)
    if settings.visible_terrace_mm:
        limit = say("visible from {shown:g} mm", shown=shown)
    else:
        limit = say("road width {road:g} mm", road=shown)
    return Legend(
        title=say("Terraces"),
        unit="mm",
        explanation=say("Width of one stair step: layer height ÷ tangent of the inclination."),
        scale=Scale(
            0.0,
            top,
            palettes.terrace_table(),
            shown,
            limit,
            above="+",
        ),
        entries=(Entry(palettes.WARM_GREY, say("level or within one layer: no stairs")),),
    )


def _faults(settings: PrintSettings) -> Legend:
    return Legend(
        title=say("Faults"),
        unit="",
        explanation=say("Where the surface is at fault; markers and edges show through the part."),
        scale=None,
        entries=tuple(Entry(look.colour, say(look.label), look.hatch) for look in FAULT_LOOKS),
    )


def _deviation(settings: PrintSettings) -> Legend:
    layer, top = settings.layer_mm, deviation_top_mm(settings)
    table = palettes.deviation_table()
    return Legend(
        title=say("Deviation"),
        unit="mm",
        explanation=say("How far the mended surface lies from the part as received."),
        scale=Scale(0.0, top, table, layer, say("layer {layer:g} mm", layer=layer), above="+"),
        entries=(),
    )


def _printed(settings: PrintSettings) -> Legend:
    layer = settings.layer_mm
    return Legend(
        title=say("Printed look"),
        unit="",
        explanation=(
            say(
                "The part as it comes out in layers of {layer:g} mm, supports taken "
                "off: fine lines on walls, broad terraces on shallow slopes. Shading "
                "only; the shape is not changed.",
                layer=layer,
            )
        ),
        scale=None,
        entries=(
            Entry(
                palettes.PRINT_MATERIAL,
                say("layers of {layer:g} mm: terraces", layer=layer),
                Hatch.LEVEL,
            ),
            Entry(palettes.PRINT_MATERIAL, say("level top: roads"), Hatch.RISING),
            Entry(palettes.PRINT_MATERIAL, say("on the platform: smooth")),
            Entry(_shaded(palettes.PRINT_MATERIAL), say("rough: support broken off"), Hatch.DOTS),
        ),
    )


def _difference(settings: PrintSettings) -> Legend:
    most, clear = broadest_mm(settings), clear_difference_mm(settings)
    table = palettes.difference_table()
    return Legend(
        title=say("Difference"),
        unit="mm",
        explanation=(
            say(
                "How much broader the steps of each face come out than in the pose it "
                "is compared with; a touched face counts like steps of {most:g} mm. "
                "Where faces are marked, the others are pale.",
                most=most,
            )
        ),
        scale=Scale(-most, most, table, 0.0, say("the same"), above="+"),
        entries=(
            Entry(
                tuple(table[40]),
                say("better by {clear:.3g} mm or more", clear=clear),
                Hatch.FALLING,
            ),
            Entry(
                tuple(table[215]), say("worse by {clear:.3g} mm or more", clear=clear), Hatch.RISING
            ),
        ),
    )


def difference_note(found: PoseDifference | None, wanted: bool) -> str:
    """What the lens Difference says in numbers; `wanted`: there is a pose to compare with."""
    if not wanted:
        return say("Pin a pose (P) to see where another one is better and where worse.")
    if found is None:
        return say("Measuring both poses …")
    marked = [name for name in ("A", "B") if getattr(found.mean_mm, name) or _area(found, name)]
    named = [(say("class {name}", name=name), name) for name in marked] or [
        (say("all faces"), "total")
    ]
    return "; ".join(
        say(
            "{words}: {better_mm2:,.0f} mm² better, {worse_mm2:,.0f} mm² worse",
            words=words,
            better_mm2=getattr(found.better_mm2, key),
            worse_mm2=getattr(found.worse_mm2, key),
        )
        for words, key in named
    )


def _area(found: PoseDifference, name: str) -> float:
    return getattr(found.better_mm2, name) + getattr(found.worse_mm2, name)


def _shaded(colour: Colour) -> Colour:
    """The mean colour of a rough area."""
    return tuple((1.0 - DULLNESS) * c for c in colour)


def deviation_note(deviation: Deviation | None, mended: bool) -> str:
    """What the lens Deviation says in numbers about a part, `mended` or not."""
    if not mended:
        return say("Nothing was mended since the file was opened.")
    if deviation is None:
        return say("Comparing with the part as received \u2026")
    new, old = deviation.new, deviation.old
    return say(
        "At most {max_mm:.2g} mm off, 95 % within {share_95_mm:.2g} mm, mean "
        "{mean_mm:.2g} mm; nothing of the part as received is farther away "
        "than {max_mm_2:.2g} mm.",
        max_mm=new.max_mm,
        share_95_mm=new.share_95_mm,
        mean_mm=new.mean_mm,
        max_mm_2=old.max_mm,
    )


_LEGENDS = {
    Lens.CLASSES: _classes,
    Lens.OVERHANG: _overhang,
    Lens.TOUCH: _touch,
    Lens.TERRACES: _terraces,
    Lens.FAULTS: _faults,
    Lens.DEVIATION: _deviation,
    Lens.PRINTED: _printed,
    Lens.DIFFERENCE: _difference,
}
