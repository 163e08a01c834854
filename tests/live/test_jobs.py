"""Jobs: one answer on the window's thread, one sentence on failure, nothing after a cancel."""

import gc
import threading
import time
import weakref

import pytest

from viewer.errors import NothingToPrint, ShowsideError
from viewer.live.jobs import Job, Jobs


@pytest.fixture
def jobs(qapp):
    jobs = Jobs()
    yield jobs
    assert jobs.close()


def refuse(error):
    raise AssertionError(f"not expected to fail: {error}")


def test_the_answer_arrives_on_the_thread_that_asked(jobs, qtbot):
    answers = []
    jobs.run(
        lambda progress: threading.get_ident(),
        done=lambda worker: answers.append((worker, threading.get_ident())),
        failed=refuse,
    )
    qtbot.waitUntil(lambda: bool(answers))
    worker, here = answers[0]
    assert here == threading.get_ident() != worker


def test_progress_arrives_and_grows(jobs, qtbot):
    heard, answers = [], []

    def work(progress):
        for n in range(5):
            time.sleep(0.05)
            progress.report(n / 5, "counting")
        return "counted"

    jobs.run(work, answers.append, refuse, progressed=lambda share, doing: heard.append(share))
    qtbot.waitUntil(lambda: answers == ["counted"])
    assert heard == sorted(heard)
    assert len(heard) >= 3


def test_our_errors_arrive_as_they_are_and_others_as_one_sentence(jobs, qtbot, caplog):
    failures = []

    def ours(progress):
        raise NothingToPrint("The file holds no triangles.")

    def theirs(progress):
        raise KeyError("surprise")

    jobs.run(ours, refuse, failures.append)
    jobs.run(theirs, refuse, failures.append)
    qtbot.waitUntil(lambda: len(failures) == 2)
    assert all(isinstance(error, ShowsideError) for error in failures)
    texts = sorted(str(error) for error in failures)
    assert "Nothing was changed" in texts[0]
    assert texts[1] == "The file holds no triangles."
    assert "surprise" in caplog.text


def test_a_cancelled_job_says_nothing_and_stops_soon(jobs, qtbot):
    started, stopped = threading.Event(), threading.Event()

    def work(progress):
        started.set()
        try:
            while True:
                progress.check()
                time.sleep(0.005)
        finally:
            stopped.set()

    job = jobs.run(work, refuse, refuse)
    assert started.wait(5)
    job.cancel()
    assert stopped.wait(5)
    qtbot.waitUntil(lambda: not job.running)


def test_closing_ends_what_runs_and_what_waits(qapp):
    jobs = Jobs(threads=1)
    begun = []

    def work(progress):
        begun.append(1)
        while True:
            progress.check()
            time.sleep(0.005)

    for _ in range(3):
        jobs.run(work, refuse, refuse)
    time.sleep(0.1)
    assert jobs.close(wait_ms=5000)
    assert len(begun) == 1


class Asker:
    """Someone who asks by methods of its own, as a window does."""

    def __init__(self) -> None:
        self.answers = []

    def work(self, progress):
        return 5


@pytest.mark.parametrize("cancelled", [False, True])
def test_a_job_that_is_over_keeps_nobody_alive(jobs, qtbot, cancelled):
    """Qt may keep what ran for a while, and with it the job."""
    asker = Asker()
    known = weakref.ref(asker)
    job = jobs.run(asker.work, done=asker.answers.append, failed=refuse)
    if cancelled:
        job.cancel()
    qtbot.waitUntil(lambda: not job.running)
    assert asker.answers == ([] if cancelled else [5])
    del asker
    gc.collect()
    assert known() is None


def test_what_is_held_begins_in_its_order_once_the_time_is_over(qapp, qtbot):
    jobs, begun = Jobs(threads=1), []
    jobs.hold(200)
    held = [jobs.run(lambda progress, n=n: begun.append(n), lambda _: None, refuse) for n in (1, 2)]
    held[0].cancel()
    assert not begun
    assert all(job.running for job in held)
    qtbot.waitUntil(lambda: begun == [2])
    jobs.run(lambda progress: begun.append(3), lambda _: None, refuse)
    qtbot.waitUntil(lambda: begun == [2, 3])
    jobs.hold(60_000)
    jobs.run(lambda progress: begun.append(4), lambda _: None, refuse)
    jobs.release()
    qtbot.waitUntil(lambda: begun == [2, 3, 4])
    jobs.hold(60_000)
    last = jobs.run(lambda progress: begun.append(5), lambda _: None, refuse)
    assert jobs.close()
    qtbot.waitUntil(lambda: not last.running)
    assert begun == [2, 3, 4]


def test_of_a_thousand_short_jobs_none_is_kept(jobs, qtbot):
    over = []
    for _ in range(1000):
        jobs.run(lambda progress: None, over.append, refuse)
    qtbot.waitUntil(lambda: len(over) == 1000)
    jobs._jobs.clear()
    gc.collect()
    assert not [each for each in gc.get_objects() if isinstance(each, Job)]
