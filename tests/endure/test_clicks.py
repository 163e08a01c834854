"""Some random actions of the trial `python -m tests.endure clicks`, so that it stays true."""

import pytest

from tests.endure.clicks import Stopwatch, Trial, clicks

ACTIONS = 60


def test_random_actions_do_no_harm(nothing_left, tmp_path, monkeypatch):
    monkeypatch.setenv("SHOWSIDE_DATA", str(tmp_path / "data"))
    monkeypatch.setattr("tests.endure.clicks.MOST_FROZEN_S", float("inf"))  # no clock decides here
    trial = clicks(ACTIONS, seed=3, folder=tmp_path)
    assert sum(trial.done.values()) == ACTIONS
    assert len(trial.done) > 5
    assert not trial.problems


def test_the_watch_tells_of_the_longest_moment():
    import time

    trial = Trial()
    watch = Stopwatch(trial, 0)
    watch.take("short", lambda: time.sleep(0.01))
    watch.take("long", lambda: time.sleep(0.3))
    watch.take("short again", lambda: time.sleep(0.01))
    assert trial.longest_of == "long"
    assert trial.longest_s == pytest.approx(0.3, abs=0.29)
    assert trial.longest_at == ""
    watch.take("frozen", lambda: time.sleep(1.5))
    watch.lookout.close()
    assert trial.longest_of == "frozen"
    assert "time.sleep(1.5)" in trial.longest_at  # where it stood
