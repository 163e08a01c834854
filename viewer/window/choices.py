"""What the user has chosen in this window and undo does not bring back: stage, lens, tool options.

Widgets write here and read from here; none of them knows another.
"""

from enum import Enum

from PySide6.QtCore import QObject, Signal

from viewer.document.state import State
from viewer.geometry.face_classes import CLASS_A
from viewer.scene.lenses import Lens
from viewer.window.stages import Stage

LEAST_BRUSH_MM, GREATEST_BRUSH_MM = 0.2, 100.0
BRUSH_STEP = 1.25  # one press of [ or ]: three presses about double the size


class Extent(Enum):
    """How far one use of the Mark tool reaches; the value is shown."""

    BRUSH = "Brush"
    CREASE = "Up to a crease"
    PATCH = "Patch"


class TurnMode(Enum):
    """What the left button does in the Turn stage."""

    RINGS = "rings"
    STAND = "stand"


class Choices(QObject):
    """The present choices; every setter tells of a change exactly once."""

    stage_changed = Signal(object)
    lens_changed = Signal(object)
    mark_changed = Signal()
    turn_mode_changed = Signal(object)
    supports_changed = Signal(bool)
    strip_changed = Signal(bool)
    handed_over_changed = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.stage = Stage.CHECK
        self.lens = Lens.CLASSES
        self.extent = Extent.BRUSH
        self.face_class = CLASS_A
        self.brush_mm = 5.0
        self.crease_deg = 30.0
        self.turn_mode = TurnMode.RINGS
        self.supports = True
        self.strip = True
        self.handed_over: State | None = None

    def set_stage(self, stage: Stage) -> None:
        """Go to a stage."""
        if stage is not self.stage:
            self.stage = stage
            self.stage_changed.emit(stage)

    def set_lens(self, lens: Lens) -> None:
        """Look through another lens."""
        if lens is not self.lens:
            self.lens = lens
            self.lens_changed.emit(lens)

    def set_look(self, lens: Lens, supports: bool) -> None:
        """Change lens and supports together, so that whoever remembers them sees both."""
        lens_before, supports_before = self.lens, self.supports
        self.lens, self.supports = lens, supports
        if lens is not lens_before:
            self.lens_changed.emit(lens)
        if supports != supports_before:
            self.supports_changed.emit(supports)

    def set_mark(
        self,
        *,
        extent: Extent | None = None,
        face_class: int | None = None,
        brush_mm: float | None = None,
        crease_deg: float | None = None,
    ) -> None:
        """Change some options of the Mark tool; sizes are kept within their limits."""
        before = (self.extent, self.face_class, self.brush_mm, self.crease_deg)
        if extent is not None:
            self.extent = extent
        if face_class is not None:
            self.face_class = face_class
        if brush_mm is not None:
            self.brush_mm = min(max(brush_mm, LEAST_BRUSH_MM), GREATEST_BRUSH_MM)
        if crease_deg is not None:
            self.crease_deg = min(max(crease_deg, 1.0), 179.0)
        if before != (self.extent, self.face_class, self.brush_mm, self.crease_deg):
            self.mark_changed.emit()

    def grow_brush(self) -> None:
        """One step larger."""
        self.set_mark(brush_mm=self.brush_mm * BRUSH_STEP)

    def shrink_brush(self) -> None:
        """One step smaller."""
        self.set_mark(brush_mm=self.brush_mm / BRUSH_STEP)

    def set_turn_mode(self, mode: TurnMode) -> None:
        """Turn with the rings, or stand the part on a face."""
        if mode is not self.turn_mode:
            self.turn_mode = mode
            self.turn_mode_changed.emit(mode)

    def set_supports(self, shown: bool) -> None:
        """Show or hide the support columns."""
        if shown != self.supports:
            self.supports = shown
            self.supports_changed.emit(shown)

    def set_strip(self, shown: bool) -> None:
        """Show or hide the height strip."""
        if shown != self.strip:
            self.strip = shown
            self.strip_changed.emit(shown)

    def set_handed_over(self, state: State | None) -> None:
        """Remember which state was last written out."""
        self.handed_over = state
        self.handed_over_changed.emit()
