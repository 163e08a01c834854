"""What supports and layers leave on the faces that show, said for people who never printed."""

from viewer.document.sheet_facts import SheetFacts
from viewer.document.sheet_words import area_words
from viewer.words import later, say

_LEAST_MM2 = 0.5  # less than that is nothing

_UNTOUCHED = {
    "A": later(
        "No support touches the faces that are always in view (class A): they come out without "
        "marks of supports."
    ),
    "B": later("No support touches the faces that are seen in use (class B)."),
}
_TOUCHED = {
    "A": later(
        "Supports touch {touched} of the {area} that are always in view (class A), "
        "{share:.1%} of them. The pictures show where."
    ),
    "B": later(
        "Supports touch {touched} of the {area} that are seen in use (class B), {share:.1%} of "
        "them."
    ),
}
_STOOD_ON = {
    "A": later("Supports stand on {stood_on} of the faces that are always in view."),
    "B": later("Supports stand on {stood_on} of the faces that are seen in use."),
}
_GRAZED = {
    "A": later(
        "On {grazed} always in view a support stands so close that it may leave faint traces."
    ),
    "B": later("On {grazed} seen in use a support stands so close that it may leave faint traces."),
}


def trace_points(facts: SheetFacts) -> tuple[str, ...]:
    """One sentence for each thing to be seen afterwards."""
    _, a_mm2, b_mm2 = facts.class_mm2
    points = []
    if not a_mm2 + b_mm2 > 0:
        points.append(_of_unmarked(facts))
    for key, area in (("A", a_mm2), ("B", b_mm2)):
        if area > 0:
            points += _of_class(facts, key, area)
    touched_face = facts.chosen.numbers.chosen.pair.touched_face
    if touched_face and facts.chosen.measures.touch_area_mm2.total > _LEAST_MM2:
        points.append(say("Where a support was: {how}.", how=say(touched_face).rstrip(".")))
    points += _of_layers(facts, a_mm2)
    return tuple(points)


def _of_unmarked(facts: SheetFacts) -> str:
    touched = facts.chosen.measures.touch_area_mm2.total
    return say(
        "No faces are marked as the ones that show, so all count alike; supports touch {touched}.",
        touched=area_words(touched) if touched > _LEAST_MM2 else say("none of them"),
    )


def _of_class(facts: SheetFacts, key: str, area_mm2: float) -> list[str]:
    measures = facts.chosen.measures
    touched = getattr(measures.touch_area_mm2, key)
    found = []
    if touched > _LEAST_MM2:
        share = min(touched / area_mm2, 1.0)
        found.append(
            say(_TOUCHED[key], touched=area_words(touched), area=area_words(area_mm2), share=share)
        )
    else:
        found.append(say(_UNTOUCHED[key]))
    stood_on = getattr(measures.landing_area_mm2, key)
    if stood_on > _LEAST_MM2:
        found.append(say(_STOOD_ON[key], stood_on=area_words(stood_on)))
    grazed = getattr(measures.graze_area_mm2, key) if measures.graze_area_mm2 else 0.0
    if grazed > _LEAST_MM2:
        found.append(say(_GRAZED[key], grazed=area_words(grazed)))
    return found


def _of_layers(facts: SheetFacts, a_mm2: float) -> list[str]:
    settings, measures = facts.state.settings, facts.chosen.measures
    found = [
        say(
            "The part grows in layers of {layer_mm:g} mm; on slopes their edges show as fine "
            "steps, the broader the flatter the slope.",
            layer_mm=settings.layer_mm,
        )
    ]
    if a_mm2 > 0:
        visible = measures.terrace_visible_area_mm2.A
        if visible > _LEAST_MM2:
            found.append(
                say(
                    "On {visible} always in view these steps are broader than {road_mm:g} mm.",
                    visible=area_words(visible),
                    road_mm=settings.road_mm,
                )
            )
        else:
            found.append(
                say(
                    "Nowhere on the faces always in view are these steps broader than "
                    "{road_mm:g} mm.",
                    road_mm=settings.road_mm,
                )
            )
    return found
