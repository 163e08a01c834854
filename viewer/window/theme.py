"""Light and dark: one table of colours each, the palette and style sheet made of them.

`setColorScheme` has no effect on a bare X server, so both palettes are set explicitly; the desktop
only chooses between them.
"""

import re
from dataclasses import asdict, dataclass

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QGuiApplication, QPalette
from PySide6.QtWidgets import QApplication

from viewer.resource_files import resource_file
from viewer.scene import themes as scene_themes

FOLLOW, LIGHT_NAME, DARK_NAME = "desktop", "light", "dark"


@dataclass(frozen=True)
class Theme:
    """Colours of one theme as #rrggbb."""

    name: str
    window: str  # behind everything
    card: str  # panels, fields
    text: str
    quiet_text: str  # units, explanations; still 4.5:1 on window and card
    line: str  # separators
    edge: str  # outlines of controls, 3:1 on window and card
    accent: str  # chosen, focused; the present stage
    accent_text: str
    accent_soft: str  # behind the chosen row
    hover: str
    notice: str  # background of the quiet bar over the scene
    notice_text: str


LIGHT = Theme(
    name=LIGHT_NAME,
    window="#f4f4f1",
    card="#ffffff",
    text="#1f2326",
    quiet_text="#5a6167",
    line="#dcdcd6",
    edge="#85898c",
    accent="#0b5f96",
    accent_text="#ffffff",
    accent_soft="#dfebf3",
    hover="#e9eae6",
    notice="#fff3d6",
    notice_text="#3b2f10",
)
DARK = Theme(
    name=DARK_NAME,
    window="#1e2022",
    card="#282b2e",
    text="#eceeef",
    quiet_text="#aab1b6",
    line="#3a3e42",
    edge="#8a9197",
    accent="#7cc0ea",
    accent_text="#10222e",
    accent_soft="#263b48",
    hover="#34383c",
    notice="#463a1c",
    notice_text="#fbeecb",
)


def contrast_ratio(one: str, other: str) -> float:
    """Contrast of two #rrggbb colours, 1 to 21 (WCAG 2.2, relative luminance)."""

    def luminance(colour: str) -> float:
        parts = []
        for k in (1, 3, 5):
            share = int(colour[k : k + 2], 16) / 255
            parts.append(share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4)
        return 0.2126 * parts[0] + 0.7152 * parts[1] + 0.0722 * parts[2]

    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def desktop_theme() -> Theme:
    """The theme the desktop asks for; light where it does not say."""
    dark = QGuiApplication.styleHints().colorScheme() == Qt.ColorScheme.Dark
    return DARK if dark else LIGHT


def chosen_theme(choice: str) -> Theme:
    """The theme for a View > Theme choice: "desktop", "light" or "dark"."""
    return {LIGHT_NAME: LIGHT, DARK_NAME: DARK}.get(choice) or desktop_theme()


def scene_theme(theme: Theme) -> scene_themes.Theme:
    """How the scene looks beside a theme of the window."""
    return scene_themes.DARK if theme.name == DARK_NAME else scene_themes.LIGHT


def palette_of(theme: Theme) -> QPalette:
    """The Qt palette of a theme, disabled colours included."""
    palette = QPalette()
    role = QPalette.ColorRole
    for which, colour in (
        (role.Window, theme.window),
        (role.WindowText, theme.text),
        (role.Base, theme.card),
        (role.AlternateBase, theme.hover),
        (role.Text, theme.text),
        (role.PlaceholderText, theme.quiet_text),
        (role.Button, theme.card),
        (role.ButtonText, theme.text),
        (role.BrightText, theme.accent),
        (role.ToolTipBase, theme.card),
        (role.ToolTipText, theme.text),
        (role.Highlight, theme.accent),
        (role.HighlightedText, theme.accent_text),
        (role.Link, theme.accent),
        (role.Light, theme.card),
        (role.Midlight, theme.hover),
        (role.Mid, theme.line),
        (role.Dark, theme.edge),
        (role.Shadow, theme.line),
        (role.Accent, theme.accent),
    ):
        palette.setColor(which, QColor(colour))
    for which in (role.WindowText, role.Text, role.ButtonText):
        palette.setColor(QPalette.ColorGroup.Disabled, which, QColor(theme.edge))
    return palette


def apply_theme(theme: Theme) -> None:
    """Give the whole program this theme's palette."""
    if QApplication.style().name() != "fusion":  # set again it would dress every widget again
        QApplication.setStyle("Fusion")
    palette = palette_of(theme)
    if QApplication.palette() != palette:
        QApplication.setPalette(palette)


def style_sheet(theme: Theme) -> str:
    """The main window's style sheet: flat cards, quiet lines, visible focus."""
    icons = {
        name: resource_file(f"icons/{name}-{theme.name}.svg").as_posix()
        for name in ("chevron", "check")
    }
    colours = asdict(theme) | icons
    sheet = resource_file("window.qss").read_text(encoding="utf-8")
    return re.sub(r"@(\w+)", lambda match: colours[match[1]], sheet)
