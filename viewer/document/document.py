"""The one place where a State is swapped for the next, and everyone is told what changed."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from enum import Flag, auto
from pathlib import Path

import numpy as np

from viewer.document.history import History
from viewer.document.job_piece import JobPiece
from viewer.document.kept_poses import kept, moved, noted, removed, renamed
from viewer.document.state import State
from viewer.geometry.bisect_faces import Pieces
from viewer.geometry.mesh import frozen
from viewer.geometry.pose import Pose
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.spin_wish import SpinWish
from viewer.geometry.what_matters import WhatMatters
from viewer.shop.shop_choice import ShopChoice
from viewer.shop.taken_limits import TakenLimit, settings_with, with_taken
from viewer.shop.trials import Trial, with_trial, without_trial
from viewer.words import later, say


class Changed(Flag):
    """What a swap changed."""

    PART = auto()
    CLASSES = auto()
    POSE = auto()
    SETTINGS = auto()
    PINNED = auto()
    REFINED = auto()  # the same part, its faces cut in other pieces; comes with CLASSES
    KEPT = auto()
    SHOP = auto()
    MATTERS = auto()
    SPIN = auto()  # what decides it, not the spin itself
    PIECES = auto()
    TRIALS = auto()  # those of the job, or what was taken from trials
    CLIENT = auto()
    EVERYTHING = (
        PART | CLASSES | POSE | SETTINGS | PINNED | KEPT | SHOP | MATTERS | SPIN | PIECES | TRIALS
        | CLIENT
    )  # fmt: skip


def what_changed(old: State, new: State) -> Changed:
    """The parts in which two states differ; unchanged arrays are shared, so identity decides."""
    what = Changed(0)
    if old.part is not new.part:
        same_file = old.part is not None and old.part.same_file(new.part)
        what |= Changed.REFINED if same_file else Changed.PART
    if old.face_classes is not new.face_classes:
        what |= Changed.CLASSES
    if old.pose != new.pose:
        what |= Changed.POSE
    if old.settings != new.settings:
        what |= Changed.SETTINGS
    if old.pinned_pose != new.pinned_pose:
        what |= Changed.PINNED
    if old.kept_poses != new.kept_poses:
        what |= Changed.KEPT
    if old.shop_choice != new.shop_choice:
        what |= Changed.SHOP
    if old.what_matters != new.what_matters:
        what |= Changed.MATTERS
    if old.spin_wish != new.spin_wish:
        what |= Changed.SPIN
    if old.pieces != new.pieces:
        what |= Changed.PIECES
    if old.trials != new.trials or old.taken != new.taken:
        what |= Changed.TRIALS
    if old.client != new.client:
        what |= Changed.CLIENT
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

    @property
    def just_opened(self) -> bool:
        """Whether no step was taken since the job was opened, not even one that was undone."""
        return not (self.undo_label or self.redo_label)

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
            self._history.push(label, self._state, state)
        self._swap(state)

    def open(self, state: State, job_path: Path | None = None, saved: bool = True) -> None:
        """Replace the job by another one; its history starts anew; `saved`: no file lacks it."""
        self._history.clear()
        self._gesture = None
        self._saved = state if saved else State()
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
            self._history.push(label, before, self._state)

    def cancel_gesture(self) -> None:
        """Go back to where the gesture began and leave no step."""
        if self._gesture is None:
            return
        _, before = self._gesture
        self._gesture = None
        self._swap(before)

    # --- what the user does
    def turn(self, pose: Pose, label: str = later("Turn the part")) -> None:
        """Lay the part in another pose."""
        self._take_step(label, self._state.with_(pose=pose))

    def mark(
        self, face_indices: np.ndarray, face_class: int, label: str = later("Mark faces")
    ) -> None:
        """Give the faces in `face_indices` ((k,) int) a class: 0 unmarked, 1 class A, 2 class B."""
        classes = self._state.face_classes
        if np.all(classes[face_indices] == face_class):
            return
        classes = classes.copy()
        classes[face_indices] = face_class
        self.set_classes(classes, label)

    def mark_finely(self, pieces: Pieces, face_classes: np.ndarray, label: str) -> None:
        """Cut faces in pieces and give these (m',) classes: one step."""
        unchanged = len(pieces.faces) == len(self._state.face_classes)
        if unchanged and np.array_equal(face_classes, self._state.face_classes):
            return
        self._take_step(label, self._state.refined(pieces, face_classes))

    def set_classes(self, face_classes: np.ndarray, label: str) -> None:
        """Replace all face classes at once ((m,) uint8)."""
        self._take_step(label, self._state.with_(face_classes=frozen(face_classes)))

    def set_settings(self, settings: PrintSettings) -> None:
        """Change layer height, support limit, road width or bridge limit."""
        self._take_step(say("Change the process"), self._state.with_(settings=settings))

    def choose_shop(self, choice: ShopChoice) -> None:
        """Choose another machine, pair, process or number of copies."""
        self._take_step(say("Choose in the shop"), self._state.with_(shop_choice=choice))

    def set_what_matters(self, matters: WhatMatters, label: str) -> None:
        """Order the directions by something else, or cut out others."""
        self._take_step(label, self._state.with_(what_matters=matters))

    def set_spin_wish(self, wish: SpinWish, label: str) -> None:
        """Let something else decide the spin when the part is laid for a direction."""
        self._take_step(label, self._state.with_(spin_wish=wish))

    def set_pieces(self, pieces: tuple[JobPiece, ...], label: str) -> None:
        """Replace the list of pieces of the job."""
        self._take_step(label, self._state.with_(pieces=pieces))

    def name_client(self, client: str) -> None:
        """Say who the part is printed for; one line, at most 80 letters."""
        client = " ".join(client.split())[:80].rstrip()
        self._take_step(say("Name the client"), self._state.with_(client=client))

    def pin_pose(self, pose: Pose | None) -> None:
        """Compare the numbers with `pose` from now on, or with none."""
        label = say("Pin the pose") if pose is not None else say("Unpin the pose")
        self._take_step(label, self._state.with_(pinned_pose=pose))

    def swap_with_pinned(self) -> None:
        """Lay the part as pinned and pin the pose it had; twice is as before."""
        pose, pinned = self._state.pose, self._state.pinned_pose
        if pinned is not None:
            self._take_step(
                say("Swap with the pinned pose"), self._state.with_(pose=pinned, pinned_pose=pose)
            )

    def keep_pose(self, name: str = "", pose: Pose | None = None, note: str = "") -> None:
        """Put a pose (None: the present one) at the end of the kept ones, unless it is there."""
        poses = kept(self._state.kept_poses, pose or self._state.pose, name, note)
        self._take_step(say("Keep the pose"), self._state.with_(kept_poses=poses))

    def rename_kept(self, place: int, name: str) -> None:
        """Call a kept pose otherwise; a blank name changes nothing."""
        poses = renamed(self._state.kept_poses, place, name)
        self._take_step(say("Rename the kept pose"), self._state.with_(kept_poses=poses))

    def note_kept(self, place: int, note: str) -> None:
        """Write something else beside a kept pose."""
        poses = noted(self._state.kept_poses, place, note)
        self._take_step(say("Change the note"), self._state.with_(kept_poses=poses))

    def move_kept(self, place: int, by: int) -> None:
        """Move a kept pose up (negative) or down the list."""
        poses = moved(self._state.kept_poses, place, by)
        self._take_step(say("Move the kept pose"), self._state.with_(kept_poses=poses))

    def remove_kept(self, place: int) -> None:
        """Forget a kept pose."""
        poses = removed(self._state.kept_poses, place)
        self._take_step(say("Remove the kept pose"), self._state.with_(kept_poses=poses))

    def write_down_trial(self, trial: Trial) -> None:
        """Keep a trial with the job, in place of that of the same key."""
        trials = with_trial(self._state.trials, trial)
        self._take_step(say("Write down a result"), self._state.with_(trials=trials))

    def remove_trial(self, key: str) -> None:
        """Forget a trial of the job."""
        trials = without_trial(self._state.trials, key)
        self._take_step(say("Remove the trial"), self._state.with_(trials=trials))

    def take_limit(self, limit: TakenLimit) -> None:
        """Go by what trials taught: the process and the note of it in one step."""
        state = self._state
        settings = settings_with(state.settings, limit.limit, limit.value)
        taken = with_taken(state.taken, limit)
        self._take_step(say("Take what trials say"), state.with_(settings=settings, taken=taken))

    def put_back_limit(self, limit: TakenLimit) -> None:
        """Go by what stood there before that limit was taken."""
        state = self._state
        settings = settings_with(state.settings, limit.limit, limit.before)
        taken = tuple(each for each in state.taken if each != limit)
        self._take_step(say("Put the limit back"), state.with_(settings=settings, taken=taken))

    def replace_part(self, state: State, label: str) -> None:
        """Swap part and classes in one undo step (a new unit, a mended mesh)."""
        self._take_step(label, state)
