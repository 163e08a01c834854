"""The lens Difference in the single view: the present pose against the pinned one."""

from typing import Protocol

from PySide6.QtCore import QObject, Signal

from viewer.document.document import Document
from viewer.geometry.pose_difference import PoseDifference, difference_of_poses
from viewer.live.live_measures import LiveMeasures
from viewer.scene.legends import difference_note
from viewer.scene.lenses import Lens
from viewer.window.choices import Choices
from viewer.window.comparing import Comparing
from viewer.window.part_view import PartView
from viewer.words import say


class DifferenceWindow(Protocol):
    """What the link needs of the window."""

    document: Document
    choices: Choices
    view: PartView
    live_measures: LiveMeasures
    comparing: Comparing


class DifferenceLink(QObject):
    """Works the difference out only while somebody looks through the lens.

    said : what the legend is to say has changed; look at `note`
    """

    said = Signal()

    def __init__(self, window: DifferenceWindow) -> None:
        super().__init__(window)
        self._window = window
        self.latest: PoseDifference | None = None
        for signal in (
            window.live_measures.measured,
            window.live_measures.pinned_measured,
            window.choices.lens_changed,
            window.comparing.changed,
        ):
            signal.connect(self._show)

    @property
    def note(self) -> str:
        """The difference in numbers, or how one gets to see one."""
        if self._window.comparing.on:
            return say("Each pane against pane 1.")
        return difference_note(self.latest, self._window.document.state.pinned_pose is not None)

    def _show(self, *_: object) -> None:
        window = self._window
        if window.choices.lens is not Lens.DIFFERENCE or window.document.state.part is None:
            return
        self.latest = self._found()
        window.view.scene.show_difference(None if self.latest is None else self.latest.face_mm)
        window.view.redraw()
        self.said.emit()

    def _found(self) -> PoseDifference | None:
        state, live = self._window.document.state, self._window.live_measures
        answers = (live.latest, live.pinned)
        # An answer may still be about the faces as they were cut before.
        if state.pinned_pose is None or any(
            one is None or len(one.faces.touch_share) != state.part.mesh.face_count
            for one in answers
        ):
            return None
        return difference_of_poses(
            state.part.mesh,
            state.face_classes,
            state.settings,
            (state.pose, live.latest.faces),
            (state.pinned_pose, live.pinned.faces),
        )
