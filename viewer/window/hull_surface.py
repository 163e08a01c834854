"""The flat faces of the part's convex hull, worked out once the part is to stand on one."""

from PySide6.QtCore import QObject, Signal


class HullSurface(QObject):
    """Answers which hull face a line of sight meets; `became_ready` once it can."""

    became_ready = Signal()

    def __init__(self, document, signals, jobs) -> None:
        super().__init__()

    def prepare(self):
        pass

    def close(self):
        pass

    def face_under(self, origin, direction):
        return None
