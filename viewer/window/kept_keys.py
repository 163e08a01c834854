"""Shortcuts the user has changed: what is kept of them, and what a key may not be given to."""

from PySide6.QtGui import QKeySequence

from viewer.window.action_table import ENTRIES
from viewer.window.recent_files import settings
from viewer.words import say

GROUP = "keys"
NATIVE = QKeySequence.SequenceFormat.NativeText
PORTABLE = QKeySequence.SequenceFormat.PortableText
# The scene and every field need these for themselves (window/keyed_pointer.py).
OF_THE_SCENE = {
    *("Left", "Right", "Up", "Down", "Space", "Return", "Enter", "Esc", "Tab", "Shift+Tab"),
    *(f"{held}+{arrow}" for held in ("Ctrl", "Shift") for arrow in ("Left", "Right", "Up", "Down")),
    *("+", "-", "Backspace", "Del"),
}
GIVEN = {entry.key: entry.keys for entry in ENTRIES}


def keys_of(key: str) -> QKeySequence:
    """The shortcut in force of the action `key`: the user's, or that of the table."""
    kept = settings().value(f"{GROUP}/{key}")
    return QKeySequence(GIVEN[key] if kept is None else str(kept), PORTABLE)


def all_keys() -> dict[str, QKeySequence]:
    """The shortcuts in force of all actions."""
    kept = settings()
    kept.beginGroup(GROUP)
    changed = set(kept.childKeys())
    kept.endGroup()
    return {
        key: keys_of(key) if key in changed else QKeySequence(given, PORTABLE)
        for key, given in GIVEN.items()
    }


def keep_keys(key: str, wanted: QKeySequence) -> None:
    """Keep a shortcut, an empty one for none; what the table says anyway needs no keeping."""
    if wanted == QKeySequence(GIVEN[key], PORTABLE):
        settings().remove(f"{GROUP}/{key}")
    else:
        settings().setValue(f"{GROUP}/{key}", wanted.toString(PORTABLE))


def forget_all_keys() -> None:
    """Back to the table."""
    settings().remove(GROUP)


def why_not(key: str, wanted: QKeySequence, present: dict[str, QKeySequence]) -> str:
    """Why the action `key` cannot have the shortcut `wanted`, "" if it can.

    present : the shortcuts of all actions as they are
    """
    if wanted.isEmpty():
        return ""
    shown = wanted.toString(NATIVE)
    if wanted[0].toCombined() and wanted.toString(PORTABLE).split(", ")[0] in OF_THE_SCENE:
        return say("{keys} moves the pointer or works in fields; choose other keys.", keys=shown)
    for other, taken in present.items():
        if other == key or taken.isEmpty():
            continue
        if taken == wanted or _begins(taken, wanted) or _begins(wanted, taken):
            name = plain_name(other)
            return say(
                "{keys} already means “{name}”; choose other keys, or change those first.",
                keys=taken.toString(NATIVE),
                name=name,
            )
    return ""


def plain_name(key: str) -> str:
    """The name of an action without mnemonic, in the language in force."""
    text = next(entry.text for entry in ENTRIES if entry.key == key)
    return say(text).replace("&", "").replace(" …", "")


def _begins(short: QKeySequence, long: QKeySequence) -> bool:
    """Whether the first keys of `long` are all of `short`, which would never let it through."""
    return long.matches(short) == QKeySequence.SequenceMatch.PartialMatch or (
        short.matches(long) == QKeySequence.SequenceMatch.PartialMatch
    )
