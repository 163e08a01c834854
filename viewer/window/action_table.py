"""Every action of the window in one table: where it stands in the menus, its keys, what it does."""

from dataclasses import dataclass

from viewer.scene.lenses import Lens
from viewer.window.stages import TITLES, Stage


@dataclass(frozen=True)
class Entry:
    """One action.

    key : its name in the program; menu : path such as "View/Camera"; text : with mnemonic
    keys : shortcut as in "Ctrl+O"; group : actions of one group exclude one another
    """

    key: str
    menu: str
    text: str
    keys: str
    tip: str
    checkable: bool = False
    group: str = ""
    icon: str = ""
    needs_part: bool = True
    line_before: bool = False


MENUS = ("&File", "&Edit", "&Stage", "&Mark", "&Turn", "&View", "&Help")


def _file() -> list[Entry]:
    free = {"needs_part": False}
    exports = [
        Entry(f"export_{kind}", "&File/&Export the posed part", text, keys, tip)
        for kind, text, keys, tip in (
            ("3mf", "&3MF …", "Ctrl+E", "Posed part in mm with its classes as triangle sets"),
            ("stl", "Binary &STL …", "Ctrl+Shift+E", "Posed part as triangles; classes are lost"),
            ("obj", "&OBJ …", "Ctrl+Alt+E", "Posed part as vertices and faces"),
            ("ply", "&PLY …", "Ctrl+Alt+P", "Posed part as vertices and faces, binary"),
        )
    ]
    return [
        Entry("open", "&File", "&Open …", "Ctrl+O", "Open a mesh or a job", icon="open", **free),
        Entry("demo", "&File", "Open the &demo", "Ctrl+D", "A grip for a garden trowel", **free),
        Entry(
            "faulty_demo",
            "&File",
            "Open the &faulty demo",
            "Ctrl+Shift+D",
            "The same grip as received from its designer, with faults",
            **free,
        ),
        Entry("save", "&File", "&Save the job", "Ctrl+S", "Keep part, classes, pose, process",
              line_before=True),
        Entry("save_as", "&File", "Save the job &as …", "Ctrl+Shift+S", "Keep it in another file"),
        *exports,
        Entry("quit", "&File", "&Quit", "Ctrl+Q", "Close the window", line_before=True, **free),
    ]  # fmt: skip


def _stages() -> list[Entry]:
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


def _mark() -> list[Entry]:
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
        Entry("brush_larger", "&Mark", "&Larger brush", "]", "Brush one step larger",
              line_before=True, **size),
        Entry("brush_smaller", "&Mark", "&Smaller brush", "[", "Brush one step smaller", **size),
        Entry("unmark_all", "&Mark", "&Unmark all faces", "Ctrl+Shift+U", "Start marking anew",
              line_before=True),
    ]  # fmt: skip


def _turn() -> list[Entry]:
    mode = {"checkable": True, "group": "turn", "needs_part": False}
    quarters = [
        Entry(
            f"quarter_{axis}_{name}",
            "&Turn/&Quarter turns",
            f"About {axis.upper()} by {sign}90°",
            keys,
            f"A quarter turn about the platform's {axis.upper()}",
        )
        for axis in "xyz"
        for name, sign, keys in (
            ("plus", "+", axis.upper()),
            ("minus", "−", f"Shift+{axis.upper()}"),
        )
    ]
    return [
        Entry("turn_rings", "&Turn", "With the &rings", "R", "Drag rings to turn", **mode),
        Entry("turn_stand", "&Turn", "&Stand on a face", "S", "Click the face to lie down", **mode),
        *quarters,
        Entry("as_drawn", "&Turn", "&As in the file", "0", "Back to the pose of the file"),
        Entry("pin", "&Turn", "&Pin this pose", "P", "Compare every other pose with this one",
              line_before=True),
        Entry("unpin", "&Turn", "&Unpin", "Shift+P", "Compare with nothing"),
        Entry("to_pinned", "&Turn", "&Go to the pinned pose", "Ctrl+P", "Lay the part as pinned"),
    ]  # fmt: skip


