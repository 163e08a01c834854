"""Standing the part on a face: hover outlines the face of the hull, a click lays it down."""

from collections.abc import Callable

import numpy as np
from PySide6.QtCore import QObject

from viewer.document.document import Document
from viewer.geometry.hull_faces import HullFace
from viewer.window.quantities import number_text
from viewer.window.tools import Pointer, Tool
from viewer.window.turn_angles import standing_on
from viewer.words import say


class StandTool(Tool):
    """Left click lays the outlined face on the platform."""

    def __init__(
        self,
        scene: object,
        document: Document,
        face_under: Callable[[np.ndarray, np.ndarray], HullFace | None],
        parent: QObject | None = None,
    ) -> None:
        """`face_under(origin, direction)` tells the hull face a line of sight meets first."""
        super().__init__(parent)
        self._scene, self._document, self._face_under = scene, document, face_under

    def hover(self, pointer: Pointer) -> None:
        """Outline the face that a click would lay down."""
        face = self._face_at(pointer)
        self._scene.show_hull_face(None if face is None else face.polygon_mm)
        self.hint.emit("" if face is None else _hint(face))
        self.redraw.emit()

    def leave(self) -> None:
        """Outline nothing."""
        self._scene.show_hull_face(None)
        self.redraw.emit()

    def press(self, pointer: Pointer) -> bool:
        """Lay the face down."""
        face = self._face_at(pointer)
        if face is None:
            return False
        self._document.turn(
            standing_on(self._document.state.pose, face.normal), say("Stand on a face")
        )
        self._scene.show_hull_face(None)
        self.redraw.emit()
        return True

    def _face_at(self, pointer: Pointer) -> HullFace | None:
        origin, direction = self._scene.display_ray(pointer.x_px, pointer.y_px)
        return self._face_under(np.asarray(origin), np.asarray(direction))


def _hint(face: HullFace) -> str:
    area = number_text(face.area_mm2)
    if face.stable:
        return say("Click to stand the part on this face ({area} mm²)", area=area)
    return say(
        "Click to stand the part on this face ({area} mm²); without supports it tips over",
        area=area,
    )
