"""Results that are ticked: compared side by side, and kept together."""

from collections.abc import Callable
from typing import Protocol

import numpy as np
from PySide6.QtCore import QObject, Signal

from viewer.document.document import Document
from viewer.document.kept_poses import place_of
from viewer.document.state import KeptPose
from viewer.geometry.pose import Pose
from viewer.geometry.ranking import RankedPose
from viewer.scene.side_by_side import MOST_PANES
from viewer.window.comparing import Comparing
from viewer.words import say

Up = tuple[float, float, float]


class PickingWindow(Protocol):
    """What picking needs of the window."""

    document: Document
    comparing: Comparing


class PickedResults(QObject):
    """Knows results by their direction, so that a tick stays where the order changes.

    changed : another result is ticked; failed : a sentence for the user
    """

    changed = Signal()
    failed = Signal(str)

    def __init__(
        self,
        window: PickingWindow,
        offered: Callable[[], tuple[RankedPose, ...]],
        pose_at: Callable[[np.ndarray], Pose],
        parent: QObject,
    ) -> None:
        """offered : the results as listed; pose_at : how the part is laid for a direction"""
        super().__init__(parent)
        self._window, self._offered, self._pose_at = window, offered, pose_at
        self._ups: set[Up] = set()

    def has(self, result: RankedPose) -> bool:
        """Whether a result is ticked."""
        return result.up in self._ups

    def clear(self) -> None:
        """Tick none, for another part."""
        self._ups.clear()

    def tick(self, place: int, on: bool) -> None:
        """Tick a result, or take its tick away."""
        offered = self._offered()
        if 0 <= place < len(offered):
            (self._ups.add if on else self._ups.discard)(offered[place].up)
            self.changed.emit()

    def places(self) -> list[int]:
        """Places of the ticked results that are listed now."""
        return [place for place, result in enumerate(self._offered()) if self.has(result)]

    def compare(self) -> None:
        """Show the ticked results side by side."""
        places = self.places()
        if not places:
            self.failed.emit(say("Tick two to four results first, with their boxes or Space."))
        elif len(places) > MOST_PANES:
            self.failed.emit(
                say("Four poses fit side by side: take some of the {count} ticks away.",
                    count=len(places))
            )  # fmt: skip
        else:
            self._compare(tuple(map(self._named, places)))

    def _compare(self, results: tuple[KeptPose, ...]) -> None:
        if len(results) == 1 and results[0].pose == self._window.document.state.pose:
            self.failed.emit(say("The part lies like this already: tick another result, too."))
        else:
            self._window.comparing.compare_results(results)

    def keep(self, places: list[int]) -> None:
        """Put results on the list of kept poses, each with its sentence as the note: one step."""
        document = self._window.document
        with document.gesture(say("Keep results") if len(places) > 1 else say("Keep the pose")):
            for one in map(self._named, places):
                if place_of(document.state.kept_poses, one.pose) is None:
                    document.keep_pose(one.name, one.pose, one.note)

    def _named(self, place: int) -> KeptPose:
        found = self._offered()[place]
        pose = self._pose_at(np.array(found.up))
        return KeptPose(say("Result {place}", place=place + 1), pose, say(found.why))
