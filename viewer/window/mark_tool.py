"""The one Mark tool: a brush over the surface, or a fill of a region; one stroke, one step."""

import numpy as np
from PySide6.QtCore import QObject

from viewer.document.document import Document
from viewer.geometry.face_classes import CLASS_A, CLASS_B, UNMARKED
from viewer.window.choices import Choices, Extent
from viewer.window.marking_surface import MarkingSurface
from viewer.window.quantities import count_text, number_text
from viewer.window.tools import Pointer, Tool

CLASS_NAMES = {CLASS_A: "class A", CLASS_B: "class B", UNMARKED: "unmarked"}
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
        self._last_hit: Hit | None = None
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
            self.hint.emit("" if self._surface.ready else "Looking at the surface …")
        elif self._choices.extent is Extent.BRUSH:
            self._show_ring(hit)
            self.hint.emit(
                f"Brush radius {number_text(self._choices.brush_mm)} mm: drag to mark as "
                f"{CLASS_NAMES[self._choices.face_class]}; [ and ] change the size"
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
            f"A click marks {count_text(len(faces), 'face')} as "
            f"{CLASS_NAMES[self._choices.face_class]}"
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
        name = CLASS_NAMES[self._choices.face_class]
        if self._choices.extent is not Extent.BRUSH:
            faces = self._fill(hit[0])
            self._hide_preview()
            self._document.mark(faces, self._choices.face_class, f"Fill as {name}")
            return True
        self._document.begin_gesture(
            "Erase marks" if self._choices.face_class == UNMARKED else f"Paint {name}"
        )
        self._last, self._last_hit = pointer, None
        self._paint([hit])
        return True

    def drag(self, pointer: Pointer) -> None:
        """Paint along the line from the last place to this one, without gaps."""
        if self._last is None:
            return
        steps = max(1, round(_distance_px(self._last, pointer) / SAMPLE_PX))
        strand: list[Hit] = []
        for step in range(1, steps + 1):
            hit = self._hit(_between(self._last, pointer, step / steps))
            if hit is None:  # off the part: the next hit starts a strand of its own
                self._paint(strand)
                strand, self._last_hit = [], None
            else:
                strand.append(hit)
        self._last = pointer
        self._paint(strand)

    def release(self, pointer: Pointer) -> None:
        """Finish the stroke: one undo step."""
        if self._last is not None:
            self._last = self._last_hit = None
            self._document.end_gesture()
            self.step_ended.emit()

    def cancel(self) -> bool:
        """Take back the stroke under way."""
        if self._last is None:
            return False
        self._last = self._last_hit = None
        self._document.cancel_gesture()
        self.step_ended.emit()
        return True

    def _paint(self, strand: list[Hit]) -> None:
        if not strand:
            return
        hits = strand if self._last_hit is None else [self._last_hit, *strand]
        self._last_hit = strand[-1]
        faces = self._surface.stroke(hits, self._choices.brush_mm)
        self._document.mark(faces, self._choices.face_class)
        self._show_ring(strand[-1])
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
