"""A large part is drawn coarser while anything moves, and in full once nothing does.

Only where the whole part takes long to draw, which the first frames of it tell: with a graphics
card a part of some millions of faces is drawn as it is all the time.
"""

import time
from typing import Any, Protocol

from PySide6.QtCore import QObject, QTimer, Signal

from viewer.scene.part_scene import PartScene

REST_MS = 250  # after the last change
SLOW_FRAME_S = 0.05


class MovingView(Protocol):
    """What is needed of the view."""

    interactor: Any  # the widget of the view, which only that file may name
    scene: PartScene

    @property
    def held(self) -> bool:
        """Whether a button is held over the scene."""


class ComingToRest(QObject):
    """Chooses for each picture which surface of the part is drawn; `drawn` follows each."""

    drawn = Signal()

    def __init__(self, view: MovingView) -> None:
        super().__init__(view)
        self._view = view
        self._timer = QTimer(self, singleShot=True, interval=REST_MS)
        self._timer.timeout.connect(self._rest)
        self._begun_s, self._frame_s = 0.0, SLOW_FRAME_S  # unknown yet: taken to be slow
        window = view.interactor.render_window
        self._watching = (
            window.AddObserver("StartEvent", self._frame_begins),
            window.AddObserver("EndEvent", self._frame_ends),
        )

    def close(self) -> None:
        """Look at no frame any more."""
        self._timer.stop()
        for observer in self._watching:
            self._view.interactor.render_window.RemoveObserver(observer)

    @property
    def at_rest(self) -> bool:
        """Whether nothing has moved for a while."""
        return not self._timer.isActive()

    def something_moves(self) -> None:
        """A picture is asked for: it comes quickly, and the full one once all is still."""
        if self._frame_s >= SLOW_FRAME_S and self._view.scene.has_stand_in:
            self._view.scene.set_moving(True)
            self._timer.start()

    def _rest(self) -> None:
        if self._view.held:
            self._timer.start()
        elif self._view.scene.set_moving(False):
            self._view.interactor.update()

    def _frame_begins(self, *_: object) -> None:
        self._begun_s = time.thread_time()

    def _frame_ends(self, *_: object) -> None:
        if self.at_rest:  # a frame of the whole part
            self._frame_s = time.thread_time() - self._begun_s
        self.drawn.emit()
