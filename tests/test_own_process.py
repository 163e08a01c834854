"""Work in a process of its own: answers, progress, cancel, crashes, and nothing left behind."""

import multiprocessing
import os
import pickle
import signal
import subprocess
import sys
import threading
import time
from pathlib import Path

import numpy as np
import pytest

from tests.waiting import runs, until
from viewer.errors import Cancelled, RequestProblem, ShowsideError
from viewer.own_process import CRASHED, run_in_own_process
from viewer.progress import Progress

ROOT = Path(__file__).resolve().parents[1]


def add(a, b, progress):
    return a + b, os.getpid()


def count_up(steps, progress):
    for step in range(steps):
        progress.report((step + 1) / steps, f"step {step + 1}")
        time.sleep(0.05)


def sleep_10_s(progress):
    progress.report(0.5, "asleep")
    time.sleep(10.0)


def hold_the_lock(progress):
    """A native call that never lets go of the interpreter lock, as a solid modeller may."""
    progress.report(0.5, "busy")
    return pow(7, 10**8)


def die(progress):
    os._exit(3)


def refuse(progress):
    raise RequestProblem("The number has to be above 0.")


def fail(progress):
    raise ZeroDivisionError("by nothing")


class Unsendable(Exception):
    def __init__(self, words):
        super().__init__(words)
        self.lock = threading.Lock()


def fail_with_a_lock(progress):
    raise Unsendable("with a lock")


def answer_with_a_function(progress):
    return lambda: 1


def pid_here(progress):
    return os.getpid()


def pids_of_both(progress):
    return os.getpid(), run_in_own_process(pid_here, progress=progress)


def stubborn(progress):
    signal.signal(signal.SIGTERM, signal.SIG_IGN)
    progress.report(0.5, "stubborn")
    time.sleep(30.0)


@pytest.fixture(autouse=True)
def nothing_is_left():
    yield
    until = time.monotonic() + 5.0
    while multiprocessing.active_children() and time.monotonic() < until:
        time.sleep(0.01)
    assert not multiprocessing.active_children()


def test_the_answer_comes_from_another_process():
    numbers = np.arange(1_000_000, dtype=np.float64)
    numbers.flags.writeable = False
    total, process = run_in_own_process(add, numbers, 0.5)
    assert np.array_equal(total, numbers + 0.5)
    assert total.flags.writeable
    assert process != os.getpid()


def test_a_child_asked_for_by_a_child_works_in_that_one():
    child, asked_by_it = run_in_own_process(pids_of_both)
    assert child == asked_by_it != os.getpid()


def test_small_and_empty_things_travel_too():
    empty = np.empty((0, 3), np.int32)
    assert run_in_own_process(add, empty, empty)[0].shape == (0, 3)
    turned = np.arange(12.0).reshape(3, 4).T[:, ::2]
    assert np.array_equal(run_in_own_process(add, turned, 1)[0], turned + 1)
    assert run_in_own_process(add, "a", "b")[0] == "ab"


def test_progress_is_told():
    heard = []
    run_in_own_process(count_up, 4, progress=Progress(lambda *said: heard.append(said)))
    assert heard == [(0.25, "step 1"), (0.5, "step 2"), (0.75, "step 3"), (1.0, "step 4")]


@pytest.mark.parametrize("function", [sleep_10_s, hold_the_lock])
def test_a_cancel_comes_back_while_the_child_would_go_on(function):
    """It would still run for 10 s, or for minutes in one call."""
    cancelled_s = []

    def cancel_when_it_works(fraction, doing):
        if doing:
            cancelled_s.append(time.monotonic())
            threading.Timer(0.1, progress.cancel).start()

    progress = Progress(cancel_when_it_works)
    with pytest.raises(Cancelled):
        run_in_own_process(function, progress=progress)
    assert time.monotonic() - cancelled_s[0] < 5.0


def test_a_cancel_beforehand_starts_nothing():
    progress = Progress()
    progress.cancel()
    with pytest.raises(Cancelled):
        run_in_own_process(sleep_10_s, progress=progress)


