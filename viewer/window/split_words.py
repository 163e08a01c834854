"""Whether to split the part, and what a split brings, in sentences with their numbers."""

from viewer.geometry.split_gain import SplitGain
from viewer.live.live_cuts import SplitAdvice
from viewer.window.quantities import number_text
from viewer.words import say


def place_text(gain: SplitGain) -> str:
    """One place to split, short enough for a list."""
    return say(
        "{share:.0f} : {rest:.0f} %, {area} mm²",
        share=100 * gain.split.share,
        rest=100 * (1 - gain.split.share),
        area=number_text(gain.split.cut_area_mm2, 0),
    )


def advice_text(advice: SplitAdvice) -> str:
    """Whether it is worth while: where the part does not fit, or comes out cleaner in two."""
    if not advice.gains:
        return say("Every plane that was tried crosses a face of class A; there is no place.")
    lines = []
    if advice.too_large:
        lines.append(
            say(
                "The part does not fit “{machine}”: {why}",
                machine=say(advice.machine),
                why=advice.too_large,
            )
        )
        fitting = sum(gain.split.fits is True for gain in advice.gains)
        lines.append(
            say("Both halves fit at {count} of the places found.", count=fitting)
            if fitting
            else say("No place was found at which both halves fit.")
        )
    best = min(advice.gains, key=lambda gain: gain.halves.touch_mm2)
    if best.cleaner:
        lines.append(say("It would come out cleaner in two:") + " " + gain_text(best))
    elif not advice.too_large:
        lines.append(say("In two it comes out no cleaner:") + " " + gain_text(best))
    return "\n".join(lines)


def gain_text(gain: SplitGain) -> str:
    """Touch and wide terraces on class A, in one piece and in two."""
    return say(
        "supports touch {after} instead of {before} mm² of class A, and {steps_after} instead of "
        "{steps_before} mm² of it have terraces wider than a road.",
        after=number_text(gain.halves.touch_mm2),
        before=number_text(gain.whole.touch_mm2),
        steps_after=number_text(gain.halves.terraces_mm2),
        steps_before=number_text(gain.whole.terraces_mm2),
    )
