"""The real window for tests, and the proof that each test leaves nothing of it behind.

After every test that opened a window: no widget, no running Qt timer, no thread, no listener and
no VTK object more than before.
"""

import gc
import threading
import time
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import ClassVar

import numpy as np
import pytest
from PySide6.QtCore import (
    QCoreApplication,
    QEvent,
    QPoint,
    QPointF,
    QSettings,
    Qt,
    QThreadPool,
    QTimer,
)
from PySide6.QtGui import QMouseEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget
from shiboken6 import isValid
from vtkmodules.vtkCommonCore import vtkObjectBase

from tests.waiting import LONG_MS
from tests.window.answered_once import CHECKED, MEASURED
from viewer.document.document import Document
from viewer.document.state import Part, State
from viewer.geometry.mesh import Mesh
from viewer.live import live_check, live_measures
from viewer.live.jobs import Jobs
from viewer.live.kernel_warm_up import KernelWarmUp
from viewer.live.live_check import LiveCheck
from viewer.live.live_measures import LiveMeasures
from viewer.window.main_window import MainWindow
from viewer.window.prompts import Unsaved


class Answers:
    """Stands in for the dialogs: answers set by the test, questions noted."""

    def __init__(self) -> None:
        self.path = None
        self.unsaved = Unsaved.DISCARD
        self.colour = None
        self.asked: list[str] = []

    def print_colour(self, present):
        self.asked.append("colour")
        return self.colour

    def file_to_open(self, folder):
        self.asked.append("open")
        return self.path

    def job_to_save(self, suggested):
        self.asked.append("save")
        return self.path

    def file_to_export(self, suggested, kind):
        self.asked.append(f"export {kind}")
        return self.path

    def table_to_save(self, suggested):
        self.asked.append(f"table {suggested.name}")
        return self.path

    def folder_to_write(self, suggested):
        self.asked.append(f"folder {suggested.name}")
        return self.path

    def photo_to_open(self):
        self.asked.append("photo")
        return self.path

    def picture_to_save(self, suggested):
        self.asked.append(f"picture {suggested.name}")
        return self.path

    def turntable_to_save(self, suggested):
        self.asked.append(f"turntable {suggested.name}")
        return self.path

    def sheet_to_save(self, suggested):
        self.asked.append(f"sheet {suggested.name}")
        return self.path

    def pack_to_save(self, suggested):
        self.asked.append(f"pack {suggested.name}")
        return self.path

    def logo_to_open(self):
        return self.path

    def printer(self, title):
        self.asked.append(f"printer {title}")
        return self.path

    def about_unsaved(self, part_name):
        self.asked.append("unsaved")
        return self.unsaved


@contextmanager
def drawing(window: QWidget, drawn: bool) -> Iterator[None]:
    """Draw what is asked for within, or nothing.

    On a machine without a graphics card most time of a test would go into pictures that nobody
    looks at: a window is drawn where a test says so.
    """
    before = window.updatesEnabled()
    window.setUpdatesEnabled(drawn)
    try:
        yield
    finally:
        window.setUpdatesEnabled(before)


@pytest.fixture
def every_frame(monkeypatch):
    """For tests of what is drawn meanwhile: the window draws as for a user."""
    monkeypatch.setattr(Opened, "every_frame", True)


