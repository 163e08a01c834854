"""Actions of the menu Try that cut pieces, make specimens, and hand them over."""

from viewer.window.action_entry import Entry

MENU = "Tr&y"
_MOVE = f"{MENU}/&Move the cut"
_SAVE = f"{MENU}/Sa&ve pieces"


def piece_actions() -> list[Entry]:
    """Cutting, the pieces of the job."""
    moves = [
        Entry(f"box_{name}", _MOVE, text, keys, "Move the cut by one millimetre")
        for name, text, keys in (
            ("left", "To the &left", "Alt+Shift+Left"),
            ("right", "To the &right", "Alt+Shift+Right"),
            ("front", "To the &front", "Alt+Shift+Down"),
            ("back", "To the &back", "Alt+Shift+Up"),
            ("up", "&Up", "Alt+Shift+PgUp"),
            ("down", "&Down", "Alt+Shift+PgDown"),
        )
    ]
    return [
        Entry("cut_quarters", MENU, "&Quarters", "Ctrl+Alt+Q",
              "Cut the part by two upright planes; drag them in the scene", checkable=True),
        Entry("cut_slab", MENU, "Sla&b", "Ctrl+Alt+B",
              "Cut out what lies between two heights", checkable=True),
        Entry("cut_box", MENU, "Bo&x", "Ctrl+Alt+X",
              "Cut out what lies in a box; drag its sides in the scene", checkable=True),
        Entry("worst_touch", MENU, "&Worst touch", "Ctrl+Alt+W",
              "Put the box around the largest touch on class A in this pose"),
        Entry("worst_terrace", MENU, "Worst &terrace", "Ctrl+Alt+J",
              "Put the box around the largest terraces on class A in this pose"),
        *moves,
        Entry("cut_split", MENU, "Split &for real", "Ctrl+Alt+H",
              "Look for a plane that parts the piece to be made without crossing class A, and see "
              "whether it is worth while", line_before=True),
        Entry("next_split", MENU, "Next place to spl&it", "Ctrl+Alt+N",
              "Split at the next of the places found"),
        Entry("take_cut", MENU, "Ta&ke the pieces", "Ctrl+Return",
              "Put what the cut makes on the list of pieces", line_before=True),
        Entry("cut_away", MENU, "Put the cut &away", "Ctrl+Backspace", "Plan no cut any more"),
        Entry("specimen_show", MENU, "Show a &specimen", "Ctrl+Alt+Z",
              "Make the chosen specimen and see it beside the part", checkable=True,
              line_before=True),
        Entry("specimen_add", MENU, "A&dd the specimen", "Ctrl+Alt+Return",
              "Put the specimen on the list of pieces"),
        Entry("specimen_usual", MENU, "&Usual steps", "Ctrl+Shift+X",
              "The steps that suit the chosen machine, pair and process"),
        Entry("next_piece", MENU, "&Next piece", "Ctrl+Alt+PgDown",
              "Choose the next piece of the job, and see it beside the part", line_before=True),
        Entry("rename_piece", MENU, "&Rename the piece", "Ctrl+F10",
              "Give the chosen piece a name of its own"),
        Entry("open_piece", MENU, "&Open the piece as a part", "Ctrl+Alt+O",
              "Open the chosen piece as a job of its own, with its marks and its pose"),
        Entry("remove_piece", MENU, "Remove the pie&ce", "Ctrl+Alt+Backspace",
              "Take the chosen piece off the list"),
        Entry("save_piece_3mf", _SAVE, "The chosen one as &3MF …", "Ctrl+Alt+S",
              "As it stands, with its classes"),
        Entry("save_piece_stl", _SAVE, "The chosen one as &STL …", "Ctrl+Alt+Shift+S",
              "As it stands; of several bodies each has a file of its own"),
        Entry("save_pieces_3mf", _SAVE, "&All as 3MF …", "Ctrl+Alt+F10",
              "Each piece of the job in a file of a folder"),
        Entry("save_pieces_stl", _SAVE, "A&ll as STL …", "Ctrl+Alt+F11",
              "Each piece of the job in files of a folder"),
    ]  # fmt: skip
