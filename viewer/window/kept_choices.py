"""What the settings page keeps between runs, each with its own check of what the file holds."""

from pathlib import Path

from viewer.window.recent_files import settings
from viewer.window.rescale import MM_PER_UNIT

ASK_UNIT = "ask"
NAMES_NO_UNIT = (".stl", ".obj", ".ply", ".off")
UNITS = (ASK_UNIT, *(unit for unit in MM_PER_UNIT if unit != "micron"))
TYPE_PERCENT = (90, 100, 110, 125, 150)
POINTERS_PX = {"usual": 0, "large": 48, "very large": 80}


def unit_choice() -> str:
    """The unit of files that name none, one of UNITS; ASK_UNIT: as written, ask in doubt."""
    kept = str(settings().value("unit", ASK_UNIT))
    return kept if kept in UNITS else ASK_UNIT


def unit_for(path: Path) -> str | None:
    """The unit to read a file in; None where it names its own or the user is to be asked."""
    chosen = unit_choice()
    names_none = path.suffix.lower() in NAMES_NO_UNIT
    return chosen if names_none and chosen != ASK_UNIT else None


def type_percent() -> int:
    """The size of type in percent of the desktop's, one of TYPE_PERCENT."""
    kept = str(settings().value("type_percent", 100))
    return int(kept) if kept.isdigit() and int(kept) in TYPE_PERCENT else 100


def pointer_choice() -> str:
    """The size of the pointer, a key of POINTERS_PX."""
    kept = str(settings().value("pointer", "usual"))
    return kept if kept in POINTERS_PX else "usual"


def opens_last_job() -> bool:
    """Whether a start without a file opens what was open last."""
    return str(settings().value("open_last", "true")).lower() != "false"


def keep(name: str, value: object) -> None:
    """Keep "unit", "type_percent", "pointer" or "open_last"."""
    settings().setValue(name, value)
