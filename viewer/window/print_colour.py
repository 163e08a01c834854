"""View > Colour of the print: asked for, and remembered from one start to the next."""

from PySide6.QtGui import QColor

from viewer.scene.lenses import Lens
from viewer.scene.palettes import PRINT_MATERIAL, Colour
from viewer.window.choices import Choices
from viewer.window.prompts import Prompts
from viewer.window.recent_files import settings

_KEY = "print_colour"


def kept_colour() -> Colour:
    """The colour chosen last; a neutral grey before one was."""
    kept = QColor(str(settings().value(_KEY, "")))
    return kept.getRgbF()[:3] if kept.isValid() else PRINT_MATERIAL


def ask_print_colour(choices: Choices, prompts: Prompts) -> None:
    """Ask for another colour, keep it, and look through the lens that shows it."""
    chosen = prompts.print_colour(QColor.fromRgbF(*choices.print_colour))
    if chosen is not None:
        settings().setValue(_KEY, chosen.name())
        choices.set_print_colour(kept_colour())
        choices.set_lens(Lens.PRINTED)
