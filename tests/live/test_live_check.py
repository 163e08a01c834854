"""A check belongs to the part it was asked for: its answer never meets another part."""

import pytest

from tests.shapes import c_bracket, cube
from viewer.document.document import Document
from viewer.document.state import Part, State
from viewer.live.jobs import Job, Jobs
from viewer.live.live_check import LiveCheck


class Held(Jobs):
    """Jobs that end when the test says so."""

    def __init__(self) -> None:
        super().__init__()
        self.held: list[Job] = []

    def run(self, function, done, failed, progressed=lambda *_: None, priority=0) -> Job:
        self.held.append(Job(function, done, failed, progressed))
        return self.held[-1]


@pytest.fixture
def started(qtbot):
    jobs, document = Held(), Document(State.of_part(Part("bracket", c_bracket())))
    check = LiveCheck(document, jobs)
    qtbot.waitUntil(lambda: len(jobs.held) == 1)
    yield document, jobs, check
    check.close()


def test_a_late_answer_about_another_part_is_dropped(started, qtbot):
    document, jobs, check = started
    told = []
    check.checked.connect(told.append)
    document.open(State.of_part(Part("cube", cube())))
    assert told == [None]
    jobs.held[0].work()  # it was too late to stop it
    qtbot.waitUntil(lambda: not jobs.held[0].running)
    assert told == [None]
    assert check.latest is None
    qtbot.waitUntil(lambda: len(jobs.held) == 2)
    jobs.held[1].work()
    qtbot.waitUntil(lambda: check.latest is not None)
    assert told == [None, check.latest]


def test_the_answer_is_told_when_nothing_changed(started, qtbot):
    _, jobs, check = started
    jobs.held[0].work()
    qtbot.waitUntil(lambda: check.latest is not None)
    assert check.latest.verdict == "sound"
