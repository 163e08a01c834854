"""The files opened last, and the theme chosen: what the window remembers between runs."""

from pathlib import Path

from PySide6.QtCore import QSettings

from viewer.window.theme import FOLLOW

KEPT = 8


def settings() -> QSettings:
    """The program's settings file; tests lead it elsewhere with QSettings.setPath."""
    return QSettings(QSettings.Format.IniFormat, QSettings.Scope.UserScope, "showside", "showside")


def recent_files() -> list[Path]:
    """Files opened or saved last that are still there, the latest first."""
    listed = settings().value("recent", [], list) or []
    return [path for path in map(Path, listed) if path.is_file()]


def remember_file(path: Path) -> None:
    """Put a file at the top of the list."""
    path = path.resolve()
    listed = [path, *(other for other in recent_files() if other != path)]
    settings().setValue("recent", [str(one) for one in listed[:KEPT]])


def theme_choice() -> str:
    """What View > Theme was set to last."""
    return str(settings().value("theme", FOLLOW))


def remember_theme(choice: str) -> None:
    """Keep what View > Theme was set to."""
    settings().setValue("theme", choice)
