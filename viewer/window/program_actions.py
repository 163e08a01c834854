"""Actions about the program itself: settings, keys, first page, log, errors."""

from viewer.window.action_entry import Entry


def program_actions() -> list[Entry]:
    free = {"needs_part": False}
    return [
        Entry("settings", "&Edit", "&Settings …", "Ctrl+,", "Language, theme, type, pointer, units",
              line_before=True, **free),
        Entry("keys", "&Edit", "&Keys and shortcuts …", "Ctrl+K",
              "Every action with its keys, to look up and to change", **free),
        Entry("first_page", "&Help", "F&irst page …", "Ctrl+F11",
              "What the program is for, and the way into the demo", line_before=True, **free),
        Entry("log_folder", "&Help", "Show the lo&g folder", "Ctrl+F9",
              "Where the log file and texts of errors lie", **free),
        Entry("error_text", "&Help", "Text of the &last error …", "Ctrl+F12",
              "What is kept of the last unexpected error; nothing of a part is in it", **free),
    ]  # fmt: skip
