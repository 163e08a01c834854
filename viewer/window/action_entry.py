"""One action of the window as the table holds it, and the menus in their order."""

from dataclasses import dataclass

MENUS = ("&File", "&Edit", "&Stage", "&Mark", "&Turn", "Sh&op", "Tr&y", "&View", "&Help")


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
