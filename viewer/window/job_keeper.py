"""Opening, saving and closing as the user meets them: dialogs, recent files, unsaved changes."""

from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from typing import Protocol

import numpy as np
from PySide6.QtCore import QObject
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMenu, QStatusBar

from viewer.document.document import Document
from viewer.document.state import State
from viewer.files.job_file import JOB_SUFFIX
from viewer.files.mesh_files import OPEN_SUFFIXES
from viewer.window.choices import Choices
from viewer.window.file_work import FileWork
from viewer.window.notice_bar import NoticeBar
from viewer.window.part_view import PartView
from viewer.window.prompts import EXPORT_FILTERS, Prompts, Unsaved
from viewer.window.recent_files import recent_files, remember_file
from viewer.window.safe_keeping import SafeKeeping
from viewer.window.stages import Stage
from viewer.window.verbs import Verbs, plain
from viewer.words import later, say

SHOWN_FOR_MS = 8_000
KNOWN_SUFFIXES = {suffix for suffixes in OPEN_SUFFIXES.values() for suffix in suffixes}
ONE_AT_A_TIME = later(
    "A window holds one part: of the files dropped only {name} was opened. Drop the others one at a"
    " time."
)


class JobWindow(Protocol):
    """What the keeper needs of the window it belongs to."""

    document: Document
    files: FileWork
    choices: Choices
    prompts: Prompts
    view: PartView
    notice: NoticeBar
    safety: SafeKeeping

    def close(self) -> bool:
        """Close the window, asking about unsaved changes."""

    def statusBar(self) -> QStatusBar:
        """Where short messages go."""

    def setWindowTitle(self, title: str) -> None:
        """Name the window."""

    def setWindowModified(self, modified: bool) -> None:
        """Mark the title for unsaved changes."""


