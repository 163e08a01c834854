"""Actions of the menus Stage and Mark."""

from viewer.window.action_entry import Entry
from viewer.window.stages import TITLES, Stage


def stage_actions() -> list[Entry]:
    return [
        Entry(
            f"stage_{stage.name.lower()}",
            "&Stage",
            f"&{int(stage)} {TITLES[stage]}",
            f"Ctrl+{int(stage)}",
            f"Go to the stage {TITLES[stage]}",
            checkable=True,
            group="stage",
            needs_part=False,
        )
        for stage in Stage
    ]


def mark_actions() -> list[Entry]:
    kind = {"checkable": True, "group": "class", "needs_part": False}
    extent = {"checkable": True, "group": "extent", "needs_part": False}
    size = {"needs_part": False}
    return [
        Entry("mark_a", "&Mark", "As class &A", "A", "Faces always in view", **kind),
        Entry("mark_b", "&Mark", "As class &B", "B", "Faces seen in use", **kind),
        Entry("mark_erase", "&Mark", "&Erase", "E", "Make faces unmarked", **kind),
        Entry("extent_brush", "&Mark", "B&rush", "D", "Round brush", line_before=True, **extent),
        Entry("extent_crease", "&Mark", "Up to a &crease", "F", "Fill up to sharp edges", **extent),
        Entry("extent_patch", "&Mark", "Whole &patch", "G", "Smooth region or CAD face", **extent),
        Entry("extent_band", "&Mark", "Ban&d of heights", "J", "Between two heights", **extent),
        Entry("extent_lasso", "&Mark", "Lass&o", "L", "Drag a loop on the screen", **extent),
        Entry("extent_seen_here", "&Mark", "&What is seen from here", "W",
              "Its button beside the scene", **extent),
        Entry("extent_seen_in_use", "&Mark", "What is seen in &use", "I",
              "Its button and viewpoints beside the scene", **extent),
        Entry("extent_change", "&Mark", "Chan&ge marks there are", "N",
              "Grow, shrink, smooth, mirror, exchange, beside the scene", **extent),
        Entry("brush_larger", "&Mark", "&Larger brush", "]", "Brush one step larger",
              line_before=True, **size),
        Entry("brush_smaller", "&Mark", "&Smaller brush", "[", "Brush one step smaller", **size),
        *_ways_to_mark(),
        Entry("not_carried", "&Mark", "Outline what is &new", "Alt+N",
              "Outline the places of the newer version on which the old one had no surface, so "
              "that no mark could be carried over", checkable=True, line_before=True),
        Entry("unmark_all", "&Mark", "Unmark all &faces", "Ctrl+Shift+U", "Start marking anew",
              line_before=True),
    ]  # fmt: skip


def _ways_to_mark() -> list[Entry]:
    return [
        Entry("lasso_through", "&Mark", "Lasso &through the part", "Shift+L",
              "Also mark what the part itself hides", checkable=True, needs_part=False),
        Entry("mark_band", "&Mark", "&Mark the band", "Shift+J",
              "Every face between the two heights over the platform", line_before=True),
        Entry("mark_seen_here", "&Mark", "Mark what is seen from &here", "V",
              "Every face that can be seen from where you look now"),
        Entry("mark_seen_in_use", "&Mark", "Mark what is seen &in use", "Shift+V",
              "Every face that can be seen from a circle of viewpoints round the part"),
        Entry("marks_grow", "&Mark/Change the mar&ks", "&Grow", "Ctrl+]",
              "Widen the class chosen under Mark as, all along its border"),
        Entry("marks_shrink", "&Mark/Change the mar&ks", "&Shrink", "Ctrl+[",
              "Narrow the class chosen under Mark as, all along its border"),
        Entry("marks_smooth", "&Mark/Change the mar&ks", "S&mooth", "O",
              "Round the borders of all marks: narrow spikes and notches go"),
        Entry("marks_mirror", "&Mark/Change the mar&ks", "M&irror the marks", "Ctrl+I",
              "Mark one half of the part like the mirror image of the other"),
        Entry("marks_swap", "&Mark/Change the mar&ks", "&Exchange A and B", "Ctrl+B",
              "What was class A becomes class B, and the reverse"),
    ]  # fmt: skip
