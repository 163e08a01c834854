"""Mark a band: drag from one height on the part to another."""

import numpy as np
from PySide6.QtCore import QObject

from viewer.window.mark_ways import MarkWays
from viewer.window.part_view import PartView
from viewer.window.quantities import number_text
from viewer.window.tools import Pointer, Tool
from viewer.words import say


class BandTool(Tool):
    """Left drag over the part; a press beside it is left to the camera."""

    def __init__(self, view: PartView, ways: MarkWays, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._view, self._scene, self._ways = view, view.scene, ways
        self._start_mm: np.ndarray | None = None
        self._heights_mm = (0.0, 0.0)

    def hover(self, pointer: Pointer) -> None:
        """Say how high the pointer is."""
        place_mm = self._place(pointer)
        if place_mm is None:
            self.hint.emit("")
        else:
            height = number_text(float(place_mm[2]), 1)
            self.hint.emit(
                say(
                    "{height} mm above the platform: drag to where the band shall end",
                    height=height,
                )
            )

    def press(self, pointer: Pointer) -> bool:
        """Begin at the height under the pointer."""
        self._start_mm = self._place(pointer)
        if self._start_mm is None:
            return False
        self._heights_mm = (float(self._start_mm[2]),) * 2
        return True

    def drag(self, pointer: Pointer) -> None:
        """Show the band up to the height under the pointer, also beside the part."""
        if self._start_mm is None:
            return
        place_mm = self._place(pointer)
        if place_mm is None:
            place_mm = self._beside(pointer)
        self._heights_mm = (self._heights_mm[0], float(place_mm[2]))
        self._ways.planner.show(self._ways.band_between(*self._heights_mm))

    def release(self, pointer: Pointer) -> None:
        """Mark the band: one undo step. A click without a drag marks nothing."""
        if self._start_mm is None:
            return
        self._start_mm = None
        low_mm, high_mm = sorted(self._heights_mm)
        self._ways.planner.put_away()
        if high_mm > low_mm:
            self._ways.options.set(band_low_mm=low_mm, band_high_mm=high_mm)
            self._ways.planner.take(self._ways.band_between(low_mm, high_mm))
            self.step_ended.emit()

    def leave(self) -> None:
        """Show nothing."""
        self.cancel()
        self.hint.emit("")

    def cancel(self) -> bool:
        """Give the band up."""
        if self._start_mm is None:
            return False
        self._start_mm = None
        self._ways.planner.put_away()
        return True

    def _place(self, pointer: Pointer) -> np.ndarray | None:
        """The point of the part under the pointer, in the posed frame."""
        hit = self._scene.pick(*self._scene.display_ray(pointer.x_px, pointer.y_px))
        if hit is None:
            return None
        matrix = self._scene.matrix
        return matrix[:3, :3] @ hit[1] + matrix[:3, 3]

    def _beside(self, pointer: Pointer) -> np.ndarray:
        """Where the line of sight meets the upright plane through the start that faces the eye."""
        origin, sight = self._scene.display_ray(pointer.x_px, pointer.y_px)
        facing = np.array([sight[0], sight[1], 0.0])
        if np.linalg.norm(facing) < 1e-3:  # straight from above all heights are one
            return self._start_mm
        along = float(facing @ (self._start_mm - origin)) / float(facing @ sight)
        return origin + along * sight