@dataclass
class Opened:
    """An open window with what a test needs to work it like a user."""

    window: MainWindow
    answers: Answers
    qtbot: object
    every_frame: ClassVar[bool] = False

    @property
    def document(self) -> Document:
        return self.window.document

    @property
    def state(self) -> State:
        return self.window.document.state

    @property
    def canvas(self) -> QWidget:
        return self.window.view.interactor

    def show(self, mesh: Mesh, classes: np.ndarray | None = None, name: str = "part") -> None:
        """Open a part without a file, and wait until all is known of it."""
        self.document.open(State.of_part(Part(name, mesh), classes))
        self.settle()

    def settle(self) -> None:
        """Wait until numbers, check, surface and places belong to the present state."""
        window = self.window
        with drawing(window, False):
            self.qtbot.waitUntil(lambda: not window.busy.busy, timeout=LONG_MS)
            if self.state.part is None:
                return
            self.qtbot.waitUntil(self._all_is_known, timeout=LONG_MS)
        self.lay_out()

    def _all_is_known(self) -> bool:
        window = self.window
        measures = window.live_measures.latest
        return (
            measures is not None
            and measures.tier == "full"
            and not window.numbers.pending
            and window.live_check.latest is not None
            and window.tools.surface.ready
        )

    def draw(self) -> None:
        """Let Qt draw what was asked for, with everything in the place that it asked for."""
        with drawing(self.window, True):
            self.canvas.repaint()
            self.lay_out()

    def lay_out(self) -> None:
        """Let Qt put everything into the place that it asked for."""
        QApplication.processEvents()  # an answer that comes in here asks for another layout,
        QCoreApplication.sendPostedEvents()  # which one turn of the loop leaves to the next

    def press_keys(self, keys: str) -> None:
        """Type a shortcut such as "Ctrl+Z" into the window, as from the keyboard."""
        *held, key = keys.split("+") if keys != "+" else [keys]
        modifiers = Qt.KeyboardModifier.NoModifier
        for name in held:
            modifiers |= getattr(
                Qt.KeyboardModifier, {"Ctrl": "Control"}.get(name, name) + "Modifier"
            )
        names = {"[": "BracketLeft", "]": "BracketRight", "Esc": "Escape"}
        code = getattr(Qt.Key, f"Key_{names.get(key, key)}")
        with new_windows_are_active():
            QTest.keyClick(self.canvas, code, modifiers)
            QApplication.processEvents()

    def place_of(self, point_mm: np.ndarray) -> QPoint:
        """Where a point of the posed frame lies on the canvas."""
        renderer = self.canvas.renderer
        renderer.SetWorldPoint(*(float(x) for x in point_mm), 1.0)
        renderer.WorldToDisplay()
        x, y, _ = renderer.GetDisplayPoint()
        scale = self.canvas.devicePixelRatioF()
        return QPoint(round(x / scale), round(self.canvas.height() - 1 - y / scale))

    def drag(self, places, button=Qt.MouseButton.LeftButton, held=None) -> None:
        """Press at the first place, move over the others, release at the last."""
        held = held or Qt.KeyboardModifier.NoModifier
        self.move(places[0])
        QTest.mousePress(self.canvas, button, held, places[0])
        for place in places[1:]:
            self.move(place, button, held)
        QTest.mouseRelease(self.canvas, button, held, places[-1])
        QApplication.processEvents()

    def move(self, place, button=Qt.MouseButton.NoButton, held=None) -> None:
        """A mouse move with a button held, delivered at once."""
        where = QPointF(place)
        event = QMouseEvent(
            QEvent.Type.MouseMove,
            where,
            QPointF(self.canvas.mapToGlobal(place)),
            Qt.MouseButton.NoButton,
            button,
            held or Qt.KeyboardModifier.NoModifier,
        )
        QCoreApplication.sendEvent(self.canvas, event)
        QApplication.processEvents()

    def click(self, place, button=Qt.MouseButton.LeftButton) -> None:
        """Hover, press and release at one place."""
        self.drag([place], button)

    def press(self, widget: QWidget) -> None:
        """Click a button in its middle."""
        assert widget.isVisible(), widget.accessibleName()
        with new_windows_are_active():
            QTest.mouseClick(widget, Qt.MouseButton.LeftButton)
            QApplication.processEvents()


def shown_windows() -> set[QWidget]:
    """Windows and dialogs on the screen, without menus, tips and the like."""
    kinds = (Qt.WindowType.Window, Qt.WindowType.Dialog)
    found = QApplication.topLevelWidgets()
    return {each for each in found if each.isVisible() and each.windowType() in kinds}


@contextmanager
def new_windows_are_active() -> Iterator[None]:
    """Whatever window opens within has the focus afterwards, without which its keys do nothing."""
    before = shown_windows()
    yield
    for new in shown_windows() - before:
        QTest.qWaitForWindowActive(new, 5_000)


