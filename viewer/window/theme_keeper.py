"""View > Theme: the user's choice, and everything that wears it."""

from typing import Protocol

from PySide6.QtCore import QObject
from PySide6.QtGui import QGuiApplication

from viewer.window.action_table import ENTRIES
from viewer.window.actions import Actions
from viewer.window.direction_pane import DirectionPane
from viewer.window.height_strip import HeightStrip
from viewer.window.icons import icon
from viewer.window.legend_strip import LegendStrip
from viewer.window.part_view import PartView
from viewer.window.recent_files import remember_theme, theme_choice
from viewer.window.side_panels import StageColumn
from viewer.window.theme import (
    DARK_NAME,
    FOLLOW,
    LIGHT_NAME,
    apply_theme,
    chosen_theme,
    scene_theme,
    style_sheet,
)
from viewer.window.verbs import Verbs, plain


class DressedWindow(Protocol):
    """What wears the theme."""

    stage_column: StageColumn
    legend: LegendStrip
    strip: HeightStrip
    direction_pane: DirectionPane
    view: PartView
    actions: Actions

    def setStyleSheet(self, sheet: str) -> None:
        """Dress every widget."""


class ThemeKeeper(QObject):
    """Follows the desktop, or shows what was chosen.

    theme : the Theme in force
    """

    def __init__(self, window: DressedWindow) -> None:
        super().__init__(window)
        self._window, self._choice = window, theme_choice()
        self.theme = chosen_theme(self._choice)
        apply_theme(self.theme)
        # Before there is anything to dress: each widget is dressed once, when it is shown.
        window.setStyleSheet(style_sheet(self.theme))
        QGuiApplication.styleHints().colorSchemeChanged.connect(self._desktop_changed)

    def verbs(self) -> Verbs:
        """What the theme's actions do."""
        return {
            f"theme_{choice}": plain(lambda choice=choice: self.choose(choice))
            for choice in (FOLLOW, LIGHT_NAME, DARK_NAME)
        }

    def choose(self, choice: str) -> None:
        """Take "desktop", "light" or "dark", and remember it."""
        self._choice = choice
        remember_theme(choice)
        self.show()

    def show(self) -> None:
        """Dress the whole window anew."""
        window = self._window
        self.theme = theme = chosen_theme(self._choice)
        apply_theme(theme)
        sheet = style_sheet(theme)
        if window.styleSheet() != sheet:
            window.setStyleSheet(sheet)
        around = (window.legend, window.strip, window.direction_pane.map)
        for wearer in (window.stage_column.stages, *around):
            wearer.show_theme(theme)
        window.view.set_theme(scene_theme(theme))
        for entry in ENTRIES:
            if entry.icon:
                window.actions.by_key[entry.key].setIcon(icon(entry.icon, theme.text, theme.edge))
        choice = self._choice if self._choice in (LIGHT_NAME, DARK_NAME) else FOLLOW
        window.actions.by_key[f"theme_{choice}"].setChecked(True)

    def _desktop_changed(self) -> None:
        if self._choice == FOLLOW:
            self.show()
