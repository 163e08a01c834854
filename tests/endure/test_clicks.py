"""Some random actions of the trial `python -m tests.endure clicks`, so that it stays true."""

import time

from tests.endure.clicks import clicks
from tests.endure.watch import Stopwatch, Trial

ACTIONS = 40


def test_random_actions_do_no_harm(nothing_left, tmp_path, monkeypatch):
    monkeypatch.setenv("SHOWSIDE_DATA", str(tmp_path / "data"))
    monkeypatch.setattr("tests.endure.clicks.MOST_FROZEN_S", float("inf"))  # no clock decides here
    trial = clicks(ACTIONS, seed=3, folder=tmp_path)
    assert sum(trial.done.values()) == ACTIONS
    assert len(trial.done) > 5
    assert not trial.problems


def test_the_watch_tells_of_the_longest_moment(monkeypatch):
    monkeypatch.setattr(Stopwatch, "_waited_s", lambda self: {})  # however busy the machine is
    trial = Trial()
    watch = Stopwatch(trial, 0)
    watch.take("short", lambda: time.sleep(0.01))
    watch.take("long", lambda: time.sleep(0.3))
    watch.take("short again", lambda: time.sleep(0.01))
    assert trial.longest_of == "long"
    assert trial.longest_s >= 0.3
    assert trial.longest_at == ""
    watch.take("frozen", lambda: time.sleep(1.5))
    watch.lookout.close()
    assert trial.longest_of == "frozen"
    assert "time.sleep(1.5)" in trial.longest_at  # where it stood


def test_what_threads_waited_for_a_processor_is_taken_off(monkeypatch):
    trial = Trial()
    watch = Stopwatch(trial, 0)
    own = f"self {watch._own}"
    told = iter([{own: 2.0, "self 7": 1.0}, {own: 2.1, "self 7": 1.2, "self 8": 0.1, "9 9": 0.05}])
    monkeypatch.setattr(Stopwatch, "_waited_s", lambda self: next(told))
    begun_s = time.perf_counter()
    watch.take("long", lambda: time.sleep(0.5))
    took_s = time.perf_counter() - begun_s
    watch.lookout.close()
    # CALC: 0.1 this thread, 0.2 the slowest beside it, 0.05 the screen
    assert trial.longest_s + 1e-9 >= 0.5 - 0.35
    assert trial.longest_s <= took_s - 0.35 + 1e-9
