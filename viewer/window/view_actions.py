"""Actions of the menus View and Help."""

from viewer.scene.lenses import Lens
from viewer.window.action_entry import Entry


def view_actions() -> list[Entry]:
    lens_tips = {
        "classes": "How much each face shows",
        "overhang": "Inclination of undersides from horizontal",
        "touch": "Where supports bear against the part and stand on it",
        "terraces": "Width of the layer steps",
        "faults": "What is wrong with the file, and where",
        "deviation": "How far the mended surface lies from the part as received",
        "printed": "The part as it comes out: layer lines, terraces, marks of supports",
        "difference": "Where this pose is better and where worse than the pinned one",
    }
    lenses = [
        Entry(
            f"lens_{lens.value}",
            "&View",
            lens.title,
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
    language = {"checkable": True, "group": "language", "needs_part": False}
    return [
        *lenses,
        Entry("supports", "&View", "&Supports", "U", "Show or hide the support columns",
              checkable=True, icon="supports", needs_part=False, line_before=True),
        Entry("height_strip", "&View", "&Height strip", "H", "Show or hide the chart of heights",
              checkable=True, icon="height_strip", needs_part=False),
        Entry("print_colour", "&View", "C&olour of the print …", "Ctrl+Alt+C",
              "In which colour the lens Printed look shows the material", needs_part=False),
        Entry("machine_volumes", "&View", "&Machine's volumes", "M",
              "Show the build volume, what each nozzle reaches, and where the part sticks out",
              checkable=True, needs_part=False),
        Entry("fit", "&View/&Camera", "&Fit the part", "Home", "See the whole part", icon="fit"),
        *cameras,
        Entry("theme_desktop", "&View/&Theme", "As des&ktop", "Ctrl+Alt+D", "Follow it", **theme),
        Entry("theme_light", "&View/&Theme", "&Light", "Ctrl+Alt+L", "Light colours", **theme),
        Entry("theme_dark", "&View/&Theme", "&Dark", "Ctrl+Alt+K", "Dark colours", **theme),
        Entry("language_desktop", "&View/Lan&guage", "As the des&ktop", "Ctrl+Alt+Y",
              "Speak the language of the desktop", **language),
        Entry("language_en", "&View/Lan&guage", "&English", "Ctrl+Alt+I", "Speak English",
              **language),
        Entry("language_de", "&View/Lan&guage", "&Deutsch", "Ctrl+Alt+G", "Speak German",
              **language),
        Entry("present", "&View", "&Presentation", "F5",
              "The scene alone with large type; arrows show the kept poses, Escape ends it",
              checkable=True, line_before=True),
        Entry("full_screen", "&View", "F&ull screen", "F11", "Use the whole screen",
              checkable=True, needs_part=False),
    ]  # fmt: skip


def _the(side: str) -> str:
    return side if side in ("above", "below") else f"the {side}"


def help_actions() -> list[Entry]:
    free = {"needs_part": False}
    pages = (
        ("how_it_measures", "&How it measures", "Ctrl+F1", "Each number in plain words"),
        ("how_it_mends", "How it m&ends", "Ctrl+F2", "Each step of mending in plain words"),
        (
            "how_it_marks",
            "How mar&king works",
            "Ctrl+F3",
            "Each way to mark in plain words, and newer versions of a part",
        ),
        (
            "how_it_searches",
            "How it &searches directions",
            "Ctrl+F5",
            "How every direction is measured, ranked and cut",
        ),
        (
            "how_it_compares",
            "How &comparing works",
            "Ctrl+F4",
            "Poses side by side, the lens Difference, calls, pictures and turntables",
        ),
        (
            "how_it_reckons",
            "How the shop &reckons",
            "Ctrl+F7",
            "Where time, money, fit and risks come from",
        ),
        (
            "how_it_learns",
            "How trials &teach",
            "Ctrl+F8",
            "Which test pays, writing results down, and what they change",
        ),
    )
    return [
        Entry("help_here", "&Help", "Help &on this", "F1",
              "Opens the help at what has the focus", **free),
        Entry("find_action", "&Help", "&Find an action …", "Ctrl+Shift+A", "Type its name", **free),
        *(Entry(key, "&Help", name, keys, tip, **free) for key, name, keys, tip in pages),
        Entry("mouse", "&Help", "&Mouse and keys", "Ctrl+F6", "What the buttons do", **free),
        Entry("about", "&Help", "&About Showside", "Shift+F1", "Version and licences", **free),
    ]  # fmt: skip
