"""Joins the what-if of adaptive layers to its page beside the map and to its table."""

from typing import Protocol

from PySide6.QtCore import QObject
from PySide6.QtGui import QAction

from viewer.document.document import Document
from viewer.live.jobs import Jobs
from viewer.live.live_layers import LiveLayers
from viewer.live.live_measures import LiveMeasures
from viewer.window.file_work import FileWork
from viewer.window.job_keeper import JobKeeper, plain_name
from viewer.window.layers_box import LayersBox
from viewer.window.notice_bar import NoticeBar
from viewer.window.prompts import Prompts
from viewer.window.verbs import Verbs, plain
from viewer.words import say


class AdaptingWindow(Protocol):
    """What it needs of the window."""

    document: Document
    jobs: Jobs
    live_measures: LiveMeasures
    files: FileWork
    keeper: JobKeeper
    prompts: Prompts
    notice: NoticeBar


class Adapting(QObject):
    """Owns the live layers and their page."""

    def __init__(self, window: AdaptingWindow) -> None:
        super().__init__(window)
        self._window = window
        self.live = LiveLayers(window.document, window.jobs, window.live_measures)

    def verbs(self) -> Verbs:
        """Write the layers as a table."""
        return {"export_layers": plain(self._export)}

    def make_box(self, actions: dict[str, QAction]) -> LayersBox:
        """The page, which the window gives its place; once."""
        self.box = box = LayersBox(actions, self.live.asked)
        box.asked.connect(self.live.ask_for)
        box.looked_at.connect(self.live.set_wanted)
        self.live.told.connect(box.show_layers)
        self.live.refused.connect(box.refuse)
        return box

    def close(self) -> None:
        """Stop working it out."""
        self.live.close()

    def _export(self) -> None:
        window, adapting = self._window, self.live.adapting()
        if adapting is None:
            window.notice.say(say("The part is still being made ready; try again in a moment."))
            return
        name = f"{plain_name(window.document.state)}-{say('adaptive-layers')}.csv"
        path = window.prompts.table_to_save(window.keeper.folder() / name)
        if path is not None:
            window.files.write_layers(path, adapting)
