"""Let Python look for garbage on the window's thread only.

By itself it looks on whichever thread asks for memory. A dialog or a timer in a circle of
references would then be deleted on a worker's thread while Qt still runs its timer on this one,
which ends the program the next time that timer is due.
"""

import gc
import time

from PySide6.QtCore import QObject, QTimer

LOOK_EVERY_MS = 500
ALL_EVERY_S = 60.0  # looking through everything takes a tenth of a second and more


class GarbageHere(QObject):
    """From its making until `close`, garbage is collected by a timer of this thread.

    What is alive when it is made counts as lasting and is not looked at again.
    """

    def __init__(self) -> None:
        super().__init__()
        gc.disable()
        gc.freeze()
        self._all_s = time.monotonic()
        self._look = QTimer(self, interval=LOOK_EVERY_MS)
        self._look.timeout.connect(self._collect)
        self._look.start()

    def close(self) -> None:
        """Leave it to Python again."""
        self._look.stop()
        gc.unfreeze()
        gc.enable()

    def _collect(self) -> None:
        young, older, _ = (
            count > most for count, most in zip(gc.get_count(), gc.get_threshold(), strict=True)
        )
        if older and time.monotonic() - self._all_s > ALL_EVERY_S:
            gc.collect()
            self._all_s = time.monotonic()
        elif older or young:
            gc.collect(1 if older else 0)
