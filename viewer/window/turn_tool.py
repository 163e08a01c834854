"""Turning the part with three rings: 1° steps, 15° with Ctrl; one drag is one undo step."""

from dataclasses import dataclass
from typing import Protocol

import numpy as np
from PySide6.QtCore import QObject

from viewer.document.document import Document
from viewer.geometry.pose import Pose
from viewer.window.tools import Pointer, Tool
from viewer.window.turn_angles import turned
from viewer.words import say

STEP_DEG, COARSE_STEP_DEG = 1.0, 15.0
EDGE_ON = 0.15  # |ray · axis| below this: the ring is seen from the side


class RingScene(Protocol):
    """What the tool needs of the scene."""

    def hit_ring(self, x_px: float, y_px: float) -> int | None:
        """Axis of the ring under the pointer."""

    def highlight_ring(self, axis: int | None) -> None:
        """Draw one ring stronger, or none."""

    def display_ray(self, x_px: float, y_px: float) -> tuple[np.ndarray, np.ndarray]:
        """Origin and unit direction of the line of sight, in the posed frame."""

    def ring_centre_mm(self) -> np.ndarray:
        """(3,) middle of the rings, in the posed frame."""


@dataclass
class _Drag:
    axis: int
    start: Pose
    centre_mm: np.ndarray
    last_deg: float
    total_deg: float = 0.0
    shown_deg: float = 0.0


class TurnTool(Tool):
    """Left drag on a ring turns the part about that axis of the platform."""

    def __init__(self, scene: RingScene, document: Document, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._scene, self._document = scene, document
        self._drag: _Drag | None = None

    def hover(self, pointer: Pointer) -> None:
        """Show which ring a press would take."""
        axis = self._scene.hit_ring(pointer.x_px, pointer.y_px)
        self._scene.highlight_ring(axis)
        self.hint.emit(
            ""
            if axis is None
            else say("Drag to turn about {value} in 1° steps, with Ctrl 15°", value="XYZ"[axis])
        )
        self.redraw.emit()

    def leave(self) -> None:
        """Highlight nothing."""
        self.cancel()
        self._scene.highlight_ring(None)
        self.redraw.emit()

    def press(self, pointer: Pointer) -> bool:
        """Take the ring under the pointer."""
        axis = self._scene.hit_ring(pointer.x_px, pointer.y_px)
        if axis is None:
            return False
        centre = np.asarray(self._scene.ring_centre_mm(), float)
        self._drag = _Drag(
            axis, self._document.state.pose, centre, self._angle_deg(axis, centre, pointer)
        )
        self._scene.highlight_ring(axis)
        self._document.begin_gesture(say("Turn the part"))
        return True

    def drag(self, pointer: Pointer) -> None:
        """Turn by whole steps from where the drag began."""
        drag = self._drag
        if drag is None:
            return
        now_deg = self._angle_deg(drag.axis, drag.centre_mm, pointer)
        drag.total_deg += (now_deg - drag.last_deg + 180.0) % 360.0 - 180.0
        drag.last_deg = now_deg
        step = COARSE_STEP_DEG if pointer.ctrl else STEP_DEG
        snapped = step * round(drag.total_deg / step)
        if snapped == drag.shown_deg:
            return
        drag.shown_deg = snapped
        self._document.turn(turned(drag.start, drag.axis, snapped))
        self.hint.emit(
            say(
                "Turned {snapped:+.0f}° about {value}", snapped=snapped, value="XYZ"[drag.axis]
            ).replace("-", "−")
        )

    def release(self, pointer: Pointer) -> None:
        """Finish the undo step."""
        if self._drag is not None:
            self._drag = None
            self._document.end_gesture()
            self.step_ended.emit()
            self.hint.emit("")

    def cancel(self) -> bool:
        """Back to where the drag began."""
        if self._drag is None:
            return False
        self._drag = None
        self._document.cancel_gesture()
        self.step_ended.emit()
        self.hint.emit("")
        return True

    def _angle_deg(self, axis: int, centre_mm: np.ndarray, pointer: Pointer) -> float:
        """Angle of the pointer round the axis, where the line of sight meets the ring's plane.

        Seen from the side the plane is met far away or nowhere; then the pointer is taken to lie on
        the near half of the ring, as if a wheel were turned by its rim.
        """
        origin, direction = (
            np.asarray(v, float) for v in self._scene.display_ray(pointer.x_px, pointer.y_px)
        )
        slope = float(direction[axis])
        if abs(slope) >= EDGE_ON:
            point = origin + direction * ((centre_mm[axis] - origin[axis]) / slope)
        else:
            point = origin + direction * float((centre_mm - origin) @ direction)
            point[axis] = centre_mm[axis]
            radius, reach = self._radius_mm(), np.linalg.norm(point - centre_mm)
            toward_eye = -direction
            toward_eye[axis] = 0.0
            depth = np.sqrt(max(radius**2 - reach**2, 0.0))
            point = point + toward_eye * (depth / np.linalg.norm(toward_eye))
        offset = point - centre_mm
        return float(np.degrees(np.arctan2(offset[(axis + 2) % 3], offset[(axis + 1) % 3])))

    def _radius_mm(self) -> float:
        """About the radius of the rings: half the diagonal of the part's box."""
        part = self._document.state.part
        return 0.5 * float(np.linalg.norm(np.ptp(part.mesh.box_mm, axis=0)))
