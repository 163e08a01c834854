"""What the user has set for the ways to mark; undo does not bring it back."""

from dataclasses import dataclass, replace

from PySide6.QtCore import QObject, Signal

AS_IT_LIES = None  # the axis about which the part is seen all round: the build direction


@dataclass(frozen=True)
class WaySettings:
    """One set of options.

    band_low_mm, band_high_mm : over the platform, in the present pose
    lasso_through : whether a lasso takes what the part itself hides, too
    width_mm : by which marks grow and shrink, and to which their border is smoothed
    mirror_axis, mirror_from_greater : 0 x, 1 y, 2 z of the file, and which side is the model
    ring_lift_deg, ring_count, ring_distance_mm : viewpoints for what is seen in use
    ring_axis : 0 x, 1 y, 2 z of the file points up in use, or AS_IT_LIES
    """

    band_low_mm: float = 0.0
    band_high_mm: float = 10.0
    lasso_through: bool = False
    width_mm: float = 2.0
    mirror_axis: int = 0
    mirror_from_greater: bool = True
    ring_lift_deg: float = 30.0
    ring_count: int = 12
    ring_distance_mm: float = 500.0
    ring_axis: int | None = AS_IT_LIES


class WayOptions(QObject):
    """Holds the present settings; `changed` tells of each change once."""

    changed = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.now = WaySettings()

    def set(self, **changes: object) -> None:
        """Change some of them."""
        before, self.now = self.now, replace(self.now, **changes)
        if self.now != before:
            self.changed.emit()
