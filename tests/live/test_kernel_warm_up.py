"""A first start: plain numbers first, exact ones last, whatever becomes of the compiling."""

import importlib
import logging
import multiprocessing
import os
import sys
import time
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

import numpy as np
import pytest

from tests import shapes
from tests.waiting import LONG_MS, runs, until
from viewer.document.document import Document
from viewer.document.state import Part, State
from viewer.geometry.kernel_cache import SETTING, say_kernels_are_ready
from viewer.geometry.plain_measures import FIRST_NUMBERS
from viewer.geometry.pose import Pose
from viewer.live.jobs import Jobs
from viewer.live.kernel_warm_up import KernelWarmUp
from viewer.live.live_check import LiveCheck
from viewer.live.live_measures import LiveMeasures
from viewer.own_process import end_with_parent

GATE = "SHOWSIDE_TEST_GATE"  # a file that the stand-in for the warm-up waits for


# Each runs in a process of its own, in place of the true warm-up of some minutes.
def wait_for_the_gate() -> None:
    while not Path(os.environ[GATE]).exists():
        time.sleep(0.02)
    say_kernels_are_ready()


def fail() -> None:
    sys.exit(3)


def tell_process_and_niceness() -> None:
    Path(os.environ[GATE]).write_text(f"{os.getpid()} {os.nice(0) if os.name == 'posix' else 0}")


def share_the_work() -> None:
    with ProcessPoolExecutor(1, initializer=end_with_parent) as processes:
        processes.submit(tell_process_and_wait).result()


def tell_process_and_wait() -> None:
    Path(os.environ[GATE]).write_text(f"{os.getpid()} \n")
    time.sleep(60)


@pytest.fixture
def cold(monkeypatch, tmp_path):
    """No warm-up has finished yet; the gate is the path of the file to be made."""
    importlib.import_module("viewer.geometry.machine_code")  # numba keeps to the usual folder
    gate = tmp_path / "gate"
    monkeypatch.setenv(SETTING, str(tmp_path))
    monkeypatch.setenv(GATE, str(gate))
    return gate


@pytest.fixture
def started(qapp, cold):
    """A function that starts live measures and the check with a stand-in for the warm-up."""
    closing = []

    def start(warm_up):
        document, jobs, kernels = Document(), Jobs(), KernelWarmUp(warm_up)
        measures = LiveMeasures(document, jobs, kernels)
        check = LiveCheck(document, jobs, kernels)
        closing.append((measures, check, jobs))
        return document, measures, check, kernels

    yield start
    for measures, check, jobs in closing:
        measures.close()
        check.close()
        assert jobs.close()
    assert not multiprocessing.active_children()


def test_plain_numbers_come_first_and_exact_ones_last(started, cold, qtbot):
    document, measures, check, kernels = started(wait_for_the_gate)
    heard, pending, checked = [], [], []
    measures.measured.connect(heard.append)
    measures.pending.connect(pending.append)
    check.checked.connect(checked.append)
    assert not kernels.ready

    document.open(State.of_part(Part("post and cap", shapes.post_and_cap())))
    qtbot.waitUntil(lambda: bool(heard), timeout=LONG_MS)
    assert heard[0].notes == (FIRST_NUMBERS,)
    assert heard[0].support_volume_mm3 == pytest.approx(16000, rel=0.05)  # row 22, CALC
    document.turn(Pose((0, 0, -1)))
    document.pin_pose(Pose())
    qtbot.waitUntil(lambda: heard[-1].support_volume_mm3 == 0, timeout=LONG_MS)
    qtbot.wait(500)  # far longer than it takes to ask for exact numbers at rest
    assert all(found.tier == "quick" and FIRST_NUMBERS in found.notes for found in heard)
    assert measures.pinned is None
    assert measures.prepared is None
    assert set(pending) == {True}
    assert set(checked) == {None}

    first = len(heard)
    cold.touch()
    qtbot.waitUntil(lambda: bool(heard) and heard[-1].tier == "full", timeout=LONG_MS)
    qtbot.waitUntil(lambda: measures.pinned is not None, timeout=LONG_MS)
    assert kernels.ready
    assert all(FIRST_NUMBERS not in found.notes for found in heard[first:])
    assert measures.pinned.support_volume_mm3 == pytest.approx(16000, rel=0.01)
    assert heard[-1].graze_area_mm2 is not None
    assert pending[-1] is False
    qtbot.waitUntil(lambda: checked[-1] is not None, timeout=LONG_MS)
    assert checked[-1].verdict == "sound"


