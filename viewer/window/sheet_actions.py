"""Actions of the client sheet and the pack."""

from viewer.window.action_entry import Entry

_SHEET = "&File/Client s&heet"


def sheet_actions() -> list[Entry]:
    return [
        Entry("sheet_preview", _SHEET, "&Look at the sheet …", "Ctrl+J",
              "The pages as the client will get them, for this pose"),
        Entry("sheet_save", _SHEET, "&Save the sheet …", "Ctrl+Shift+W",
              "As PDF, or as one HTML file in which the part can be turned"),
        Entry("sheet_print", _SHEET, "&Print the sheet …", "Ctrl+Shift+Y",
              "On a printer, in its own dialog"),
        Entry("sheet_company", _SHEET, "Your &company …", "Ctrl+Alt+U",
              "Name, logo and currency that stand on the sheet", needs_part=False,
              line_before=True),
        Entry("pack", "&File", "Pac&k the job …", "Ctrl+Shift+K",
              "Posed part, supports, test pieces, layers, client sheets and job in one folder or "
              "zip, each read back and with its checksum"),
    ]  # fmt: skip
