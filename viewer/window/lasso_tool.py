"""Mark with a lasso: drag a loop on the screen; what is drawn within it is marked."""

import numpy as np
from PySide6.QtCore import QObject

from viewer.document.document import Document
from viewer.window.mark_ways import MarkWays, SeenOnce
from viewer.window.part_view import PartView
from viewer.window.tools import Pointer, Tool
from viewer.words import say

LEAST_STEP_PX = 3.0  # the loop has no corners closer than this


class LassoTool(Tool):
    """Left drag anywhere; the loop closes by itself."""

    def __init__(
        self, view: PartView, document: Document, ways: MarkWays, parent: QObject | None = None
    ) -> None:
        super().__init__(parent)
        self._view, self._document, self._ways = view, document, ways
        self._loop: list[tuple[float, float]] = []
        self._seen: SeenOnce | None = None

    def hover(self, pointer: Pointer) -> None:
        """Say what a drag does."""
        through = self._ways.options.now.lasso_through
        reach = say("right through the part") if through else say("that is seen from here")
        self.hint.emit(say("Drag a loop: it marks every face within it {reach}", reach=reach))

    def press(self, pointer: Pointer) -> bool:
        """Begin a loop."""
        if self._document.state.part is None:
            return False
        self._loop = [(pointer.x_px, pointer.y_px)]
        self._seen = SeenOnce(self._view.eye())
        return True

    def drag(self, pointer: Pointer) -> None:
        """Draw the loop on, and show what it holds so far."""
        if self._seen is None:
            return
        last = self._loop[-1]
        if np.hypot(pointer.x_px - last[0], pointer.y_px - last[1]) < LEAST_STEP_PX:
            return
        self._loop.append((pointer.x_px, pointer.y_px))
        loop_px = np.array(self._loop)
        self._view.show_loop(loop_px)
        self._ways.planner.show(self._ways.within_loop(loop_px, self._seen))

    def release(self, pointer: Pointer) -> None:
        """Mark what the loop holds: one undo step."""
        if self._seen is None:
            return
        loop_px, seen = np.array(self._loop), self._seen
        self.cancel()
        if len(loop_px) >= 3:
            self._ways.planner.take(self._ways.within_loop(loop_px, seen))
            self.step_ended.emit()

    def leave(self) -> None:
        """Show nothing."""
        self.cancel()
        self.hint.emit("")

    def cancel(self) -> bool:
        """Give the loop up."""
        if self._seen is None:
            return False
        self._loop, self._seen = [], None
        self._view.show_loop(None)
        self._ways.planner.put_away()
        return True
