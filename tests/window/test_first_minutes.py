"""The first minutes of an installation: what waits for the kernels says so, and then begins."""

import pytest
from PySide6.QtCore import QObject, Signal

from tests.shapes import c_bracket
from tests.waiting import LONG_MS
from viewer.document.state import Part, State
from viewer.geometry.plain_measures import FIRST_NUMBERS
from viewer.live.kernel_warm_up import BEGINS_LATER
from viewer.window.stages import Stage


class Compiling(QObject):
    """Stands in for the process that compiles kernels; it ends when the test says so."""

    became_ready = Signal()
    ready = False

    def end(self) -> None:
        self.ready = True
        self.became_ready.emit()

    def close(self) -> None:
        """Nothing to end."""


@pytest.fixture
def compiling():
    return Compiling()


def test_check_and_search_say_what_they_wait_for_and_begin_by_themselves(
    open_window, compiling, qtbot
):
    opened = open_window(kernels=compiling)
    window = opened.window
    opened.document.open(State.of_part(Part("bracket", c_bracket())))
    qtbot.waitUntil(lambda: FIRST_NUMBERS in _notes(window), timeout=LONG_MS)
    panel = window.panels[Stage.CHECK]
    assert (panel._verdict.text(), panel._reason.text()) == ("Not checked yet", BEGINS_LATER)
    opened.press_keys("Shift+S")
    assert window.searching.shown
    assert window.direction_pane.results.state.text() == BEGINS_LATER

    compiling.end()
    assert (panel._verdict.text(), panel._reason.text()) == ("Checking …", "")
    qtbot.waitUntil(lambda: window.live_check.latest is not None, timeout=LONG_MS)
    assert panel._verdict.text() == "✓ Sound"
    qtbot.waitUntil(lambda: window.searching.live.table is not None, timeout=LONG_MS)
    assert window.direction_pane.results.state.text() != BEGINS_LATER
    opened.press_keys("Escape")
    opened.settle()
    assert FIRST_NUMBERS not in _notes(window)


def _notes(window) -> tuple[str, ...]:
    measures = window.live_measures.latest
    return () if measures is None else measures.notes
