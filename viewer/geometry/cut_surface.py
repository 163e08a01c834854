"""A surface in pieces, and how it is cut finer wherever a question about its faces says so.

Where a mark ends is known to each way of marking by a question of its own: which faces may its rim
cross? Those are cut, and the question is asked again, until all that it names are fine enough. A
question that needs the nearest border or what an eye sees is answered the better the finer the
faces are, so the longest edges are brought down to a quarter at a time.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import NamedTuple, Self

import numpy as np

from viewer.geometry.bisect_faces import Pieces
from viewer.geometry.fine_marks import cut_along
from viewer.geometry.known_of_mesh import get_to_know_pieces, neighbours_of
from viewer.geometry.mesh import Mesh
from viewer.geometry.outlines import Outline, everywhere
from viewer.progress import Progress


class Marked(NamedTuple):
    """What a way to mark comes to.

    pieces : of the faces there were, or None where none is cut
    face_classes : (m',) uint8 of the pieces, or of the faces
    """

    pieces: Pieces | None
    face_classes: np.ndarray

    def changed(self, before: np.ndarray) -> np.ndarray:
        """(k,) rows whose class is another than that of their face, (m,) uint8 `before`."""
        if self.pieces is not None:
            before = before[self.pieces.parents]
        return np.flatnonzero(self.face_classes != before)


@dataclass(frozen=True, eq=False)
class CutSurface:
    """The pieces that the faces of a mesh are cut in so far.

    mesh : the pieces; row f < m is a piece of face f of the m there were
    neighbours : (m', 3) int32 as of `face_neighbours`
    parents : (m',) int32, the face there was that each is a piece of
    """

    mesh: Mesh
    neighbours: np.ndarray
    parents: np.ndarray

    @classmethod
    def of(cls, mesh: Mesh) -> Self:
        """A mesh of which nothing is cut yet."""
        return cls(mesh, neighbours_of(mesh), np.arange(mesh.face_count, dtype=np.int32))

    def along(self, reached: np.ndarray, outline: Outline) -> tuple[Self, np.ndarray]:
        """Cut (k,) faces along an outline; also the rows of those pieces that lie inside."""
        if not len(reached):
            return self, np.zeros(0, np.int32)
        pieces, inside = cut_along(self.mesh, self.neighbours, reached, outline)
        if len(pieces.faces) == self.mesh.face_count:
            return self, inside
        mesh = Mesh(pieces.vertices_mm, pieces.faces)
        get_to_know_pieces(mesh, self.mesh, pieces.parents, pieces.neighbours)
        return CutSurface(mesh, pieces.neighbours, self.parents[pieces.parents]), inside

    def marked(self, face_classes: np.ndarray) -> Marked:
        """With a class for each of the pieces, (m',) uint8."""
        mesh = self.mesh
        pieces = Pieces(mesh.vertices_mm, mesh.faces, self.neighbours, self.parents)
        uncut = mesh.face_count == 0 or self.parents[-1] == mesh.face_count - 1
        return Marked(None if uncut else pieces, face_classes)


# Which faces may be crossed, (k,) rows, and whatever else was found on the way.
Question = Callable[[CutSurface], tuple[np.ndarray, object]]


def finer_where(
    surface: CutSurface, ask: Question, finest_mm: float, progress: Progress | None = None
) -> tuple[CutSurface, object]:
    """Cut until the faces that `ask` names have no edge longer than `finest_mm`.

    Returns what `ask` found last, on the surface returned. Raises Cancelled.
    """
    progress = progress or Progress()
    while True:
        progress.check()
        rows, found = ask(surface)
        lengths_mm = longest_edges_mm(surface.mesh, rows)
        longest = lengths_mm.max(initial=0.0)
        if longest <= finest_mm:
            return surface, found
        edge_mm = max(finest_mm, 0.25 * longest)
        cut, _ = surface.along(rows[lengths_mm > edge_mm], everywhere(edge_mm))
        if cut is surface:  # edges that three faces share stay whole
            return surface, found
        surface = cut


def longest_edges_mm(mesh: Mesh, rows: np.ndarray) -> np.ndarray:
    """(k,) longest edge of each of some faces."""
    a, b, c = (mesh.vertices_mm[mesh.faces[rows, k]] for k in range(3))
    squares = [np.einsum("ij,ij->i", side, side) for side in (b - a, c - b, a - c)]
    return np.sqrt(np.maximum.reduce(squares))


def reach_mm(mesh: Mesh, rows: np.ndarray) -> np.ndarray:
    """(k,) how far the corners of some faces lie from their middle at most."""
    corners = mesh.vertices_mm[mesh.faces[rows]]
    away = corners - corners.mean(axis=1, keepdims=True)
    return np.sqrt(np.einsum("ijk,ijk->ij", away, away).max(axis=1, initial=0.0))
