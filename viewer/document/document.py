"""The one place where a State is swapped for the next, and everyone is told what changed."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from enum import Flag, auto
from pathlib import Path

import numpy as np

from viewer.document.history import History
from viewer.document.state import State
from viewer.geometry.mesh import frozen
from viewer.geometry.pose import Pose
from viewer.geometry.print_settings import PrintSettings


class Changed(Flag):
    """What a swap changed."""

    PART = auto()
    CLASSES = auto()
    POSE = auto()
    SETTINGS = auto()
    PINNED = auto()
    EVERYTHING = PART | CLASSES | POSE | SETTINGS | PINNED


def what_changed(old: State, new: State) -> Changed:
    """The parts in which two states differ; unchanged arrays are shared, so identity decides."""
    what = Changed(0)
    if old.part is not new.part:
        what |= Changed.PART
    if old.face_classes is not new.face_classes:
        what |= Changed.CLASSES
    if old.pose != new.pose:
        what |= Changed.POSE
    if old.settings != new.settings:
        what |= Changed.SETTINGS
    if old.pinned_pose != new.pinned_pose:
        what |= Changed.PINNED
    return what


class Document:
    """Holds the State of the open job, its history, and who wants to hear of changes.

    Listeners are called as `listener(what: Changed)` after each swap, in the order of joining.
    `revision` grows with every swap, so that a late answer to an old question can be dropped.
    """

    def __init__(self, state: State | None = None) -> None:
        self._state = state or State()
        self._saved = self._state
        self._history = History()
        self._listeners: list[Callable[[Changed], None]] = []
        self._gesture: tuple[str, State] | None = None
        self.revision = 0
        self.job_path: Path | None = None

    # --- reading
    @property
    def state(self) -> State:
        """The present state."""
        return self._state

    @property
    def modified(self) -> bool:
        """Whether the present state differs from the one last saved or opened."""
        return bool(what_changed(self._saved, self._state))

    @property
    def undo_label(self) -> str:
        """What undo would take back, "" for nothing."""
        return self._history.undo_label

    @property
    def redo_label(self) -> str:
        """What redo would bring back, "" for nothing."""
        return self._history.redo_label

    # --- listening
    def listen(self, listener: Callable[[Changed], None]) -> Callable[[], None]:
        """Call `listener` after every change; returns a function that stops that."""
        self._listeners.append(listener)
        return lambda: self._listeners.remove(listener) if listener in self._listeners else None

    # --- swapping
    def _swap(self, state: State) -> None:
        what = what_changed(self._state, state)
        if not what:
            return
        self._state = state
        self.revision += 1
        for listener in tuple(self._listeners):
            listener(what)

    def _take_step(self, label: str, state: State) -> None:
        if not what_changed(self._state, state):
            return
        if self._gesture is None:
            self._history.push(label, self._state)
        self._swap(state)

    def open(self, state: State, job_path: Path | None = None) -> None:
        """Replace the job by another one; its history starts anew."""
        self._history.clear()
        self._gesture = None
        self._saved = state
        self.job_path = job_path
        self._swap(state)

    def mark_saved(self, job_path: Path, state: State) -> None:
        """The job file at `job_path` now holds `state`."""
        self.job_path = job_path
        self._saved = state

    def undo(self) -> None:
        """Take back the last step, if there is one."""
        if self.undo_label and self._gesture is None:
            self._swap(self._history.undo(self._state))

    def redo(self) -> None:
        """Bring back the step that undo took back, if there is one."""
        if self.redo_label and self._gesture is None:
            self._swap(self._history.redo(self._state))

    @contextmanager
    def gesture(self, label: str) -> Iterator[None]:
        """Everything inside is one undo step; an exception inside takes all of it back."""
        self.begin_gesture(label)
        try:
            yield
        except BaseException:
            self.cancel_gesture()
            raise
        self.end_gesture()

    def begin_gesture(self, label: str) -> None:
        """Start collecting swaps into one undo step (a drag with the mouse)."""
        if self._gesture is None:
            self._gesture = (label, self._state)

    def end_gesture(self) -> None:
        """Finish the step that `begin_gesture` started; no step if nothing changed."""
        if self._gesture is None:
            return
        label, before = self._gesture
        self._gesture = None
        if what_changed(before, self._state):
            self._history.push(label, before)

    def cancel_gesture(self) -> None:
        """Go back to where the gesture began and leave no step."""
        if self._gesture is None:
            return
        _, before = self._gesture
        self._gesture = None
        self._swap(before)

    # --- what the user does
    def turn(self, pose: Pose, label: str = "Turn the part") -> None:
        """Lay the part in another pose."""
        self._take_step(label, self._state.with_(pose=pose))

    def mark(self, face_indices: np.ndarray, face_class: int, label: str = "Mark faces") -> None:
        """Give the faces in `face_indices` ((k,) int) a class: 0 unmarked, 1 class A, 2 class B."""
        classes = self._state.face_classes
        if np.all(classes[face_indices] == face_class):
            return
        classes = classes.copy()
        classes[face_indices] = face_class
        self.set_classes(classes, label)

    def set_classes(self, face_classes: np.ndarray, label: str) -> None:
        """Replace all face classes at once ((m,) uint8)."""
        self._take_step(label, self._state.with_(face_classes=frozen(face_classes)))

    def set_settings(self, settings: PrintSettings) -> None:
        """Change layer height, support limit, road width or bridge limit."""
        self._take_step("Change the process", self._state.with_(settings=settings))

    def pin_pose(self, pose: Pose | None) -> None:
        """Compare the numbers with `pose` from now on, or with none."""
        label = "Pin the pose" if pose is not None else "Unpin the pose"
        self._take_step(label, self._state.with_(pinned_pose=pose))

    def replace_part(self, state: State, label: str) -> None:
        """Swap part and classes in one undo step (a new unit, a mended mesh)."""
        self._take_step(label, state)
