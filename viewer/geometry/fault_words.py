"""What the faults of a mesh mean, in plain words: names, what happens in the print, advice."""

from typing import NamedTuple

from viewer.words import say, written

# Common practice, no source: a crack this narrow closes when the layers are filled with roads
# several tenths of a millimetre wide; a wider one leaves the outline of a layer open.
CRACK_MM = 0.05

# How grave a fault is for the print.
HARMLESS, CARE, FAILS = "harmless", "with care", "will fail"


class Words(NamedTuple):
    """`one`, `many`: names; `effect`: what will happen in the print; `advice`: what to do."""

    one: str
    many: str
    effect: str
    advice: str


WORDS = {
    "open_edges": Words(
        "open edge",
        "open edges",
        "The outline of the layers there does not close: the machine fills the wrong side, or "
        "leaves a gap in the wall.",
        "",
    ),
    "nonmanifold_edges": Words(
        "edge with more than two faces",
        "edges with more than two faces",
        "Inside and outside are not clear along these edges; walls may be printed twice or left "
        "out there.",
        "Look for a wall or patch that is there twice and take one away; bodies that meet in a "
        "single edge should overlap a little instead.",
    ),
    "nonmanifold_vertices": Words(
        "corner in which surfaces meet only in a point",
        "corners in which surfaces meet only in a point",
        "What hangs together in a point only is not joined in the print and breaks off.",
        "Let the bodies overlap a little where they meet, or part them.",
    ),
    "flipped_edges": Words(
        "edge between faces turned against each other",
        "edges between faces turned against each other",
        "The wrong side may be taken for the inside and stay hollow.",
        "Turn the faces so that all of them face outwards.",
    ),
    "self_intersecting_faces": Words(
        "face that crosses its own shell",
        "faces that cross their own shell",
        "Outlines of the layers there run through themselves; small holes or doubled roads are "
        "likely.",
        "Smooth out the fold, or unite the crossing parts: inside and outside are not clear where "
        "the surface crosses itself.",
    ),
    "overlapping_shells": Words(
        "pair of shells that overlap",
        "pairs of shells that overlap",
        "Where the shells overlap, walls run through the inside of the part, or the common part is "
        "left hollow.",
        "Unite the shells into one body.",
    ),
    "inward_shells": Words(
        "inside-out shell",
        "inside-out shells",
        "What faces inwards may be printed as a hollow or left out.",
        "Turn these shells over.",
    ),
    "duplicate_faces": Words(
        "face that is there twice",
        "faces that are there twice",
        "The same wall is laid twice there, or not at all, as the two copies cancel out.",
        "Take one of each pair away: the same surface printed twice can confuse the filling.",
    ),
    "doubled_faces": Words(
        "face lying flat on another that faces the same way",
        "faces lying flat on others that face the same way",
        "A patch of the surface is there twice; the same wall is laid twice there, or not at all.",
        "Take one of the two patches away.",
    ),
    "opposite_faces": Words(
        "face back to back with another",
        "faces back to back with others",
        "A sheet or a wall without thickness cannot be printed: it is left out, or parts the "
        "filling in two.",
        "Take both sides away if they part a solid in two, or give the sheet a thickness.",
    ),
    "loose_surfaces": Words(
        "loose surface that encloses nothing",
        "loose surfaces that enclose nothing",
        "A surface without thickness is left out of the print, or spoils the layers it reaches.",
        "Take it away if it is a leftover, or give it a thickness.",
    ),
    "zero_thickness_sheets": Words(
        "sheet without thickness",
        "sheets without thickness",
        "A sheet without thickness is left out of the print.",
        "Take it away if it is a leftover, or give it a thickness.",
    ),
    "edge_contacts": Words(
        "face that touches its own shell",
        "faces that touch their own shell",
        "What only touches is joined by half a road or less; a hinge or a gap there may stick, a "
        "joint may come apart.",
        "Look whether it is to be joined or apart there, and let it overlap or leave a gap.",
    ),
    "floating_bits": Words(
        "loose speck",
        "loose specks",
        "It touches nothing and stands on the platform beside the part; it comes loose and may be "
        "dragged along.",
        "Remove them if they are leftovers.",
    ),
    "thin_walls": Words(
        "place with walls thinner than one road",
        "places with walls thinner than one road",
        "The wall is left out, or printed as one road, wider than drawn.",
        "",
    ),
    "one_road_walls": Words(
        "place with walls thinner than two roads",
        "places with walls thinner than two roads",
        "The wall is printed as one road with a gap beside it, or as two that press into each "
        "other.",
        "",
    ),
    "narrow_gaps": Words(
        "gap narrower than a road",
        "gaps narrower than a road",
        "The gap closes: what should move sticks together.",
        "",
    ),
    "fine_relief": Words(
        "place with relief finer than a road",
        "places with relief finer than a road",
        "The print loses this relief: raised lines are left out, sunk ones close.",
        "",
    ),
    "low_relief": Words(
        "step lower than a layer",
        "steps lower than a layer",
        "The step vanishes, or becomes a whole layer high.",
        "Make it a whole number of layers high, take thinner layers, or turn the part so that the "
        "relief stands upright.",
    ),
    "coarse_facets": Words(
        "face coarser than a curve needs",
        "faces coarser than a curve needs",
        "The flats of the curve show in the print.",
        "",
    ),
    "section_jumps": Words(
        "sudden jump of section",
        "sudden jumps of section",
        "The walls may show a line at this height, as the layers above cool and shrink otherwise "
        "than those below.",
        "If the side shows, turn the part or round the ledge.",
    ),
    "touching_shells": Words(
        "pair of shells that touch",
        "pairs of shells that touch",
        "Where they touch, the shells are printed side by side and stick to each other.",
        "No harm as a rule; unite the shells if they are to be one body.",
    ),
    "sliver_faces": Words(
        "sliver of a face",
        "slivers of faces",
        "They are finer than the machine moves and do not show.",
        "They do no harm by themselves; mending removes them.",
    ),
    "degenerate_faces": Words(
        "face without area",
        "faces without area",
        "They do not show in the print.",
        "They do no harm to the print; mending removes them.",
    ),
}


def counted(kind: str, count: int) -> str:
    """Count and name of a kind of fault, such as "1 open edge" or "1,200 open edges"."""
    name = WORDS[kind].one if count == 1 else WORDS[kind].many
    return f"{written(count, ',')} {say(name)}"


def length(mm: float) -> str:
    """A length in two digits, such as "0.13 mm" or "24 mm"."""
    return f"{written(mm, '.2g' if mm < 10 else '.0f')} mm"


def listed(phrases: list[str]) -> str:
    """Phrases as one: "a", "a and b", "a, b and c"."""
    if len(phrases) < 2:
        return "".join(phrases)
    return say("{first} and {last}", first=", ".join(phrases[:-1]), last=phrases[-1])
