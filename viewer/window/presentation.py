"""Presentation mode: the scene alone with large type, a pointer ring, and poses by arrow keys.

Off, it costs nothing: it listens to neither mouse nor keys and has nothing in the scene.
"""

import time
from collections import deque
from typing import Protocol

import numpy as np
from PySide6.QtCore import QEvent, QObject, Qt, QTimer
from PySide6.QtGui import QMouseEvent
from PySide6.QtWidgets import QWidget

from viewer.scene.pointer_trail import PointerTrail
from viewer.window.actions import Actions
from viewer.window.busy_bar import BusyBar
from viewer.window.caption_bar import CaptionBar
from viewer.window.choices import Choices
from viewer.window.part_view import PartView

TRAIL_S = 0.7  # until a place the pointer was at has faded
FRAME_MS = 33
STEP_KEYS = {
    Qt.Key.Key_Right: "next_kept",
    Qt.Key.Key_Down: "next_kept",
    Qt.Key.Key_Left: "previous_kept",
    Qt.Key.Key_Up: "previous_kept",
}


class PresentingWindow(Protocol):
    """What presentation mode needs of the window."""

    view: PartView
    choices: Choices
    actions: Actions
    caption: CaptionBar
    busy: BusyBar
    bars: tuple[QWidget, ...]


class Presentation(QObject):
    """Follows `choices.presenting`: hides every bar of the window, and brings each back."""

    def __init__(self, window: PresentingWindow) -> None:
        super().__init__(window)
        self._window = window
        self._hidden: list[QWidget] = []
        self._trail: PointerTrail | None = None
        self._over: object | None = None  # the renderer the trail is in
        self._places: deque[tuple[float, float, float]] = deque()
        self._fade = QTimer(self, interval=FRAME_MS)
        self._fade.timeout.connect(self._draw_trail)
        window.choices.presenting_changed.connect(self._switch)
        window.choices.comparing_changed.connect(self._show_caption)

    def close(self) -> None:
        """Let go of what it has in the scene, before the scene itself is closed."""
        self._let_go_of_pointer()

    def _switch(self, on: bool) -> None:
        window = self._window
        if on:
            self._hidden = [bar for bar in window.bars if not bar.isHidden()]
            for bar in self._hidden:
                bar.hide()
            # The shortcuts of a hidden menu are dead; the window itself takes them over.
            window.addActions(list(window.actions.by_key.values()))
            self._show_caption()
            window.installEventFilter(self)
            window.view.interactor.installEventFilter(self)
            self._new_trail()
            window.view.interactor.setFocus(Qt.FocusReason.OtherFocusReason)
            return
        window.removeEventFilter(self)
        self._let_go_of_pointer()
        self._show_caption()
        for action in window.actions.by_key.values():
            window.removeAction(action)
        for bar in self._hidden:
            bar.show()
        self._hidden = []
        window.view.redraw()

    def _let_go_of_pointer(self) -> None:
        self._fade.stop()
        self._places.clear()
        if self._trail is not None:
            self._window.view.interactor.removeEventFilter(self)
            self._trail.close()
            self._trail = self._over = None

    def _show_caption(self, *_: object) -> None:
        """What the client reads; poses side by side have captions and numbers of their own."""
        choices = self._window.choices
        self._window.caption.setVisible(choices.presenting and not choices.comparing)

    def _new_trail(self) -> None:
        """Draw over the one scene, or over all panes when poses are compared."""
        if self._trail is not None:
            self._trail.close()
        self._over = self._window.view.overlay
        self._trail = PointerTrail(self._over)

    # --- events of the window (keys) and of the scene (the mouse)
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Take the arrows and Escape; look at the mouse and pass it on."""
        kind = event.type()
        if watched is self._window:
            return kind == QEvent.Type.KeyPress and self._take_key(event.key())
        if kind == QEvent.Type.MouseMove:
            self._follow(event)
        elif kind == QEvent.Type.Leave and self._trail is not None:
            self._places.clear()
            self._draw_trail()
        return False

    def _take_key(self, key: int) -> bool:
        if key == Qt.Key.Key_Escape and self._window.busy.cancel():
            return True
        if key == Qt.Key.Key_Escape:
            self._window.choices.set_presenting(False)
            return True
        if key in STEP_KEYS:
            self._window.actions.by_key[STEP_KEYS[key]].trigger()
            return True
        return False

    def _follow(self, event: QMouseEvent) -> None:
        canvas = self._window.view.interactor
        scale, place = canvas.devicePixelRatioF(), event.position()
        at_px = (place.x() * scale, (canvas.height() - 1 - place.y()) * scale)
        self._places.append((time.monotonic(), *at_px))
        if not self._fade.isActive():
            self._fade.start()
            self._draw_trail()

    def _draw_trail(self) -> None:
        """The ring stays where the pointer is; the trail fades, and then the drawing stops."""
        if self._trail is None:
            return
        if self._over is not self._window.view.overlay:
            self._new_trail()
        now_s = time.monotonic()
        while len(self._places) > 1 and now_s - self._places[0][0] > TRAIL_S:
            self._places.popleft()
        if self._places:
            rows = np.array(self._places)
            strengths = np.clip(1.0 - (now_s - rows[:, 0]) / TRAIL_S, 0.0, 1.0)
            scale = self._window.view.interactor.devicePixelRatioF()
            self._trail.show(rows[:, 1:], strengths, scale)
        else:
            self._trail.hide()
        if len(self._places) < 2:
            self._fade.stop()
        self._window.view.redraw()