def test_a_cancel_while_the_child_starts():
    progress = Progress()
    threading.Timer(0.02, progress.cancel).start()
    with pytest.raises(Cancelled):
        run_in_own_process(add, np.zeros(10_000_000), 1, progress=progress)


@pytest.mark.skipif(sys.platform == "win32", reason="Windows ends a process without asking it")
def test_a_child_that_will_not_end_is_killed():
    progress = Progress(lambda fraction, doing: progress.cancel())
    with pytest.raises(Cancelled):
        run_in_own_process(stubborn, progress=progress)


def test_a_crash_is_one_sentence():
    with pytest.raises(ShowsideError) as caught:
        run_in_own_process(die)
    assert str(caught.value) == CRASHED
    with pytest.raises(ShowsideError, match=r"^The reader broke down\.$"):
        run_in_own_process(die, crashed="The reader broke down.")


def test_errors_arrive_as_they_were():
    with pytest.raises(RequestProblem) as refused:
        run_in_own_process(refuse)
    assert str(refused.value) == "The number has to be above 0."
    with pytest.raises(ZeroDivisionError) as caught:
        run_in_own_process(fail)
    assert "in fail" in caught.value.__notes__[0]


def test_what_cannot_travel():
    with pytest.raises((AttributeError, TypeError, ValueError, OSError)):
        run_in_own_process(lambda progress: 1)
    with pytest.raises((AttributeError, pickle.PicklingError), match="answer_with_a_function"):
        run_in_own_process(answer_with_a_function)
    with pytest.raises(RuntimeError, match="Unsendable: with a lock"):
        run_in_own_process(fail_with_a_lock)


def test_from_several_threads_at_once():
    answers = {}

    def ask(number):
        answers[number] = run_in_own_process(add, number, 1)[0]

    threads = [threading.Thread(target=ask, args=(number,)) for number in range(3)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(60)
    assert answers == {0: 1, 1: 2, 2: 3}


MAIN = """
import sys, threading
print("main runs", flush=True)
from tests.test_own_process import sleep_10_s
from viewer.own_process import run_in_own_process
from viewer.progress import Progress
import multiprocessing
if __name__ == "__main__":
    def listen(fraction, doing):
        print("child", multiprocessing.active_children()[0].pid, flush=True)
    work = lambda: run_in_own_process(sleep_10_s, progress=Progress(listen))
    threading.Thread(target=work, daemon=True).start()
    sys.stdin.readline()
"""


@pytest.mark.skipif(not Path("/proc/self").exists(), reason="looks for the child in /proc")
@pytest.mark.parametrize("end", ["properly", "killed"])
def test_no_child_outlives_the_program(end):
    program = subprocess.Popen(
        [sys.executable, "-c", MAIN], cwd=ROOT, stdin=subprocess.PIPE, stdout=subprocess.PIPE,
        text=True,
    )  # fmt: skip
    with program:
        timer = threading.Timer(60, program.kill)  # readline would wait for ever
        timer.start()
        assert program.stdout.readline() == "main runs\n"
        child = int(program.stdout.readline().split()[1])
        if end == "killed":
            program.kill()
        else:
            program.stdin.write("\n")
            program.stdin.flush()
        program.wait(20)
        timer.cancel()
    until(lambda: not runs(child))


def test_the_main_program_is_not_run_again(tmp_path):
    """A guarded script says its first line only once more, as a module that is not the program."""
    script = tmp_path / "program.py"
    script.write_text(
        "from tests.test_own_process import add\n"
        "from viewer.own_process import run_in_own_process\n"
        "if __name__ == '__main__':\n"
        "    print('started', run_in_own_process(add, 2, 3)[0], flush=True)\n"
    )
    ran = subprocess.run(
        [sys.executable, script], cwd=ROOT, capture_output=True, text=True, timeout=60,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
    )  # fmt: skip
    assert ran.stdout == "started 5\n", ran.stderr
