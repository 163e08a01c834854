"""Placing a cut with the mouse: drag a side of the box, or its middle; in steps of 0.1 mm."""

from dataclasses import dataclass

import numpy as np
from PySide6.QtCore import QObject

from viewer.document.cutting import CutPlan
from viewer.scene.cut_view import Handle
from viewer.scene.part_scene import PartScene
from viewer.window.cut_planner import CutPlanner
from viewer.window.quantities import number_text
from viewer.window.tools import Pointer, Tool
from viewer.words import say

STEP_MM, COARSE_STEP_MM = 0.1, 1.0
EDGE_ON = 0.15  # |line of sight · normal| below this: a plane is seen from the side


@dataclass
class _Drag:
    handle: Handle
    start: CutPlan
    from_mm: np.ndarray


class BoxTool(Tool):
    """Left drag on a handle; beside the handles the left button stays with the camera."""

    def __init__(
        self, scene: PartScene, planner: CutPlanner, parent: QObject | None = None
    ) -> None:
        super().__init__(parent)
        self._scene, self._planner = scene, planner
        self._drag: _Drag | None = None

    def hover(self, pointer: Pointer) -> None:
        """Show which handle a press would take."""
        cuts = self._scene.cuts
        number = cuts.hit(pointer.x_px, pointer.y_px)
        cuts.highlight(number)
        hint = ""
        if number is not None:
            whole = cuts.handles[number].axis < 0
            hint = (
                say("Drag to move the cut in steps of 0.1 mm, with Ctrl 1 mm")
                if whole
                else say("Drag to move this side in steps of 0.1 mm, with Ctrl 1 mm")
            )
        self.hint.emit(hint)
        self.redraw.emit()

    def leave(self) -> None:
        """Show none."""
        self.cancel()
        self._scene.cuts.highlight(None)
        self.redraw.emit()

    def press(self, pointer: Pointer) -> bool:
        """Take the handle under the pointer."""
        number = self._scene.cuts.hit(pointer.x_px, pointer.y_px)
        if number is None or self._planner.plan is None:
            return False
        handle = self._scene.cuts.handles[number]
        self._drag = _Drag(handle, self._planner.plan, self._under(handle, pointer))
        return True

    def drag(self, pointer: Pointer) -> None:
        """Move the side or the whole with the pointer."""
        if self._drag is None:
            return
        handle, start = self._drag.handle, self._drag.start
        step = COARSE_STEP_MM if pointer.ctrl else STEP_MM
        by_mm = self._under(handle, pointer) - self._drag.from_mm
        if handle.axis < 0:
            by_mm = step * np.round(by_mm / step)
            if start.way == "slab":
                by_mm[:2] = 0.0
            elif start.way == "quarters":
                by_mm[2] = 0.0
            plan = start.moved(by_mm)
            self.hint.emit(_moved_words(by_mm))
        else:
            by = float(start.axes[handle.axis] @ by_mm)
            ends = start.high_mm if handle.high else start.low_mm
            at = step * round((ends[handle.axis] + by) / step)
            plan = start.with_side(handle.axis, handle.high, at)
            size = np.array(plan.high_mm) - plan.low_mm
            length = number_text(float(size[handle.axis]), 1)
            self.hint.emit(say("{length} mm from side to side", length=length))
        self._planner.set_plan(plan)

    def release(self, pointer: Pointer) -> None:
        """The cut lies where it is."""
        self._drag = None
        self.hint.emit("")

    def cancel(self) -> bool:
        """Back to where the drag began."""
        if self._drag is None:
            return False
        start, self._drag = self._drag.start, None
        self._planner.set_plan(start)
        self.hint.emit("")
        return True

    def _under(self, handle: Handle, pointer: Pointer) -> np.ndarray:
        """(3,) the place that the pointer drags the handle to, in the posed frame."""
        origin, direction = self._scene.display_ray(pointer.x_px, pointer.y_px)
        plan = self._planner.plan if self._drag is None else self._drag.start
        if handle.axis >= 0:
            axes = np.eye(3) if plan.way == "slab" else plan.axes
            return _nearest_on_line(handle.at_mm, axes[handle.axis], origin, direction)
        if plan.way == "slab":
            return _nearest_on_line(handle.at_mm, np.eye(3)[2], origin, direction)
        normal = np.array([0.0, 0.0, 1.0]) if plan.way == "quarters" else direction
        if abs(float(normal @ direction)) < EDGE_ON:
            normal = direction
        share = float((handle.at_mm - origin) @ normal) / float(direction @ normal)
        return origin + share * direction


def _nearest_on_line(
    at_mm: np.ndarray, along: np.ndarray, origin_mm: np.ndarray, direction: np.ndarray
) -> np.ndarray:
    """The point of a line that comes nearest to a line of sight (both directions unit vectors)."""
    slope = float(along @ direction)
    apart = at_mm - origin_mm
    spread = max(1.0 - slope * slope, 1e-3)  # seen along the line nothing can be told
    share = (slope * float(direction @ apart) - float(along @ apart)) / spread
    return at_mm + share * along


def _moved_words(by_mm: np.ndarray) -> str:
    told = (number_text(float(each), 1) for each in by_mm)
    x, y, z = told
    return say("Moved by {x}, {y}, {z} mm", x=x, y=y, z=z)
