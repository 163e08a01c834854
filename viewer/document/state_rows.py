"""What one state has other than the state after it, so that a step of marking keeps a few rows.

A stroke changes the classes of some faces and cuts a few of them in pieces; cut faces keep their
row and new ones come after all others. So a state is what follows it with some rows put back.
"""

import weakref
from dataclasses import dataclass, fields
from typing import Self

import numpy as np

from viewer.document.job_piece import JobPiece
from viewer.document.state import State
from viewer.geometry.mesh import frozen


@dataclass(frozen=True, eq=False)
class Rows:
    """The rows in which an array differs from another one; `tail` are those that it alone has."""

    count: int
    rows: np.ndarray
    values: np.ndarray
    tail: np.ndarray

    @classmethod
    def between(cls, wanted: np.ndarray, other: np.ndarray) -> Self:
        """What `put_back(other)` needs to give `wanted`."""
        common = min(len(wanted), len(other))
        differs = wanted[:common] != other[:common]
        if differs.ndim == 2:  # column by column: many times as quick as along the short rows
            differs = np.logical_or.reduce([*differs.T])
        rows = np.flatnonzero(differs)
        return cls(len(wanted), rows.astype(np.int32), wanted[rows], wanted[common:].copy())

    def put_back(self, other: np.ndarray) -> np.ndarray:
        """The array wanted, read-only."""
        wanted = np.concatenate([other[: self.count], self.tail])
        wanted[self.rows] = self.values
        return frozen(wanted)

    @property
    def nbytes(self) -> int:
        """Bytes held."""
        return self.rows.nbytes + self.values.nbytes + self.tail.nbytes


class StateRows:
    """A state as what it has other than `after`, the one that follows it."""

    def __init__(self, wanted: State, after: State) -> None:
        names = (field.name for field in fields(wanted))
        self._fields = {
            name: getattr(wanted, name) for name in names if name not in ("part", "face_classes")
        }
        # As long as somebody else holds the state (as the one last saved), it is given back itself.
        self._itself = weakref.ref(wanted)
        self._classes: Rows | None = None
        if wanted.face_classes is not after.face_classes:
            self._classes = Rows.between(wanted.face_classes, after.face_classes)
        self._part: tuple[Rows, Rows, Rows] | None = None
        if wanted.part is not after.part:
            pairs = zip(_arrays(wanted), _arrays(after), strict=True)
            self._part = tuple(Rows.between(old, new) for old, new in pairs)

    def put_back(self, after: State) -> State:
        """The state wanted; `after` holds what the one of old held."""
        itself = self._itself()
        if itself is not None:
            return itself
        part = after.part
        if self._part is not None:
            arrays = zip(self._part, _arrays(after), strict=True)
            part = part.refined(*(rows.put_back(array) for rows, array in arrays))
        classes = after.face_classes
        if self._classes is not None:
            classes = self._classes.put_back(classes)
        return State(part=part, face_classes=classes, **self._fields)

    @property
    def pieces(self) -> tuple[JobPiece, ...]:
        """The pieces of the job, which it holds whole."""
        return self._fields["pieces"]

    @property
    def nbytes(self) -> int:
        """Bytes held."""
        return sum(rows.nbytes for rows in (self._classes, *(self._part or ())) if rows)


def _arrays(state: State) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Vertices, faces and base faces of the part of a state."""
    part = state.part
    base_face = part.base_face
    if base_face is None:
        base_face = np.arange(part.mesh.face_count, dtype=np.int32)
    return part.mesh.vertices_mm, part.mesh.faces, base_face


def kept(wanted: State, after: State) -> State | StateRows:
    """A state to come back to from `after`: its rows if both are of the same part, or itself."""
    if wanted.part is None or not (wanted.part is after.part or wanted.part.same_file(after.part)):
        return wanted
    return StateRows(wanted, after)
