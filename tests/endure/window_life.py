"""The real program with a hand at its mouse, for the trial `python -m tests.endure window-kills`.

It is started as a user starts it and never told that it will be killed. Each change of the marks,
of which a stroke makes several, is told on the output with a checksum, so that what is found
afterwards can be told apart.
"""

import random
import sys
import time
import zlib
from collections.abc import Callable

from PySide6.QtCore import QPoint, Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from tests.endure.clicks import Waiting
from tests.window.conftest import Answers, Opened
from viewer.app import main
from viewer.document.document import Changed
from viewer.document.state import State
from viewer.window.main_window import MainWindow
from viewer.window.stages import Stage

LOOK_MS, STROKE_MS = 50, 30


def checksum(state: State) -> int:
    """Of all marks and of the triangles they lie on."""
    return zlib.crc32(state.part.mesh.faces, zlib.crc32(state.face_classes))


def tell(*words: object) -> None:
    """One line for the one who kills."""
    print(*words, flush=True)


def paint(seed: int) -> Callable[[Opened], bool]:
    """Stroke after stroke at random places of the part, until killed."""
    rng, heard, told = random.Random(seed), [], [0]

    def changed(state: State, what: Changed) -> None:
        if what & (Changed.CLASSES | Changed.REFINED):  # many to a stroke
            told[0] += 1
            tell("stroke", told[0], checksum(state), time.monotonic())

    def stroke(one: Opened) -> bool:
        window = one.window
        if one.state.part is None or window.busy.busy:
            return True
        if window.choices.stage is not Stage.MARK:
            window.choices.set_stage(Stage.MARK)
        if not window.tools.surface.ready:
            return True
        middle = QPoint(one.canvas.width() // 2, one.canvas.height() // 2)
        far = min(middle.x(), middle.y()) // 2
        ends = [middle + QPoint(rng.randint(-far, far), rng.randint(-far, far)) for _ in range(3)]
        window.choices.set_mark(brush_mm=rng.choice((0.5, 1.0, 3.0)))
        if not heard:
            heard.append(one.document.listen(lambda what: changed(one.state, what)))
        one.drag(ends, Qt.MouseButton.LeftButton)
        return True

    return stroke


def recover() -> Callable[[Opened], bool]:
    """Take the work that is offered, and tell which it is."""
    asked = [False]

    def look(one: Opened) -> bool:
        bar = one.window.recovering.bar
        if not asked[0]:
            if bar.isVisible() and not one.window.busy.busy:
                tell("offered", bar.sentence.text())
                QTest.mouseClick(bar.open, Qt.MouseButton.LeftButton)
                asked[0] = True
            return True
        if bar.isVisible() or one.window.busy.busy or one.state.part is None:
            return True
        tell("found", checksum(one.state))
        one.window.close()
        return False

    return look


def live(what: str, seed: int, words: list[str]) -> int:
    """Start the program with these words and let the hand `what` work it."""
    application = QApplication.instance() or QApplication(["showside"])
    act, every_ms = (paint(seed), STROKE_MS) if what == "paint" else (recover(), LOOK_MS)
    timer = QTimer(application, interval=every_ms)

    def tick() -> None:
        windows = [w for w in QApplication.topLevelWidgets() if isinstance(w, MainWindow)]
        if not windows or not windows[0].isVisible():
            return
        timer.stop()  # a stroke runs the event loop
        windows[0].prompts = Answers()
        if act(Opened(windows[0], windows[0].prompts, Waiting())):
            timer.start()

    timer.timeout.connect(tick)
    timer.start()
    return main(words)


if __name__ == "__main__":
    sys.exit(live(sys.argv[1], int(sys.argv[2]), sys.argv[3:]))