def _view() -> list[Entry]:
    lens_tips = {
        "classes": "How much each face shows",
        "overhang": "Inclination of undersides from horizontal",
        "touch": "Where supports bear against the part and stand on it",
        "terraces": "Width of the layer steps",
        "faults": "What is wrong with the file, and where",
        "deviation": "How far the mended surface lies from the part as received",
    }
    lenses = [
        Entry(
            f"lens_{lens.value}",
            "&View",
            f"{lens.value.capitalize()}",
            str(number),
            lens_tips.get(lens.value, lens.value),
            checkable=True,
            group="lens",
            needs_part=False,
        )
        for number, lens in enumerate(Lens, 1)
    ]
    sides = ("front", "back", "left", "right", "above", "below")
    cameras = [
        Entry(f"camera_{side}", "&View/&Camera", f"From {_the(side)}", f"Alt+{number}",
              f"Look from {_the(side)}", needs_part=False)
        for number, side in enumerate(sides, 1)
    ]  # fmt: skip
    theme = {"checkable": True, "group": "theme", "needs_part": False}
    return [
        *lenses,
        Entry("supports", "&View", "&Supports", "U", "Show or hide the support columns",
              checkable=True, icon="supports", needs_part=False, line_before=True),
        Entry("height_strip", "&View", "&Height strip", "H", "Show or hide the chart of heights",
              checkable=True, icon="height_strip", needs_part=False),
        Entry("fit", "&View/&Camera", "&Fit the part", "Home", "See the whole part", icon="fit"),
        *cameras,
        Entry("theme_desktop", "&View/&Theme", "As &desktop", "Ctrl+Alt+D", "Follow it", **theme),
        Entry("theme_light", "&View/&Theme", "&Light", "Ctrl+Alt+L", "Light colours", **theme),
        Entry("theme_dark", "&View/&Theme", "&Dark", "Ctrl+Alt+K", "Dark colours", **theme),
        Entry("full_screen", "&View", "F&ull screen", "F11", "Use the whole screen",
              checkable=True, needs_part=False, line_before=True),
    ]  # fmt: skip


def _the(side: str) -> str:
    return side if side in ("above", "below") else f"the {side}"


def _edit_and_help() -> list[Entry]:
    free = {"needs_part": False}
    return [
        Entry("undo", "&Edit", "&Undo", "Ctrl+Z", "Take back the last step", icon="undo"),
        Entry("redo", "&Edit", "&Redo", "Ctrl+Shift+Z", "Bring it back", icon="redo"),
        Entry(
            "look_to_mend",
            "&Edit",
            "&Look for ways to mend",
            "Ctrl+M",
            "Choose steps that mend the part, and see what each would change",
            line_before=True,
        ),
        Entry(
            "mend_safely",
            "&Edit",
            "&Mend what is safe",
            "Ctrl+Shift+M",
            "Take the harmless steps that come next in one go",
        ),
        Entry("find_action", "&Help", "&Find an action …", "Ctrl+Shift+A", "Type its name", **free),
        Entry(
            "how_it_measures",
            "&Help",
            "&How it measures",
            "Ctrl+F1",
            "Each number in plain words",
            **free,
        ),
        Entry(
            "how_it_mends",
            "&Help",
            "How it m&ends",
            "Ctrl+F2",
            "Each step of mending in plain words",
            **free,
        ),
        Entry("mouse", "&Help", "&Mouse and keys", "F1", "What the buttons do", **free),
        Entry("about", "&Help", "&About Showside", "Shift+F1", "Version and licence", **free),
    ]


ENTRIES: tuple[Entry, ...] = (
    *_file(),
    *_edit_and_help(),
    *_stages(),
    *_mark(),
    *_turn(),
    *_view(),
)
