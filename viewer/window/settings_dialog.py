"""The settings page: language, theme, type, pointer, units, and what a start opens."""

from collections.abc import Callable

from PySide6.QtGui import QAction, QShowEvent
from PySide6.QtWidgets import QCheckBox, QComboBox, QDialog, QHBoxLayout, QWidget

from viewer.geometry.unit_doubt import unit_word
from viewer.window.kept_choices import (
    ASK_UNIT,
    POINTERS_PX,
    TYPE_PERCENT,
    UNITS,
    keep,
    opens_last_job,
    pointer_choice,
    type_percent,
    unit_choice,
)
from viewer.window.language import CHOICES, DESKTOP, language_choice
from viewer.window.page_text import fit_height, page_text
from viewer.window.pieces import ActionButton, ChoiceBox, Fields, button, column, rule
from viewer.window.recent_files import theme_choice
from viewer.window.theme import DARK_NAME, FOLLOW, LIGHT_NAME
from viewer.words import LANGUAGES, later, say

WIDTH_PX = 520
OTHER_PAGES = ("keys", "sheet_company")  # with settings of their own
POINTER_WORDS = {
    "usual": later("as on the desktop"),
    "large": later("large"),
    "very large": later("very large"),
}
THEME_WORDS = {
    FOLLOW: later("as on the desktop"),
    LIGHT_NAME: later("light"),
    DARK_NAME: later("dark"),
}


class SettingsDialog(QDialog):
    """Every change is kept at once; there is nothing to confirm."""

    def __init__(
        self,
        parent: QWidget,
        actions: dict[str, QAction],
        pointer_changed: Callable[[str], object],
    ) -> None:
        """`actions` hold language, theme and keys; `pointer_changed` is told of a size."""
        super().__init__(parent)
        self.setWindowTitle(say("Settings"))
        self._actions = actions
        fields = Fields()
        self.language = self._language(fields)
        self.theme = self._theme(fields)
        self.type_size = _chooser(
            fields, say("Size of type"),
            say("In percent of what the desktop says; from the next start on"),
            {percent: f"{percent} %" for percent in TYPE_PERCENT}, type_percent,
            lambda percent: keep("type_percent", percent),
        )  # fmt: skip
        self.pointer = _chooser(
            fields, say("Pointer"),
            say("A large pointer is easier to find, for oneself and for others on a call"),
            {key: say(POINTER_WORDS[key]) for key in POINTERS_PX}, pointer_choice,
            lambda choice: (keep("pointer", choice), pointer_changed(choice)),
        )  # fmt: skip
        self.unit = _chooser(
            fields, say("Files without a unit are in"),
            say("STL, OBJ, PLY and OFF name no unit. Asking takes the numbers as mm and asks "
                "where they look wrong."),
            {unit: say("mm, and ask in doubt") if unit == ASK_UNIT else unit_word(unit)
             for unit in UNITS}, unit_choice, lambda unit: keep("unit", unit),
        )  # fmt: skip
        self.open_last = QCheckBox(say("Start with the job that was open last"))
        self.open_last.setToolTip(say("Otherwise a start shows the first page"))
        self.open_last.setChecked(opens_last_job())
        self.open_last.toggled.connect(lambda on: keep("open_last", "true" if on else "false"))
        self.note = page_text(
            say("Language and size of type change with the next start, all else at once."),
            quiet=True,
        )
        layout = column(gap=10, margins=(14, 14, 14, 14))
        self.setLayout(layout)
        for piece in (fields, self.open_last, rule(), self.note):
            layout.addWidget(piece)
        layout.addLayout(self._buttons())
        fit_height(self, WIDTH_PX)

    def _buttons(self) -> QHBoxLayout:
        line = QHBoxLayout()
        pages = [ActionButton(self._actions[key]) for key in OTHER_PAGES if key in self._actions]
        close = button(say("Close"), self.close, say("Close this page"))
        for made in pages:
            line.addWidget(made)
        line.addStretch(1)
        line.addWidget(close)
        for made in (*pages, close):
            made.setAutoDefault(False)
        return line

    def _language(self, fields: Fields) -> QComboBox:
        words = {DESKTOP: say("as on the desktop"), **LANGUAGES}
        return _chooser(
            fields, say("Language"), say("From the next start on"),
            {choice: words[choice] for choice in CHOICES}, language_choice,
            lambda choice: self._actions[f"language_{choice}"].trigger(),
        )  # fmt: skip

    def _theme(self, fields: Fields) -> QComboBox:
        return _chooser(
            fields, say("Theme"), say("Light or dark colours"),
            {choice: say(words) for choice, words in THEME_WORDS.items()}, theme_choice,
            lambda choice: self._actions[f"theme_{choice}"].trigger(),
        )  # fmt: skip


class _Chooser(ChoiceBox):
    """Shows the present choice whenever it comes to sight: menus and keys change it as well."""

    def __init__(self, present: Callable[[], object]) -> None:
        super().__init__()
        self._present = present

    def showEvent(self, event: QShowEvent) -> None:
        """Look again."""
        self.setCurrentIndex(max(self.findData(self._present()), 0))
        super().showEvent(event)


def _chooser(
    fields: Fields,
    name: str,
    tip: str,
    words: dict[object, str],
    present: Callable[[], object],
    chosen: Callable[[object], object],
) -> QComboBox:
    """A row with a list of choices; `chosen` is called with the key of the one taken."""
    made = _Chooser(present)
    made.setAccessibleName(name)
    for key, shown in words.items():
        made.addItem(shown, key)
    made.activated.connect(lambda place: chosen(made.itemData(place)))
    return fields.add(name, made, tip)
