"""The last few full answers, so that a pose one comes back to has its numbers at once."""

from collections import OrderedDict

from viewer.document.state import State
from viewer.geometry.pose import Pose
from viewer.geometry.pose_measures import PoseMeasures
from viewer.geometry.print_settings import PrintSettings

MOST = 8  # each holds arrays over all faces


class KnownAnswers:
    """Full answers about one part with one set of classes; another part or class forgets them."""

    def __init__(self) -> None:
        self._about: tuple[object, object] = (None, None)
        self._found: OrderedDict[tuple[Pose, PrintSettings], PoseMeasures] = OrderedDict()

    def remember(self, state: State, pose: Pose, measures: PoseMeasures) -> None:
        """`measures` is the full answer for `pose` under the part, classes, process of `state`."""
        self._forget_others(state)
        key = (pose, state.settings)
        self._found[key] = measures
        self._found.move_to_end(key)
        if len(self._found) > MOST:
            self._found.popitem(last=False)

    def find(self, state: State, pose: Pose) -> PoseMeasures | None:
        """The full answer for `pose` under the part, classes and process of `state`, or None."""
        self._forget_others(state)
        key = (pose, state.settings)
        if key in self._found:
            self._found.move_to_end(key)
        return self._found.get(key)

    def _forget_others(self, state: State) -> None:
        part, classes = self._about
        if part is not state.part or classes is not state.face_classes:
            self._found.clear()
            self._about = (state.part, state.face_classes)
