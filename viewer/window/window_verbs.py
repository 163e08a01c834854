"""What each action does, gathered from everything in the window that acts."""

from collections.abc import Callable
from typing import Protocol

from PySide6.QtWidgets import QWidget

from viewer.document.document import Document
from viewer.window.action_finder import ActionFinder
from viewer.window.adapting import Adapting
from viewer.window.choices import Choices
from viewer.window.job_keeper import JobKeeper
from viewer.window.language import language_verbs
from viewer.window.manners import Manners
from viewer.window.mend_work import MendWork
from viewer.window.part_view import PartView
from viewer.window.picture_keeper import PictureKeeper
from viewer.window.piece_desk import PieceDesk
from viewer.window.print_colour import ask_print_colour
from viewer.window.prompts import Prompts
from viewer.window.recovering import Recovering
from viewer.window.revision_link import RevisionLink
from viewer.window.searching import Searching
from viewer.window.sheet_desk import SheetDesk
from viewer.window.shop_desk import ShopDesk
from viewer.window.stages import Stage
from viewer.window.theme_keeper import ThemeKeeper
from viewer.window.tool_box import ToolBox
from viewer.window.trial_desk import TrialDesk
from viewer.window.verbs import Verbs, camera_verbs, choice_verbs, document_verbs, plain


class ActingWindow(Protocol):
    """Everything of the window that acts."""

    document: Document
    choices: Choices
    view: PartView
    keeper: JobKeeper
    manners: Manners
    tools: ToolBox
    pictures: PictureKeeper
    shop: ShopDesk
    pieces: PieceDesk
    trials: TrialDesk
    sheets: SheetDesk
    theming: ThemeKeeper
    searching: Searching
    recovering: Recovering
    adapting: Adapting
    mending: MendWork
    finder: ActionFinder
    newer: RevisionLink
    panels: dict[Stage, QWidget]
    prompts: Prompts

    def close(self) -> bool:
        """Close the window, asking about unsaved changes."""

    def showFullScreen(self) -> None:
        """Fill the screen."""

    def showNormal(self) -> None:
        """Take the size it had."""


def window_verbs(window: ActingWindow) -> Verbs:
    """What every action does, by its key in the table."""

    def in_check(verb: Callable[[], object]) -> Callable[..., None]:
        def act() -> None:
            window.choices.set_stage(Stage.CHECK)
            verb()

        return plain(act)

    def rename_kept() -> None:
        window.choices.set_stage(Stage.TURN)
        window.panels[Stage.TURN].kept.start_renaming()

    def note_kept() -> None:
        window.choices.set_stage(Stage.TURN)
        window.panels[Stage.TURN].kept.start_noting()

    def set_full_screen(wanted: bool) -> None:
        (window.showFullScreen if wanted else window.showNormal)()

    verbs = document_verbs(window.document) | choice_verbs(window.choices)
    verbs |= camera_verbs(window.view) | window.keeper.verbs() | window.tools.ways.verbs()
    verbs |= window.manners.verbs() | language_verbs(window) | window.pictures.verbs()
    verbs |= window.theming.verbs() | window.searching.verbs()
    verbs |= window.adapting.verbs() | window.shop.verbs() | window.pieces.verbs()
    verbs |= window.recovering.verbs()
    verbs |= window.trials.verbs()
    verbs |= window.sheets.verbs()
    return verbs | {
        "quit": plain(window.close),
        "find_action": plain(lambda: window.finder.open_over(window)),
        "full_screen": set_full_screen,
        "print_colour": plain(lambda: ask_print_colour(window.choices, window.prompts)),
        "rename_kept": plain(rename_kept),
        "note_kept": plain(note_kept),
        "look_to_mend": in_check(window.mending.look),
        "mend_safely": in_check(window.mending.take_safe),
        "not_carried": lambda checked: window.newer.outline(checked),
        "as_received": plain(window.mending.go_back),
    }