class JobKeeper(QObject):
    """Knows where the job lives, and never loses one without asking."""

    def __init__(self, window: JobWindow) -> None:
        super().__init__(window)
        self._window, self._document = window, window.document
        self._after_save: Callable[[], object] | None = None
        self._recent: QMenu | None = None
        self._dropped: Path | None = None  # of several files, the one that is opened
        window.safety.standing_changed.connect(self.show_title)
        files = window.files
        files.opened.connect(self._opened)
        files.saved.connect(self._saved)
        files.exported.connect(self._exported)
        files.written.connect(self._written)
        files.failed.connect(self._failed)

    def verbs(self) -> Verbs:
        """What the File menu does."""
        files = self._window.files
        verbs = {
            "open": plain(self._open),
            "open_newer": plain(self._open_newer),
            "demo": plain(lambda: self.when_settled(files.open_demo)),
            "faulty_demo": plain(lambda: self.when_settled(partial(files.open_demo, True))),
            "save": plain(self.save),
            "save_as": plain(self.save_as),
            "export_kept": plain(self._export_kept),
        }
        for kind in EXPORT_FILTERS:
            verbs[f"export_{kind}"] = plain(partial(self._export, kind))
        return verbs

    def add_recent_menu(self, menu: QMenu, before: QAction) -> None:
        """Put "Open recent" into the File menu; it is filled anew whenever it opens."""
        self._recent = QMenu(say("Open &recent"), menu)
        menu.insertMenu(before, self._recent)
        self._recent.aboutToShow.connect(self._fill_recent)
        self._fill_recent()

    def _fill_recent(self) -> None:
        self._recent.clear()
        listed = recent_files()
        for path in listed:
            action = self._recent.addAction(path.name)
            action.setToolTip(str(path))
            action.setStatusTip(str(path))
            action.triggered.connect(partial(self.open_after_asking, path))
        if not listed:
            self._recent.addAction(say("Nothing yet")).setEnabled(False)

    # --- opening
    def _open(self) -> None:
        path = self._window.prompts.file_to_open(self.folder())
        if path is not None:
            self.open_after_asking(path)

    def _open_newer(self) -> None:
        path = self._window.prompts.file_to_open(self.folder())
        if path is not None:
            self._window.files.open_newer(path)

    def open_after_asking(self, path: Path, *_: object) -> None:
        """Open a file, once the user has said what becomes of unsaved changes."""
        self._dropped = None  # if that was never opened, nothing is said of it any more
        self.when_settled(partial(self._window.files.open_file, path))

    def open_dropped(self, paths: Sequence[Path]) -> None:
        """Open the first file of a kind that can be opened; of several, say which one that was."""
        known = [path for path in paths if path.suffix.lower() in KNOWN_SUFFIXES]
        chosen = (known or paths)[0]
        self.open_after_asking(chosen)
        self._dropped = chosen if len(known) > 1 else None

    def open_made_after_asking(self, state: State) -> None:
        """Open a part that was made here, once the user has said what becomes of changes."""

        def put() -> None:
            self._document.open(state)
            self._opened((None, None))

        self.when_settled(put)

    def _opened(self, answer: tuple[Path | None, dict | None]) -> None:
        path, camera = answer
        window, state = self._window, self._document.state
        window.choices.set_handed_over(None)
        window.notice.hide()
        if path is not None:
            remember_file(path)
            if path == self._dropped:
                window.notice.say(say(ONE_AT_A_TIME, name=path.name))
        self._dropped = None
        window.choices.set_stage(_first_stage(state))
        if camera is not None:
            window.view.restore_camera(camera)
        window.safety.opened(path)
        window.statusBar().showMessage(say("{name} is open.", name=state.part.name), SHOWN_FOR_MS)

    # --- saving
    def save(self) -> None:
        """Save where the job lives, or ask where, also for one that can only be read."""
        safety, path = self._window.safety, self._document.job_path
        if path is None or safety.read_only:
            if safety.read_only:
                self._window.notice.say(safety.read_only)
            self.save_as()
        else:
            self._save_to(path)

    def save_as(self) -> None:
        """Ask where to keep the job."""
        suggested = self.folder() / f"{plain_name(self._document.state)}-job{JOB_SUFFIX}"
        lives = None if self._window.safety.read_only else self._document.job_path
        path = self._window.prompts.job_to_save(lives or suggested)
        if path is None:
            self._after_save = None
        else:
            self._save_to(path)

    def _save_to(self, path: Path) -> None:
        why_not = self._window.safety.claim(path)
        if why_not:
            self._after_save = None
            self._window.notice.say(why_not)
        else:
            self._window.files.save_job(path)

    def _saved(self, path: Path) -> None:
        remember_file(path)
        window = self._window
        window.safety.saved(path)
        self.show_title()
        window.statusBar().showMessage(say("Saved as {name}.", name=path.name), SHOWN_FOR_MS)
        then, self._after_save = self._after_save, None
        if then is not None:
            then()

    def _failed(self, sentence: str) -> None:
        self._after_save = None
        self._window.safety.not_saved()

    def show_title(self) -> None:
        """Name the window after the job or the part, with a sign for what is not saved."""
        document, window = self._document, self._window
        shown = document.job_path or document.state.part
        name = shown.name if shown else say("No part")
        if window.safety.read_only:
            name = say("{name} (can only be read)", name=name)
        window.setWindowTitle(f"{name}[*] – Showside")
        window.setWindowModified(document.modified)

    # --- exporting
    def _export(self, kind: str) -> None:
        suggested = self.folder() / f"{plain_name(self._document.state)}-posed.{kind}"
        path = self._window.prompts.file_to_export(suggested, kind)
        if path is not None:
            self._window.files.export(path, finer=not self._window.choices.own_triangles)

    def _exported(self, path: Path, state: State) -> None:
        self._window.choices.set_handed_over(state)
        self._window.statusBar().showMessage(say("Written: {path}", path=path), SHOWN_FOR_MS)

    def _export_kept(self) -> None:
        name = f"{plain_name(self._document.state)}-{say('kept-poses')}.csv"
        path = self._window.prompts.table_to_save(self.folder() / name)
        if path is not None:
            self._window.files.write_kept(path)

    def _written(self, path: Path) -> None:
        self._window.statusBar().showMessage(say("Written: {path}", path=path), SHOWN_FOR_MS)

    # --- unsaved changes
    def may_close(self) -> bool:
        """Whether the window may close now; if not, it closes itself once the job is saved."""
        answer = self._ask()
        if answer is Unsaved.SAVE:
            self._after_save = self._window.close
            self.save()
        return answer is Unsaved.DISCARD

    def when_settled(self, then: Callable[[], object]) -> None:
        """Go on once the user has said what becomes of unsaved changes."""
        answer = self._ask()
        if answer is Unsaved.SAVE:
            self._after_save = then
            self.save()
        elif answer is Unsaved.DISCARD:
            then()

    def _ask(self) -> Unsaved:
        if self._document.state.part is None or not self._document.modified:
            return Unsaved.DISCARD
        return self._window.prompts.about_unsaved(self._document.state.part.name)

    def folder(self) -> Path:
        """Where files of this job are likely to go."""
        if self._document.job_path is not None:
            return self._document.job_path.parent
        listed = recent_files()
        return listed[0].parent if listed else Path.home()


def _first_stage(state: State) -> Stage:
    """Where to begin: at the unit question, at marking, or at turning what is already marked."""
    if state.part.unit_doubt:
        return Stage.CHECK
    return Stage.TURN if np.any(state.face_classes) else Stage.CHECK


def plain_name(state: State) -> str:
    """The part's name as it can stand in a file name."""
    return file_words("part" if state.part is None else Path(state.part.name).stem) or "part"


def file_words(name: str) -> str:
    """A name in small letters, digits and hyphens, "" if nothing is left of it."""
    kept = "".join(c if c.isalnum() or c in "-_" else "-" for c in name)
    return kept.strip("-").lower()
