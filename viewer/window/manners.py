"""The pages about the program itself, what it remembers of the window, and later starts of it."""

import logging
from functools import partial
from pathlib import Path
from typing import Protocol

from PySide6.QtCore import QByteArray, QObject, Qt, QUrl, Signal
from PySide6.QtGui import QAction, QDesktopServices
from PySide6.QtWidgets import QApplication, QDialog, QWidget
from shiboken6 import isValid

from viewer.window.about_dialog import AboutDialog
from viewer.window.actions import Actions
from viewer.window.choices import Choices
from viewer.window.error_dialog import ErrorDialog
from viewer.window.error_text import forget_error, kept_error
from viewer.window.first_page import FirstPage
from viewer.window.help_places import place_of
from viewer.window.help_texts import MOUSE_PAGE, section_number
from viewer.window.help_window import HelpWindow
from viewer.window.job_keeper import JobKeeper
from viewer.window.kept_choices import pointer_choice
from viewer.window.keys_dialog import KeysDialog
from viewer.window.large_pointer import show_pointer
from viewer.window.log_file import log_folder
from viewer.window.notice_bar import NoticeBar
from viewer.window.part_view import PartView
from viewer.window.recent_files import settings
from viewer.window.settings_dialog import SettingsDialog
from viewer.window.shop_desk import ShopDesk
from viewer.window.verbs import Verbs, plain
from viewer.words import say

log = logging.getLogger(__name__)
PAGE_OF_ACTION = {
    "how_it_measures": "how-it-measures.md",
    "how_it_marks": "how-it-marks.md",
    "how_it_mends": "how-it-mends.md",
    "how_it_searches": "how-it-searches.md",
    "how_it_compares": "how-it-compares.md",
    "how_it_reckons": "how-it-reckons.md",
    "how_it_learns": "how-it-learns.md",
    "mouse": MOUSE_PAGE,
}
HELP_HERE = "help_here"


class MannerlyWindow(Protocol):
    """What the pages need of the window they belong to."""

    actions: Actions
    choices: Choices
    keeper: JobKeeper
    notice: NoticeBar
    shop: ShopDesk
    view: PartView

    def saveGeometry(self) -> QByteArray:
        """Place and size."""

    def restoreGeometry(self, geometry: QByteArray) -> bool:
        """Take a place and a size again."""

    def isMinimized(self) -> bool:
        """Whether it is put away."""


class Manners(QObject):
    """Each page is opened once and brought to the front when it is asked for again.

    error_kept : the text of an unexpected error was just kept; may be told on any thread
    """

    error_kept = Signal()

    def __init__(self, window: MannerlyWindow) -> None:
        super().__init__(window)
        self._window = window
        self._pages: dict[type, QDialog] = {}
        self.log_folder: Path = log_folder()
        self.error_kept.connect(self._say_error)

    def verbs(self) -> Verbs:
        """What the entries about the program do."""
        verbs: Verbs = {
            key: plain(partial(self.open_help, page)) for key, page in PAGE_OF_ACTION.items()
        }
        return verbs | {
            HELP_HERE: plain(self._help_here),
            "about": plain(lambda: self._open(AboutDialog)),
            "settings": plain(lambda: self._open(SettingsDialog, self._actions, self._point)),
            "keys": plain(lambda: self._open(KeysDialog, self._actions)),
            "first_page": plain(self.open_first_page),
            "log_folder": plain(self._show_log_folder),
            "error_text": plain(self._show_error),
        }

    def start(self) -> None:
        """What only a whole window can have: its pointer, and F1 in every page."""
        self._actions[HELP_HERE].setShortcutContext(Qt.ShortcutContext.ApplicationShortcut)
        if pointer_choice() != "usual":
            self._point(pointer_choice())

    @property
    def _actions(self) -> dict[str, QAction]:
        return self._window.actions.by_key

    # --- pages
    def _open(self, kind: type[QDialog], *arguments: object) -> QDialog:
        page = self._pages.get(kind)
        if page is None or not isValid(page):
            page = self._pages[kind] = kind(self._window, *arguments)
        page.show()
        page.raise_()
        page.activateWindow()
        return page

    def open_help(self, page: str, english_title: str = "") -> None:
        """Open the help at a section."""
        self._open(HelpWindow).open_at(page, section_number(page, english_title))

    def _help_here(self) -> None:
        self.open_help(*place_of(QApplication.focusWidget(), self._window.choices.stage))

    def open_first_page(self) -> None:
        """What the program is for, and the way into the demo."""
        self._open(FirstPage, self._actions)

    def _point(self, choice: str) -> None:
        show_pointer(self._window, self._window.view.interactor, choice)

    # --- log and errors
    def _show_log_folder(self) -> None:
        if not (self.log_folder.is_dir() and self.open_folder(self.log_folder)):
            self._window.notice.say(say("The log lies in {folder}.", folder=self.log_folder))

    def open_folder(self, folder: Path) -> bool:
        """Show a folder in the desktop's own program; whether there is one."""
        return QDesktopServices.openUrl(QUrl.fromLocalFile(str(folder)))

    def _say_error(self) -> None:
        self._window.notice.say(
            say(
                "Something went wrong inside Showside, and the last action may be half done. Save "
                "the job under another name to be safe; Help > Text of the last error says more."
            )
        )

    def _show_error(self) -> None:
        text = kept_error(self.log_folder)
        if text:
            forget = partial(forget_error, self.log_folder)
            self._open(ErrorDialog, text, self._show_log_folder, forget)
        else:
            self._window.notice.say(say("No error is kept: nothing unexpected has happened."))

    def offer_error(self) -> None:
        """At a start: show what is kept of an error of the last run."""
        if kept_error(self.log_folder):
            self._show_error()

    # --- what is remembered of the window
    def remember(self) -> None:
        """Keep the window's place and what is folded open."""
        kept = settings()
        kept.setValue("window/geometry", self._window.saveGeometry())
        kept.setValue("window/strip", int(self._window.choices.strip))
        kept.setValue("window/shop", int(self._actions["shop_numbers"].isChecked()))

    def restore(self) -> bool:
        """Bring back what `remember` kept; whether a place was kept."""
        kept = settings()
        if str(kept.value("window/strip", "1")) == "0":
            self._window.choices.set_strip(False)
        if str(kept.value("window/shop", "0")) == "1":
            self._actions["shop_numbers"].trigger()
        geometry = kept.value("window/geometry")
        return isinstance(geometry, QByteArray) and self._window.restoreGeometry(geometry)

    # --- a later start of the program
    def another_start(self, path: Path | None, demo: bool) -> None:
        """Come to the front; open what the later start was asked to open."""
        window: QWidget = self._window
        if window.isMinimized():
            window.setWindowState(window.windowState() & ~Qt.WindowState.WindowMinimized)
        window.show()
        window.raise_()
        window.activateWindow()
        if path is not None:
            self._window.keeper.open_after_asking(path)
        elif demo:
            self._actions["demo"].trigger()
