"""The one Mark tool: a brush over the surface, or a fill of a region; one stroke, one step.

While the brush is dragged only a preview grows over the part. When the button is released, faces
under the rim of the stroke are cut in pieces, so that the mark is as round as the brush.
"""

import numpy as np
from PySide6.QtCore import QObject

from viewer.document.document import Document
from viewer.geometry.brush_stroke import BrushStroke
from viewer.geometry.face_classes import CLASS_A, CLASS_B, UNMARKED
from viewer.geometry.fine_marks import mark_preview
from viewer.geometry.outlines import sweep_outline
from viewer.geometry.refined_classes import paint_stroke
from viewer.window.choices import Choices, Extent
from viewer.window.marking_surface import MarkingSurface
from viewer.window.quantities import count_text, number_text
from viewer.window.tools import Pointer, Tool
from viewer.words import later, say

CLASS_NAMES = {CLASS_A: later("class A"), CLASS_B: later("class B"), UNMARKED: later("unmarked")}
SMOOTH_DEG = 10.0  # a patch of a mesh ends at edges sharper than this, as smooth runs do
SAMPLE_PX = 6.0  # a stroke is looked at every so many pixels, however fast the mouse moves
Hit = tuple[int, np.ndarray]


class MarkTool(Tool):
    """Left drag paints with the brush; left click fills up to creases, or a whole patch."""

    def __init__(
        self,
        scene: object,
        document: Document,
        choices: Choices,
        surface: MarkingSurface,
        parent: QObject | None = None,
    ) -> None:
        super().__init__(parent)
        self._scene, self._document = scene, document
        self._choices, self._surface = choices, surface
        self._last: Pointer | None = None
        self._class = UNMARKED
        self._stroke: BrushStroke | None = None
        self._pointer: Pointer | None = None
        self._preview_key: tuple | None = None
        self._preview: np.ndarray | None = None
        self._shown: np.ndarray | None = None
        choices.mark_changed.connect(self._options_changed)

    # --- hovering
    def hover(self, pointer: Pointer) -> None:
        """Show the brush at its true size, or the faces that a click would mark."""
        self._pointer = pointer
        hit = self._hit(pointer)
        if hit is None or not self._surface.ready:
            self._show_nothing()
            self.hint.emit("" if self._surface.ready else say("Looking at the surface …"))
        elif self._choices.extent is Extent.BRUSH:
            self._show_ring(hit)
            self.hint.emit(
                say(
                    "Brush radius {brush_mm} mm: drag to mark as {class_names}; [ and ] "
                    "change the size",
                    brush_mm=number_text(self._choices.brush_mm),
                    class_names=say(CLASS_NAMES[self._choices.face_class]),
                )
            )
        else:
            self._show_fill(hit)
        self.redraw.emit()

    def _options_changed(self) -> None:
        if self._pointer is not None and self._last is None:
            self.hover(self._pointer)

    def _show_ring(self, hit: Hit) -> None:
        face, point = hit
        self._scene.show_brush_ring(point, self._surface.normal(face), self._choices.brush_mm)

    def _show_fill(self, hit: Hit) -> None:
        self._scene.hide_brush_ring()
        faces = self._fill(hit[0])
        if faces is not self._shown:
            self._shown = faces
            self._scene.preview_faces(faces)
        self.hint.emit(
            say(
                "A click marks {count} as {class_names}",
                count=count_text(len(faces), "face"),
                class_names=say(CLASS_NAMES[self._choices.face_class]),
            )
        )

    def _fill(self, face: int) -> np.ndarray:
        """The fill from a face; hovering within the same fill does not work it out again."""
        part, extent = self._document.state.part, self._choices.extent
        key = (id(part), extent, self._choices.crease_deg)
        if key == self._preview_key and self._preview is not None:
            place = np.searchsorted(self._preview, face)
            if place < len(self._preview) and self._preview[place] == face:
                return self._preview
        self._preview_key = key
        if extent is Extent.CREASE:
            self._preview = self._surface.fill(face, self._choices.crease_deg)
        elif part.patch_of_face is None:
            self._preview = self._surface.fill(face, SMOOTH_DEG)
        else:
            self._preview = np.flatnonzero(part.patch_of_face == part.patch_of_face[face])
        return self._preview

    def _show_nothing(self) -> None:
        self._scene.hide_brush_ring()
        self._hide_preview()

    def _hide_preview(self) -> None:
        self._shown = None
        self._scene.preview_faces(None)

    def leave(self) -> None:
        """Hide ring and preview."""
        self.cancel()
        self._pointer = None
        self._show_nothing()
        self.redraw.emit()

    # --- the left button
    def press(self, pointer: Pointer) -> bool:
        """Begin a stroke on the part; a press beside it is left to the camera."""
        hit = self._hit(pointer)
        if hit is None or not self._surface.ready:
            return False
        name = say(CLASS_NAMES[self._choices.face_class])
        if self._choices.extent is not Extent.BRUSH:
            faces = self._fill(hit[0])
            self._hide_preview()
            self._document.mark(faces, self._choices.face_class, say("Fill as {name}", name=name))
            return True
        self._document.begin_gesture(
            say("Erase marks")
            if self._choices.face_class == UNMARKED
            else say("Paint {name}", name=name)
        )
        self._last, self._class = pointer, self._choices.face_class
        self._stroke = self._surface.stroke(self._choices.brush_mm)
        self._extend(hit)
        self._show_stroke(hit)
        return True

    def drag(self, pointer: Pointer) -> None:
        """Paint along the line from the last place to this one, without gaps."""
        if self._last is None:
            return
        steps = max(1, round(_distance_px(self._last, pointer) / SAMPLE_PX))
        hit = None
        for step in range(1, steps + 1):
            hit = self._hit(_between(self._last, pointer, step / steps))
            if hit is None:  # off the part: the next hit starts a strand of its own
                self._stroke.lift()
            else:
                self._extend(hit)
        self._last = pointer
        self._show_stroke(hit)

    def release(self, pointer: Pointer) -> None:
        """Finish the stroke: faces under its rim are cut, and it becomes one undo step."""
        if self._last is None:
            return
        stroke, state = self._stroke, self._document.state
        self._put_down()
        if state.part is not None and state.part.mesh is stroke.mesh:
            pieces, classes = paint_stroke(stroke, state.face_classes, self._class)
            self._document.mark_finely(pieces, classes, say("Paint"))
        self._document.end_gesture()
        self.step_ended.emit()
        self.hover(pointer)

    def cancel(self) -> bool:
        """Take back the stroke under way."""
        if self._last is None:
            return False
        self._put_down()
        self._document.cancel_gesture()
        self.step_ended.emit()
        self.redraw.emit()
        return True

    def _put_down(self) -> None:
        """The stroke is over, and so is its preview."""
        self._last = self._stroke = None
        self._scene.end_stroke_preview()

    def _extend(self, hit: Hit) -> None:
        """Draw the stroke on to a point, and lay what it reaches there over the part."""
        stroke = self._stroke
        whole, crossed = stroke.add(*hit)
        mesh = stroke.mesh
        outline = sweep_outline(stroke.sweeps_mm[-1][None], stroke.radius_mm)
        rim_mm = mark_preview(mesh, crossed, outline)
        self._scene.preview_stroke(mesh, whole, rim_mm, self._class)

    def _show_stroke(self, hit: Hit | None) -> None:
        if hit is not None:
            self._show_ring(hit)
        self.redraw.emit()

    def _hit(self, pointer: Pointer) -> Hit | None:
        origin, direction = self._scene.display_ray(pointer.x_px, pointer.y_px)
        return self._scene.pick(origin, direction)


def _distance_px(one: Pointer, other: Pointer) -> float:
    return float(np.hypot(one.x_px - other.x_px, one.y_px - other.y_px))


def _between(start: Pointer, end: Pointer, share: float) -> Pointer:
    return Pointer(
        start.x_px + share * (end.x_px - start.x_px),
        start.y_px + share * (end.y_px - start.y_px),
        end.ctrl,
        end.shift,
    )
