"""Undo and redo as past and coming States, bounded by the bytes of the arrays they alone hold."""

from dataclasses import dataclass

from viewer.document.state import State


@dataclass(frozen=True, eq=False)
class Step:
    """One thing the user did: its name in the Undo menu and the state before it."""

    label: str
    before: State


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

    def push(self, label: str, before: State) -> None:
        """Remember `before`; what could be redone is gone."""
        self._past.append(Step(label, before))
        self._coming.clear()
        while len(self._past) > 1 and self.held_bytes() > self._limit_bytes:
            del self._past[0]

    def undo(self, now: State) -> State:
        """The state before the last step; `now` becomes the one that redo returns."""
        step = self._past.pop()
        self._coming.append(Step(step.label, now))
        return step.before

    def redo(self, now: State) -> State:
        """The state that the last undo left."""
        step = self._coming.pop()
        self._past.append(Step(step.label, now))
        return step.before

    def clear(self) -> None:
        """Forget everything."""
        self._past.clear()
        self._coming.clear()

    def held_bytes(self) -> int:
        """Bytes of the distinct arrays that the remembered states hold."""
        arrays = {}
        for step in (*self._past, *self._coming):
            arrays[id(step.before.face_classes)] = step.before.face_classes.nbytes
            if step.before.part is not None:
                for mesh in (step.before.part.mesh, step.before.part.received):
                    if mesh is not None:
                        arrays[id(mesh)] = mesh.vertices_mm.nbytes + mesh.faces.nbytes
        return sum(arrays.values())
