"""Garbage is found on the window's thread, whoever makes it."""

import gc
import threading

import pytest

from viewer.live import garbage_here
from viewer.live.garbage_here import GarbageHere


class Circle:
    """Part of a circle of references; tells on which thread it was deleted."""

    def __init__(self, told):
        self.me, self.told = self, told

    def __del__(self):
        self.told.append(threading.get_ident())


def litter(told, circles=3_000):
    """Make garbage on a thread of its own, far more than Python lets lie."""

    def make():
        for _ in range(circles):
            Circle(told)

    worker = threading.Thread(target=make)
    worker.start()
    worker.join()


@pytest.fixture
def here(qapp, monkeypatch):
    monkeypatch.setattr(garbage_here, "LOOK_EVERY_MS", 20)
    monkeypatch.setattr(garbage_here, "ALL_EVERY_S", 0.1)
    gc.collect()
    gc.enable()
    here = GarbageHere()
    yield here
    here.close()
    assert gc.isenabled()


def test_garbage_of_other_threads_is_collected_on_this_one(here, qtbot):
    told = []
    litter(told)
    assert told == []
    qtbot.waitUntil(lambda: len(told) == 3_000)
    assert set(told) == {threading.get_ident()}


def test_old_garbage_is_found_as_well(here, qtbot):
    told = []
    circle = Circle(told)
    for generation in (0, 1):
        gc.collect(generation)
    del circle
    assert told == []
    qtbot.waitUntil(lambda: (litter([], 800), bool(told))[1], timeout=10_000)
    assert told == [threading.get_ident()]


def test_afterwards_python_looks_by_itself(here):
    here.close()
    told = []
    litter(told)
    assert set(told) - {threading.get_ident()}