def test_closing_meanwhile_leaves_no_process_and_no_job(started, cold, qtbot):
    document, measures, check, kernels = started(wait_for_the_gate)
    document.open(State.of_part(Part("torus", shapes.torus())))
    (process,) = multiprocessing.active_children()
    assert process.is_alive()
    heard = []
    measures.measured.connect(heard.append)
    kernels.became_ready.connect(lambda: heard.append("ready"))
    measures.close()
    check.close()
    assert not multiprocessing.active_children()
    cold.touch()
    qtbot.wait(300)
    assert heard == []


def test_where_compiling_beside_the_window_fails_it_is_done_in_this_process(started, qtbot, caplog):
    with caplog.at_level(logging.WARNING):
        document, measures, _, kernels = started(fail)
        document.open(State.of_part(Part("bracket", shapes.c_bracket())))
        qtbot.waitUntil(
            lambda: measures.latest is not None and measures.latest.tier == "full", timeout=LONG_MS
        )
    assert kernels.ready
    assert "exit code 3" in caplog.text
    assert measures.latest.support_volume_mm3 == pytest.approx(14000, rel=0.01)  # row 24, CALC


def test_ready_kernels_need_no_process(started, cold, qtbot):
    say_kernels_are_ready()
    document, measures, _, kernels = started(wait_for_the_gate)
    assert kernels.ready
    assert not multiprocessing.active_children()
    document.open(State.of_part(Part("cube", shapes.cube())))
    qtbot.waitUntil(
        lambda: measures.latest is not None and measures.latest.tier == "full", timeout=LONG_MS
    )
    assert FIRST_NUMBERS not in measures.latest.notes


def test_where_nothing_can_be_kept_no_process_is_started(started, monkeypatch):
    """It could not hand its code over; this process compiles as it goes."""
    monkeypatch.delenv(SETTING)
    monkeypatch.setattr("viewer.geometry.kernel_cache.cache_folder", lambda: None)
    _, _, _, kernels = started(wait_for_the_gate)
    assert kernels.ready
    assert not multiprocessing.active_children()


@pytest.mark.skipif(os.name != "posix", reason="niceness is POSIX's")
def test_it_runs_in_another_process_behind_the_window(started, cold, qtbot):
    _, _, _, kernels = started(tell_process_and_niceness)
    qtbot.waitUntil(lambda: kernels.ready, timeout=LONG_MS)
    process, niceness = (int(word) for word in cold.read_text().split())
    assert process != os.getpid()
    assert niceness > os.nice(0)


@pytest.mark.skipif(not Path("/proc/self").exists(), reason="looks for the helper in /proc")
def test_its_helpers_end_with_it(started, cold):
    _, measures, check, _ = started(share_the_work)
    until(lambda: cold.exists() and cold.read_text().endswith("\n"))
    helper = int(cold.read_text())
    assert runs(helper)
    measures.close()
    check.close()
    until(lambda: not runs(helper))


def test_turning_goes_on_with_plain_numbers(started, qtbot):
    """Each pose is answered, and the last numbers belong to the last pose."""
    document, measures, _, _ = started(wait_for_the_gate)
    document.open(State.of_part(Part("cone", shapes.cone(10, 25))))
    qtbot.waitUntil(lambda: measures.latest is not None, timeout=LONG_MS)
    heard = []
    measures.measured.connect(heard.append)
    with document.gesture("Turn the part"):
        for degrees in range(1, 91, 3):
            document.turn(Pose((np.sin(np.radians(degrees)), 0, np.cos(np.radians(degrees)))))
            qtbot.wait(10)
    document.turn(Pose((1, 0, 0)))
    qtbot.waitUntil(lambda: bool(heard) and abs(heard[-1].height_mm - 20) < 1e-6, timeout=LONG_MS)
    qtbot.wait(300)
    assert heard[-1].height_mm == pytest.approx(20)
    assert FIRST_NUMBERS in heard[-1].notes
