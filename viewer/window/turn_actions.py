"""Actions of the menus Turn and Shop."""

from viewer.window.action_entry import Entry


def turn_actions() -> list[Entry]:
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
        *_search_actions(),
        *_spin_actions(),
        Entry("pin", "&Turn", "&Pin this pose", "P", "Compare every other pose with this one",
              line_before=True),
        Entry("unpin", "&Turn", "&Unpin", "Shift+P", "Compare with nothing"),
        Entry("to_pinned", "&Turn", "&Go to the pinned pose", "Ctrl+P", "Lay the part as pinned"),
        Entry("swap_pinned", "&Turn", "S&wap with the pinned pose", "Q",
              "Lay the part as pinned and pin the pose it had; again swaps back"),
        Entry("compare", "&Turn", "&Compare side by side", "C",
              "Two to four poses beside one another with a table of their numbers; keep or pin one "
              "first", checkable=True),
        *_kept_actions(),
    ]  # fmt: skip


def _search_actions() -> list[Entry]:
    menu = "&Turn/Every &direction"
    return [
        Entry("search_directions", menu, "&Search every direction", "Shift+S",
              "Measure every build direction beside the window, and rank them"),
        Entry("direction_map", menu, "Direction &map", "Shift+D",
              "Every build direction at once under the scene, coloured", checkable=True),
        Entry("direction_globe", menu, "Map as a &globe", "Shift+G",
              "The same colours on a globe round the part; its top is the build direction",
              checkable=True),
        Entry("next_result", menu, "&Next result", "Ctrl+PgDown",
              "Lay the part like the next best direction found", line_before=True),
        Entry("previous_result", menu, "&Previous result", "Ctrl+PgUp",
              "Lay it like the one before"),
        Entry("compare_results", menu, "&Compare ticked results", "Shift+C",
              "Show two to four ticked results of the search side by side"),
        Entry("keep_results", menu, "&Keep ticked results", "Ctrl+Shift+R",
              "Put the ticked results, or the chosen one, on the list of kept poses"),
    ]  # fmt: skip


def _spin_actions() -> list[Entry]:
    menu = "&Turn/Sp&in"
    return [
        Entry("least_rectangle", menu, "&Least platform rectangle", "Shift+R",
              "Spin the part so that it takes the least rectangle of the platform"),
        Entry("seam_away", menu, "Seam &away from class A", "Shift+A",
              "Turn the side with the least of class A to the back of the machine, where each "
              "layer begins"),
        Entry("seam_side", menu, "&Seam on the side in view", "Shift+B",
              "Turn the side that you look at to the back of the machine, where each layer begins"),
        Entry("walls_along", menu, "&Walls along X or Y", "Shift+W",
              "Lay the longest walls of class A along an axis, so that no pattern of both axes "
              "shows on them"),
        Entry("keep_spin", menu, "&Keep the spin", "Shift+T",
              "Leave the spin as it is when going to another direction, which otherwise takes the "
              "least rectangle", checkable=True),
    ]  # fmt: skip


def _kept_actions() -> list[Entry]:
    menu = "&Turn/Kept p&oses"
    return [
        Entry("keep_pose", "&Turn", "&Keep this pose", "K",
              "Put this pose on the list to show one after the other", line_before=True),
        Entry("next_kept", menu, "&Next kept pose", "PgDown", "Lay the part as the next on it"),
        Entry("previous_kept", menu, "&Previous kept pose", "PgUp", "Lay it as the one before"),
        Entry("rename_kept", menu, "&Rename the kept pose", "F2", "Give it a name of its own"),
        Entry("note_kept", menu, "N&ote on the kept pose", "Shift+F2",
              "Write down why it is kept"),
        Entry("kept_earlier", menu, "Move it &up the list", "Alt+Up", "Earlier in the list"),
        Entry("kept_later", menu, "Move it &down the list", "Alt+Down", "Later in the list"),
        Entry("export_kept", menu, "E&xport the kept poses …", "Ctrl+Alt+V",
              "As a table (CSV) with name, note, direction, spin and numbers of each"),
        Entry("remove_kept", menu, "Re&move the kept pose", "Shift+K", "Take it off the list"),
    ]  # fmt: skip


def shop_actions() -> list[Entry]:
    return [
        Entry("shop_numbers", "Sh&op", "&Numbers of the shop", "F3",
              "Open or close time, money, fit, risks and cautions below the numbers",
              checkable=True, needs_part=False),
        Entry("shop_things", "Sh&op", "&Machines and materials …", "F4",
              "Your own machines, materials, pairs and processes in a form", needs_part=False),
        Entry("compare_machines", "Sh&op", "&Compare machines …", "F8",
              "The same job on every machine and with every pair, side by side"),
        Entry("finished_prints", "Sh&op", "&Finished prints …", "F9",
              "What prints really took, which corrects the estimate and narrows its range",
              needs_part=False),
        Entry("turn_to_fit", "Sh&op", "&Turn to fit", "T",
              "Spin the part until it fits the chosen machine", line_before=True),
        Entry("pieces_beside", "Sh&op", "Test &pieces beside the part …", "Shift+F3",
              "Which of the job's test pieces stand on the platform with it"),
    ]  # fmt: skip
