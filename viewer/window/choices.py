"""What the user has chosen in this window and undo does not bring back: stage, lens, tool options.

Widgets write here and read from here; none of them knows another.
"""

from enum import Enum

from PySide6.QtCore import QObject, Signal

from viewer.document.state import State
from viewer.geometry.face_classes import CLASS_A
from viewer.scene.lenses import Lens
from viewer.scene.palettes import PRINT_MATERIAL, Colour
from viewer.window.stages import Stage
from viewer.words import later

LEAST_BRUSH_MM, GREATEST_BRUSH_MM = 0.2, 100.0
BRUSH_STEP = 1.25  # one press of [ or ]: three presses about double the size
# By the name of the action that chooses it.
PICTURE_SIZES = {
    "picture_small": (1280, 800),
    "picture_middle": (1920, 1080),
    "picture_large": (2560, 1440),
}


class Extent(Enum):
    """How far one use of the Mark tool reaches; the value is shown."""

    BRUSH = later("Brush")
    CREASE = later("Up to a crease")
    PATCH = later("Patch")
    BAND = later("Band of heights")
    LASSO = later("Lasso")
    SEEN_HERE = later("Seen from here")
    SEEN_IN_USE = later("Seen in use")
    CHANGE = later("Change marks")


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
    volumes_changed = Signal(bool)
    own_triangles_changed = Signal(bool)
    presenting_changed = Signal(bool)
    comparing_changed = Signal(bool)
    picture_size_changed = Signal(object)
    print_colour_changed = Signal(object)
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
        self.volumes = False
        self.own_triangles = True
        self.presenting = False
        self.comparing = False
        self.picture_px = PICTURE_SIZES["picture_middle"]
        self.print_colour: Colour = PRINT_MATERIAL
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

    def set_volumes(self, shown: bool) -> None:
        """Show or hide what the chosen machine reaches."""
        if shown != self.volumes:
            self.volumes = shown
            self.volumes_changed.emit(shown)

    def set_own_triangles(self, wanted: bool) -> None:
        """Write the file's own triangles, or the finer ones of the marks."""
        if wanted != self.own_triangles:
            self.own_triangles = wanted
            self.own_triangles_changed.emit(wanted)

    def set_presenting(self, on: bool) -> None:
        """Show the scene alone, or the whole window again."""
        if on != self.presenting:
            self.presenting = on
            self.presenting_changed.emit(on)

    def set_comparing(self, on: bool) -> None:
        """Show several poses side by side, or the one again."""
        if on != self.comparing:
            self.comparing = on
            self.comparing_changed.emit(on)

    def set_picture_size(self, size_px: tuple[int, int]) -> None:
        """Width and height of the pictures to come."""
        if size_px != self.picture_px:
            self.picture_px = size_px
            self.picture_size_changed.emit(size_px)

    def set_print_colour(self, colour: Colour) -> None:
        """The colour of the material in the Printed look."""
        if colour != self.print_colour:
            self.print_colour = colour
            self.print_colour_changed.emit(colour)

    def set_handed_over(self, state: State | None) -> None:
        """Remember which state was last written out."""
        self.handed_over = state
        self.handed_over_changed.emit()
