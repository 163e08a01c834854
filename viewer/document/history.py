"""Undo and redo as past and coming States, bounded by the bytes of the arrays they alone hold."""

from dataclasses import dataclass

from viewer.document.state import State
from viewer.document.state_rows import StateRows, kept


@dataclass(frozen=True, eq=False)
class Step:
    """One thing the user did: its name in the Undo menu and the state on its other side.

    state : that state, or what it has other than the state on this side
    """

    label: str
    state: State | StateRows

    def other_side(self, now: State) -> State:
        """The state on the other side of the step, seen from this one."""
        return self.state if isinstance(self.state, State) else self.state.put_back(now)


class History:
    """Past and coming states; the oldest are forgotten when they hold more than `limit_bytes`."""

    def __init__(self, limit_bytes: int = 500_000_000) -> None:
        self._limit_bytes = limit_bytes
        self._past: list[Step] = []
        self._coming: list[Step] = []

    @property
    def undo_label(self) -> str:
        """Name of the step that undo takes back, "" when there is none."""
        return self._past[-1].label if self._past else ""

    @property
    def redo_label(self) -> str:
        """Name of the step that redo brings back, "" when there is none."""
        return self._coming[-1].label if self._coming else ""

    def push(self, label: str, before: State, after: State) -> None:
        """Remember `before` while `after` becomes the present; what could be redone is gone."""
        self._past.append(Step(label, kept(before, after)))
        self._coming.clear()
        while len(self._past) > 1 and self.held_bytes() > self._limit_bytes:
            del self._past[0]

    def undo(self, now: State) -> State:
        """The state before the last step; `now` becomes the one that redo returns."""
        step = self._past.pop()
        before = step.other_side(now)
        self._coming.append(Step(step.label, kept(now, before)))
        return before

    def redo(self, now: State) -> State:
        """The state that the last undo left."""
        step = self._coming.pop()
        after = step.other_side(now)
        self._past.append(Step(step.label, kept(now, after)))
        return after

    def clear(self) -> None:
        """Forget everything."""
        self._past.clear()
        self._coming.clear()

    def held_bytes(self) -> int:
        """Bytes of the distinct arrays that the remembered states hold."""
        arrays = {}
        for step in (*self._past, *self._coming):
            for piece in step.state.pieces:
                arrays[id(piece)] = piece.nbytes
            if isinstance(step.state, StateRows):
                arrays[id(step.state)] = step.state.nbytes
                continue
            state = step.state
            arrays[id(state.face_classes)] = state.face_classes.nbytes
            if state.part is not None:
                for mesh in (state.part.mesh, state.part.received, state.part.base):
                    if mesh is not None:
                        arrays[id(mesh)] = mesh.vertices_mm.nbytes + mesh.faces.nbytes
        return sum(arrays.values())
