"""Tired clicks: thousands of random actions in the real window, the same ones for the same seed.

All tools, all menus, buttons, fields, keys, undo, opening and cancelling, sizes, themes and
languages. Afterwards: no exception and no word of Qt's about a mistake, no moment longer than a
second in which the window answered nobody, undo of everything is back at the start, and memory is
what it was.
"""

import gc
import logging
import random
import sys
import time
import traceback
from collections import deque
from functools import partial
from pathlib import Path

import numpy as np
from PySide6.QtCore import (
    QObject,
    QPoint,
    QPointF,
    QSettings,
    Qt,
    QThreadPool,
    QtMsgType,
    QUrl,
    Slot,
    qInstallMessageHandler,
)
from PySide6.QtGui import QDesktopServices, QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractSpinBox,
    QApplication,
    QComboBox,
    QDialog,
    QSlider,
)

from tests.endure.watch import MOST_FROZEN_S, Stopwatch, Trial
from tests.shapes import c_bracket, torus
from tests.window.conftest import Answers, Opened, let_go
from viewer.document.document import Document, what_changed
from viewer.document.state import Part, State
from viewer.files.job_file import write_job
from viewer.files.mesh_files import write_posed
from viewer.live.garbage_here import GarbageHere
from viewer.live.jobs import Jobs
from viewer.live.live_check import LiveCheck
from viewer.live.live_measures import LiveMeasures
from viewer.window.language import speak_as_chosen
from viewer.window.main_window import MainWindow
from viewer.window.prompts import Unsaved

MOST_GROWTH = 1.10
ACTIONS_A_WINDOW = 100
WAIT_S = 120.0

# Left out: what ends the window (done on purpose below) and parts of 300,000 facets, which the
# trial would spend its time on. Long jobs are begun and cancelled by others.
LEFT_OUT = {"quit", "demo", "faulty_demo", "save_turntable"}
KEYS = ("Esc", "Tab", "Return", "Space", "Left", "Right", "Up", "Down", "[", "]", "A", "B", "X",
        "Z", "P", "Delete", "PageUp")  # fmt: skip


class Waiting:
    """The one thing of pytest-qt that `Opened` asks for."""

    def waitUntil(self, reached, timeout: int) -> None:
        """Go on once `reached()` is neither False nor an AssertionError."""
        ends_s = time.monotonic() + timeout / 1000
        while True:
            try:
                if reached() is not False:
                    return
            except AssertionError:
                if time.monotonic() > ends_s:
                    raise
            assert time.monotonic() < ends_s, "waited in vain"
            QApplication.processEvents()
            time.sleep(0.005)


class _OtherPrograms(QObject):
    """Takes the addresses and folders that the program would give to others to open."""

    KINDS = ("file", "https", "http")

    def __init__(self) -> None:
        super().__init__()
        for kind in self.KINDS:
            QDesktopServices.setUrlHandler(kind, self, "take")

    @Slot(QUrl)
    def take(self, address: QUrl) -> None:
        """Open nothing."""

    def close(self) -> None:
        for kind in self.KINDS:
            QDesktopServices.unsetUrlHandler(kind)


class _Listener(logging.Handler):
    def __init__(self, trial: Trial) -> None:
        super().__init__(logging.ERROR)
        self._trial = trial

    def emit(self, record: logging.LogRecord) -> None:
        self._trial.problems.append(self.format(record))


