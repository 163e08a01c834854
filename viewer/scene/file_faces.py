"""The triangles of the file under those that are drawn, where marks have cut them in pieces.

Rays, faults and deviation know the file's triangles; this carries what they say to the pieces.
"""

import numpy as np

from viewer.geometry.known_of_mesh import neighbours_of, shells_to_draw
from viewer.geometry.mesh import Mesh
from viewer.geometry.piece_under import piece_under
from viewer.scene.outward import as_turned, turned_outward


class FileFaces:
    """The file's triangles, wound outward as those that are drawn."""

    def __init__(self, base: Mesh) -> None:
        """At first they are themselves drawn."""
        self._base_face: np.ndarray | None = None
        orientation = shells_to_draw(base).orientation
        self.mesh = turned_outward(base, orientation)
        self.neighbours = as_turned(neighbours_of(base), orientation)

    def recut(self, base_face: np.ndarray | None) -> None:
        """Other pieces are drawn: (m,) triangle each lies on; None: the triangles themselves."""
        self._base_face = base_face

    def on_pieces(self, values: np.ndarray) -> np.ndarray:
        """Values of the file's triangles for each drawn one."""
        return values if self._base_face is None else values[self._base_face]

    def drawn_under(
        self, drawn: Mesh, neighbours: np.ndarray, face: int, point_mm: np.ndarray
    ) -> int:
        """The drawn triangle at a point (3,) of the file's triangle `face`."""
        if self._base_face is None:
            return face
        return piece_under(drawn, neighbours, self._base_face, face, point_mm)
