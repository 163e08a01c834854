"""What every tool of the left button offers, and what it is told about the pointer."""

from dataclasses import dataclass

from PySide6.QtCore import QObject, Signal


@dataclass(frozen=True)
class Pointer:
    """Where the pointer is, in device pixels from the lower left, and which keys are held."""

    x_px: float
    y_px: float
    ctrl: bool = False
    shift: bool = False


class Tool(QObject):
    """A tool that does nothing; the others replace what they need.

    redraw : the scene changed and is to be drawn again
    hint : what the tool is doing, for the status bar; "" to say nothing
    step_ended : a drag is over, so undo has a step more (or, cancelled, none)
    """

    redraw = Signal()
    hint = Signal(str)
    step_ended = Signal()

    def press(self, pointer: Pointer) -> bool:
        """Left button down; False leaves the drag to the camera."""
        return False

    def drag(self, pointer: Pointer) -> None:
        """Moved with the left button down, after a `press` that returned True."""

    def release(self, pointer: Pointer) -> None:
        """Left button up."""

    def hover(self, pointer: Pointer) -> None:
        """Moved with no button down."""

    def leave(self) -> None:
        """The pointer left the scene, or the tool is put away: hide everything it showed."""

    def cancel(self) -> bool:
        """Escape: take back the drag under way; True if there was one."""
        return False