class Clicker:
    """One random hand at one window after another."""

    def __init__(self, folder: Path, seed: int, trial: Trial, screen_process: int) -> None:
        self.rng, self.trial, self.folder = random.Random(seed), trial, folder
        self.watch = Stopwatch(trial, screen_process)
        self.files = made_files(folder)
        self.start = State()
        self.one: Opened | None = None
        self._what = "opening"
        self.lately: deque[str] = deque(maxlen=12)

    # --- windows
    def open_window(self) -> None:
        speak_as_chosen(QApplication.instance())
        document, jobs = Document(), Jobs()
        measures, check = LiveMeasures(document, jobs), LiveCheck(document, jobs)
        window = MainWindow(document, jobs, measures, check)
        window.prompts = Answers()
        window.show()
        QTest.qWaitForWindowExposed(window, 60_000)
        self.one = Opened(window, window.prompts, Waiting())
        document.open = partial(self._start_anew, document.open)  # by whichever way it is opened
        self.open_file(self.files[0])

    def _start_anew(self, opened, state: State, *rest, **named) -> None:
        self.start = state
        opened(state, *rest, **named)

    def close_window(self) -> None:
        """Close it with whatever is under way, and let go of it."""
        self.undo_everything()
        window, self.one = self.one.window, None
        window.prompts.unsaved = Unsaved.DISCARD
        window.close()
        del window
        for other in QApplication.topLevelWidgets():
            if isinstance(other, QDialog):
                other.close()
        self.start = State()
        let_go()
        assert not QApplication.topLevelWidgets(), QApplication.topLevelWidgets()
        assert QThreadPool.globalInstance().activeThreadCount() == 0

    # --- files
    def open_file(self, path: Path) -> None:
        """Open a file and wait until it is there, or was refused."""
        self.one.window.files.open_file(path)
        self.wait_for_it(path)

    def wait_for_it(self, path: Path) -> None:
        """Wait until no file is being read any more."""
        window, ends_s = self.one.window, time.monotonic() + WAIT_S
        while window.busy.busy:
            QApplication.processEvents()
            time.sleep(0.005)
            if time.monotonic() > ends_s:
                waiting = [job for job in window.jobs._jobs if job.running]
                raise AssertionError(
                    f"{path.name} is not open after {WAIT_S:.0f} s: {window.busy._doing.text()}; "
                    f"{len(waiting)} other jobs: {[str(job._function)[:90] for job in waiting]}; "
                    f"busy with {window.busy._job}, {window.busy._job.running}"
                )

    def undo_everything(self) -> None:
        """Undo all there is: the document is what it was when it was opened."""
        window, document = self.one.window, self.one.document
        window.tools.cancel()
        document.cancel_gesture()
        window.busy.cancel()  # what would change the document later
        while document.undo_label:
            self.watch.take("undo", document.undo)
            self.trial.undone += 1
        now = document.state
        if now.part is not self.start.part:
            pairs = [(getattr(now.part, k), getattr(self.start.part, k)) for k in ("mesh", "base")]
            for mine, theirs in pairs:
                assert (mine is None) == (theirs is None), "undo came to another part"
                assert mine is None or np.array_equal(mine.vertices_mm, theirs.vertices_mm), "moved"
                assert mine is None or np.array_equal(mine.faces, theirs.faces), "undo left faces"
            assert now.part.unit == self.start.part.unit, "undo left another unit"
        assert np.array_equal(now.face_classes, self.start.face_classes), "undo left marks"
        rest = now.with_(part=self.start.part, face_classes=self.start.face_classes)
        assert not what_changed(self.start, rest), what_changed(self.start, rest)

    # --- one action
    def act(self) -> None:
        """Something, and then what Qt does about it."""
        ways = (
            (self.menu_action, 34), (self.drag, 16), (self.press_button, 14), (self.key, 10),
            (self.wheel, 5), (self.field, 6), (self.undo_or_redo, 6), (self.resize, 3),
            (self.another_file, 3), (self.a_bad_file, 1), (self.save, 2), (self.cancel, 2),
        )  # fmt: skip
        way = self.rng.choices([way for way, _ in ways], [weight for _, weight in ways])[0]
        self._what = way.__name__
        self.lately.append(self._what)
        way()
        self.lately[-1] = self._what
        self.trial.done[way.__name__] += 1
        for _ in range(self.rng.choice((1, 1, 2, 5))):
            self.watch.take(f"events after {self._what}", QApplication.processEvents)
        for dialog in QApplication.topLevelWidgets():
            if isinstance(dialog, QDialog) and dialog.isVisible() and self.rng.random() < 0.4:
                dialog.close()
        problem = self.one.window.notice.sentence
        if "inside Showside" in problem:
            self.trial.problems.append(f"after {self._what}: {problem}")
            self.one.window.notice.hide()

    def menu_action(self) -> None:
        actions = self.one.window.actions.by_key
        keys = sorted(key for key, action in actions.items() if action.isEnabled())
        key = self.rng.choice([key for key in keys if key not in LEFT_OUT])
        self._what = f"action {key}"
        if key in ("open", "open_newer", "save", "save_as") or key.startswith("export"):
            return self.save() if key != "open" else self.another_file()
        if key.startswith("save_pic"):
            self.one.answers.path = self.folder / "picture.png"
        self.watch.take(self._what, actions[key].trigger)

    def drag(self) -> None:
        canvas, rng = self.one.canvas, self.rng
        wide, high = canvas.width(), canvas.height()
        places = [QPoint(rng.randrange(wide), rng.randrange(high))]
        if rng.random() < 0.6:  # where the part is
            places = [
                QPoint(wide // 2 + rng.randrange(-60, 60), high // 2 + rng.randrange(-60, 60))
            ]
        for _ in range(rng.choice((0, 1, 3, 8))):
            step = QPoint(rng.randrange(-40, 40), rng.randrange(-40, 40))
            places.append(places[-1] + step)
        buttons = Qt.MouseButton
        button = rng.choice((buttons.LeftButton,) * 4 + (buttons.RightButton, buttons.MiddleButton))
        held = rng.choice((None, None, None, Qt.KeyboardModifier.ControlModifier))
        self._what = f"drag over {len(places)} places"
        held = held or Qt.KeyboardModifier.NoModifier
        steps = [
            partial(self.one.move, places[0]),
            partial(QTest.mousePress, canvas, button, held, places[0]),
            *(partial(self.one.move, place, button, held) for place in places[1:]),
            partial(QTest.mouseRelease, canvas, button, held, places[-1]),
            QApplication.processEvents,
        ]
        for step in steps:  # each is a frame of its own
            self.watch.take(self._what, step)

    def press_button(self) -> None:
        window = self.one.window
        buttons = [
            each for each in window.findChildren(QAbstractButton)
            if each.isVisible() and each.isEnabled() and each.width() > 4
        ]  # fmt: skip
        if not buttons:  # the scene alone
            return
        button = self.rng.choice(buttons)
        name = button.accessibleName() or button.text()
        self._what = f"button {name}"
        self.one.answers.path = self.folder / "button.3mf"
        self.watch.take(self._what, lambda: QTest.mouseClick(button, Qt.MouseButton.LeftButton))

    def key(self) -> None:
        key = self.rng.choice(KEYS)
        self._what = f"key {key}"
        self.watch.take(self._what, lambda: self.one.press_keys(key))

    def wheel(self) -> None:
        canvas = self.one.canvas
        place = QPointF(self.rng.randrange(canvas.width()), self.rng.randrange(canvas.height()))
        event = QWheelEvent(
            place, canvas.mapToGlobal(place), QPoint(), QPoint(0, self.rng.choice((120, -120))),
            Qt.MouseButton.NoButton, Qt.KeyboardModifier.NoModifier,
            Qt.ScrollPhase.NoScrollPhase, False,
        )  # fmt: skip
        self.watch.take("wheel", lambda: QApplication.sendEvent(canvas, event))

    def field(self) -> None:
        window, rng = self.one.window, self.rng
        kinds = (QAbstractSpinBox, QSlider, QComboBox)
        fields = [
            each for kind in kinds for each in window.findChildren(kind)
            if each.isVisible() and each.isEnabled()
        ]  # fmt: skip
        if not fields:
            return
        chosen = rng.choice(fields)
        self._what = f"field {chosen.accessibleName()}"
        if isinstance(chosen, QComboBox):
            if chosen.count():
                self.watch.take(
                    self._what, lambda: chosen.setCurrentIndex(rng.randrange(chosen.count()))
                )
        elif isinstance(chosen, QSlider):
            value = rng.randint(chosen.minimum(), chosen.maximum())
            self.watch.take(self._what, lambda: chosen.setValue(value))
        else:
            steps = rng.choice((-3, -1, 1, 2, 5))
            self.watch.take(self._what, lambda: chosen.stepBy(steps))

    def undo_or_redo(self) -> None:
        document = self.one.document
        step = document.undo if self.rng.random() < 0.6 else document.redo
        for _ in range(self.rng.choice((1, 1, 4))):
            self.watch.take(step.__name__, step)

    def resize(self) -> None:
        size = self.rng.randrange(900, 1390), self.rng.randrange(600, 980)
        self.watch.take("resize", lambda: self.one.window.resize(*size))

    def another_file(self) -> None:
        self.undo_everything()
        path = self.rng.choice(self.files)
        if self.rng.random() < 0.3:  # and change one's mind at once
            self.one.window.files.open_file(path)
            QApplication.processEvents()
            self.one.window.busy.cancel()
            self.wait_for_it(path)
        else:
            self.open_file(path)

    def a_bad_file(self) -> None:
        before = self.one.state
        self.one.window.files.open_file(self.folder / "bad.stl")
        self.wait_for_it(self.folder / "bad.stl")
        assert self.one.state.part is before.part, "a bad file took the place of the part"

    def save(self) -> None:
        self.one.answers.path = self.folder / f"saved {self.rng.randrange(3)}.3mf"
        self.one.window.keeper.save()

    def cancel(self) -> None:
        self.one.window.busy.cancel()


def made_files(folder: Path) -> list[Path]:
    """A few small parts in several formats, a job with marks, and a file that is none."""
    bracket, ring = c_bracket(), torus(20.0, 6.0, 14, 12)
    paths = [folder / name for name in ("bracket.stl", "ring.ply", "bracket.obj", "job.3mf")]
    for path, mesh in zip(paths, (bracket, ring, bracket), strict=False):
        write_posed(State.of_part(Part("made", mesh)), path)
    classes = (np.arange(ring.face_count) % 3).astype(np.uint8)
    write_job(State.of_part(Part("ring", ring), classes), paths[3], {"zoom": 1.0})
    (folder / "bad.stl").write_bytes(b"\0" * 80 + (1000).to_bytes(4, "little") + b"\1" * 100)
    return paths


def memory_bytes() -> int:
    """What this process holds after all that can be given back was given back."""
    let_go()
    try:
        import ctypes

        ctypes.CDLL("libc.so.6").malloc_trim(0)
        return int(Path("/proc/self/statm").read_text().split()[1]) * 4096
    except OSError:
        return 0


def clicks(actions: int, seed: int, folder: Path, screen_process: int = 0) -> Trial:
    """So many random actions; raises AssertionError for what may not happen.

    screen_process : the process of a virtual screen, 0 for none
    """
    trial = Trial()
    application = QApplication.instance() or QApplication(["showside"])
    QSettings.setPath(
        QSettings.Format.IniFormat, QSettings.Scope.UserScope, str(folder / "settings")
    )
    listener, old_hook, others = _Listener(trial), sys.excepthook, _OtherPrograms()
    garbage = GarbageHere()

    def hook(kind, error, trace) -> None:
        trial.problems.append("".join(traceback.format_exception(kind, error, trace)))

    def qt_says(kind: QtMsgType, _context: object, text: str) -> None:
        if kind in (QtMsgType.QtCriticalMsg, QtMsgType.QtFatalMsg):
            trial.problems.append(f"Qt: {text}")

    logging.getLogger().addHandler(listener)
    sys.excepthook, old_handler = hook, qInstallMessageHandler(qt_says)
    clicker = Clicker(folder, seed, trial, screen_process)
    try:
        _all_windows(clicker, actions)
    finally:
        clicker.watch.lookout.close()
        logging.getLogger().removeHandler(listener)
        sys.excepthook = old_hook
        garbage.close()
        others.close()
        qInstallMessageHandler(old_handler)
        application.processEvents()
    return trial


def _all_windows(clicker: Clicker, actions: int) -> None:
    trial, done = clicker.trial, 0
    while done < actions:
        clicker.open_window()
        for _ in range(min(ACTIONS_A_WINDOW, actions - done)):
            try:
                clicker.act()
            except BaseException as error:
                steps = "; ".join(clicker.lately)
                raise AssertionError(f"in action {done}: {error!r}, after {steps}") from error
            done += 1
            assert not trial.problems, f"action {done} ({clicker._what}): {trial.problems[0]}"
        clicker.close_window()
        assert not trial.problems, f"after action {done}: {trial.problems[0]}"
        gc.collect()
        trial.memory_bytes.append(memory_bytes())
        print(f"{done} of {actions} actions, {trial.memory_bytes[-1] / 1e6:.0f} MB", flush=True)
    assert trial.longest_s <= MOST_FROZEN_S, (
        f"{trial.longest_s:.2f} s for {trial.longest_of}; then stood\n{trial.longest_at}"
    )
    if len(trial.memory_bytes) > 3:
        # In the first half kernels, fonts and shaders are loaded as they are needed.
        early, late = trial.memory_bytes[len(trial.memory_bytes) // 2], trial.memory_bytes[-1]
        assert late <= MOST_GROWTH * early, f"memory grew from {early:,} to {late:,} bytes"
