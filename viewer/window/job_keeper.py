"""Opening, saving and closing as the user meets them: dialogs, recent files, unsaved changes."""

from collections.abc import Callable
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
from viewer.window.choices import Choices
from viewer.window.file_work import FileWork
from viewer.window.notice_bar import NoticeBar
from viewer.window.part_view import PartView
from viewer.window.prompts import EXPORT_FILTERS, Prompts, Unsaved
from viewer.window.recent_files import recent_files, remember_file
from viewer.window.stages import Stage
from viewer.window.verbs import Verbs, plain

SHOWN_FOR_MS = 8_000


class JobWindow(Protocol):
    """What the keeper needs of the window it belongs to."""

    document: Document
    files: FileWork
    choices: Choices
    prompts: Prompts
    view: PartView
    notice: NoticeBar

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
        files = window.files
        files.opened.connect(self._opened)
        files.saved.connect(self._saved)
        files.exported.connect(self._exported)
        files.failed.connect(self._failed)

    def verbs(self) -> Verbs:
        """What the File menu does."""
        files = self._window.files
        verbs = {
            "open": plain(self._open),
            "demo": plain(lambda: self._when_settled(files.open_demo)),
            "faulty_demo": plain(lambda: self._when_settled(partial(files.open_demo, True))),
            "save": plain(self.save),
            "save_as": plain(self.save_as),
        }
        for kind in EXPORT_FILTERS:
            verbs[f"export_{kind}"] = plain(partial(self._export, kind))
        return verbs

    def add_recent_menu(self, menu: QMenu, before: QAction) -> None:
        """Put "Open recent" into the File menu; it is filled anew whenever it opens."""
        self._recent = QMenu("Open &recent", menu)
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
            self._recent.addAction("Nothing yet").setEnabled(False)

    # --- opening
    def _open(self) -> None:
        path = self._window.prompts.file_to_open(self._folder())
        if path is not None:
            self.open_after_asking(path)

    def open_after_asking(self, path: Path, *_: object) -> None:
        """Open a file, once the user has said what becomes of unsaved changes."""
        self._when_settled(partial(self._window.files.open_file, path))

    def _opened(self, answer: tuple[Path | None, dict | None]) -> None:
        path, camera = answer
        window, state = self._window, self._document.state
        window.choices.set_handed_over(None)
        window.notice.hide()
        if path is not None:
            remember_file(path)
        window.choices.set_stage(_first_stage(state))
        if camera is not None:
            window.view.restore_camera(camera)
        window.statusBar().showMessage(f"{state.part.name} is open.", SHOWN_FOR_MS)

    # --- saving
    def save(self) -> None:
        """Save where the job lives, or ask where."""
        if self._document.job_path is None:
            self.save_as()
        else:
            self._window.files.save_job(self._document.job_path)

    def save_as(self) -> None:
        """Ask where to keep the job."""
        suggested = self._folder() / f"{_plain_name(self._document.state)}-job{JOB_SUFFIX}"
        path = self._window.prompts.job_to_save(self._document.job_path or suggested)
        if path is None:
            self._after_save = None
        else:
            self._window.files.save_job(path)

    def _saved(self, path: Path) -> None:
        remember_file(path)
        window = self._window
        window.setWindowModified(self._document.modified)
        window.setWindowTitle(f"{path.name}[*] – Showside")
        window.statusBar().showMessage(f"Saved as {path.name}.", SHOWN_FOR_MS)
        then, self._after_save = self._after_save, None
        if then is not None:
            then()

    def _failed(self, sentence: str) -> None:
        self._after_save = None

    # --- exporting
    def _export(self, kind: str) -> None:
        suggested = self._folder() / f"{_plain_name(self._document.state)}-posed.{kind}"
        path = self._window.prompts.file_to_export(suggested, kind)
        if path is not None:
            self._window.files.export(path)

    def _exported(self, path: Path, state: State) -> None:
        self._window.choices.set_handed_over(state)
        self._window.statusBar().showMessage(f"Written: {path}", SHOWN_FOR_MS)

    # --- unsaved changes
    def may_close(self) -> bool:
        """Whether the window may close now; if not, it closes itself once the job is saved."""
        answer = self._ask()
        if answer is Unsaved.SAVE:
            self._after_save = self._window.close
            self.save()
        return answer is Unsaved.DISCARD

    def _when_settled(self, then: Callable[[], object]) -> None:
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

    def _folder(self) -> Path:
        if self._document.job_path is not None:
            return self._document.job_path.parent
        listed = recent_files()
        return listed[0].parent if listed else Path.home()


def _first_stage(state: State) -> Stage:
    """Where to begin: at the unit question, at marking, or at turning what is already marked."""
    if state.part.unit_doubt:
        return Stage.CHECK
    return Stage.TURN if np.any(state.face_classes) else Stage.CHECK


def _plain_name(state: State) -> str:
    name = "part" if state.part is None else state.part.name
    kept = "".join(c if c.isalnum() or c in "-_" else "-" for c in Path(name).stem)
    return kept.strip("-").lower() or "part"