def vtk_objects() -> Counter:
    """VTK objects that Python knows, by class."""
    return Counter(
        type(thing).__name__ for thing in gc.get_objects() if isinstance(thing, vtkObjectBase)
    )


def threads() -> set[str]:
    """Threads of Python's own; Qt's pool threads are counted by their pools."""
    return {
        thread.name
        for thread in threading.enumerate()
        if not isinstance(thread, threading._DummyThread)
    }


def running_timers() -> list[QTimer]:
    return [
        thing
        for thing in gc.get_objects()
        if isinstance(thing, QTimer) and isValid(thing) and thing.isActive()
    ]


def delete_later_is_now() -> None:
    """Let Qt delete what was to be deleted."""
    for _ in range(3):
        QApplication.processEvents()
        QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


def let_go() -> None:
    """Let Qt and Python delete whatever nobody needs."""
    delete_later_is_now()
    gc.collect()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


@pytest.fixture(autouse=True)
def own_settings(tmp_path_factory, monkeypatch):
    """Settings of the tests lie in a folder of their own, and so does unsaved work."""
    folder = tmp_path_factory.mktemp("settings")
    monkeypatch.setenv("SHOWSIDE_DATA", str(folder / "data"))
    QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, str(folder))


@pytest.fixture
def nothing_left(qapp):
    """Compares what lives before and after a test; whoever opens windows uses it first.

    What lived before is set aside, so that all that can be seen afterwards came with the test: no
    VTK object and no running timer may be among it. It also makes collecting quick.
    """
    let_go()
    gc.freeze()
    before_threads, before_widgets = threads(), len(QApplication.allWidgets())
    yield
    let_go()
    assert not QApplication.topLevelWidgets()
    assert len(QApplication.allWidgets()) <= before_widgets
    assert not running_timers()
    assert QThreadPool.globalInstance().activeThreadCount() == 0
    ends_s = time.monotonic() + 0.001 * LONG_MS
    while not threads() <= before_threads and time.monotonic() < ends_s:
        time.sleep(0.01)  # a child process that ends late is waited for by a thread
    assert threads() <= before_threads
    assert not vtk_objects()


@pytest.fixture(autouse=True)
def answers_soon(monkeypatch):
    """A part that another test showed is not measured again, and pauses end soon.

    Whoever asks what a pause is for, or what goes on meanwhile, sets its own.
    """
    monkeypatch.setattr(live_measures, "measure_pose", MEASURED)
    monkeypatch.setattr(live_check, "check_mesh", CHECKED)
    monkeypatch.setattr(live_measures, "STILL_MS", 30)
    monkeypatch.setattr(live_check, "STILL_MS", 30)


@pytest.fixture
def open_window(nothing_left, qtbot):
    """A function that opens a window of its own size; all are closed at the end."""
    opened: list[Opened] = []
    documents: list[Document] = []

    def make(
        width_px: int = 1280, height_px: int = 800, kernels: KernelWarmUp | None = None
    ) -> Opened:
        document, jobs = Document(), Jobs()
        measures = LiveMeasures(document, jobs, kernels)
        check = LiveCheck(document, jobs, kernels)
        window = MainWindow(document, jobs, measures, check)
        answers = Answers()
        window.prompts = answers
        window.resize(width_px, height_px)
        window.setUpdatesEnabled(False)
        with qtbot.waitExposed(window, timeout=LONG_MS):
            window.show()
        with qtbot.waitActive(window, timeout=LONG_MS):
            window.activateWindow()
        window.setUpdatesEnabled(Opened.every_frame)
        opened.append(Opened(window, answers, qtbot))
        documents.append(document)
        return opened[-1]

    yield make
    for one in opened:
        if one.window is not None and isValid(one.window):
            one.answers.unsaved = Unsaved.DISCARD
            one.window.close()
        one.window = None  # pytest holds on to what a fixture returned until the very end
    delete_later_is_now()
    assert all(not document._listeners for document in documents)


@pytest.fixture
def opened(open_window):
    """One empty window at 1280×800."""
    return open_window()
