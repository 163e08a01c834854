"""Actions of the menus File and Edit."""

from viewer.window.action_entry import Entry


def file_actions() -> list[Entry]:
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
        Entry("open_newer", "&File", "Open a newer &version of this part …", "Ctrl+Shift+O",
              "Put the client's newer file in its place and carry the marks over; tells what of "
              "them has no place there"),
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
        Entry("export_layers", "&File/&Export the posed part", "&Adaptive layers …", "Ctrl+Alt+A",
              "Layers as thick as class A lets them be, for this pose, as a table (CSV)"),
        Entry("own_triangles", "&File/&Export the posed part", "The file's own &triangles",
              "Ctrl+Alt+T", "Write the triangles of the file, each with the class of most of it; "
              "otherwise the finer ones that marks are cut in", checkable=True, needs_part=False,
              line_before=True),
        Entry("save_picture", "&File/&Pictures", "Save a &picture …", "F6",
              "What the scene shows, with its legend, as a PNG", line_before=True),
        Entry("save_turntable", "&File/&Pictures", "Save a &turntable …", "F7",
              "The part going round once, as an animated GIF or WebP up to 960 pixels wide"),
        *_picture_sizes(),
    ]  # fmt: skip


def last_file_actions() -> list[Entry]:
    """What stands below all else of the File menu."""
    free = {"needs_part": False}
    return [
        Entry("recover", "&File", "Recover &unsaved work …", "Ctrl+Alt+R",
              "Of a window that came to a sudden end", line_before=True, **free),
        Entry("quit", "&File", "&Quit", "Ctrl+Q", "Close the window", line_before=True, **free),
    ]  # fmt: skip


def _picture_sizes() -> list[Entry]:
    size = {"checkable": True, "group": "picture_size", "needs_part": False}
    return [
        Entry("picture_small", "&File/&Pictures", "1280 × 800", "Shift+F6", "Small pictures",
              line_before=True, **size),
        Entry("picture_middle", "&File/&Pictures", "1920 × 1080", "Shift+F7",
              "Pictures for most screens", **size),
        Entry("picture_large", "&File/&Pictures", "2560 × 1440", "Shift+F8",
              "Large pictures, for print", **size),
    ]  # fmt: skip


def edit_actions() -> list[Entry]:
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
        Entry(
            "as_received",
            "&Edit",
            "&Back to the part as received",
            "Ctrl+Alt+M",
            "Lay the part as it was read in place of the mended one",
        ),
    ]
