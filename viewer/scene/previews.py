"""What is drawn beside the part for a search: a ghost in another pose, and a globe."""

import numpy as np

from viewer.scene.ghost_view import GhostView
from viewer.scene.globe_view import GlobeView
from viewer.scene.part_actor import PartActor


class Previews:
    """The part of `PartScene` that the direction search talks to; the scene owns what is named."""

    _part: PartActor | None
    _ghost: GhostView
    _globe: GlobeView

    def show_ghost(self, matrix: np.ndarray | None) -> None:
        """Show how the part would lie with another (4, 4) pose, as glass; None for none."""
        if matrix is None or self._part is None:
            self._ghost.hide()
            return
        centred = np.array(matrix, float)
        centred[:3, 3] += centred[:3, :3] @ self._part.centre_mm
        self._ghost.show(self._part.bare_shape, centred)

    @property
    def ghost_shown(self) -> bool:
        """Whether another pose is shown as glass."""
        return self._ghost.shown

    def show_globe(self, colours: np.ndarray | None) -> None:
        """Show the usual spread in (d, 3) uint8 colours round the part; None for no globe."""
        self._globe.show(None if self._part is None else colours)

    @property
    def globe_shown(self) -> bool:
        """Whether the globe is shown."""
        return self._globe.shown
