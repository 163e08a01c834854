"""A few lives of the trial `python -m tests.endure kills`, so that the trial itself stays true."""

import os
import re
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

from tests.endure.told_strokes import fresh_state, marks_after, strokes_in

ROOT = Path(__file__).resolve().parents[2]


def test_strokes_are_told_from_their_marks():
    count = fresh_state(600).part.mesh.face_count
    for strokes in (0, 1, 2, 3, 100, 5000):
        assert strokes_in(marks_after(strokes, count)) == strokes
    mixed = marks_after(50, count)
    mixed[30:] = marks_after(80, count)[30:]
    with pytest.raises(AssertionError, match="two moments"):
        strokes_in(mixed)
    assert np.count_nonzero(marks_after(80, count) != marks_after(50, count)) >= 30


@pytest.mark.skipif(not hasattr(os, "fork"), reason="lives are forked")
def test_killed_at_random_moments_no_work_is_lost():
    asked = [sys.executable, "-m", "tests.endure", "kills", "--runs", "3", "--seed", "7"]
    ran = subprocess.run(asked, cwd=ROOT, capture_output=True, text=True)
    assert ran.returncode == 0, ran.stderr
    assert ran.stderr == ""
    assert re.match(r"3 runs killed, \d+ strokes", ran.stdout), ran.stdout


@pytest.mark.skipif(sys.platform != "linux", reason="needs a virtual screen")
def test_the_real_window_is_killed_and_offers_its_work():
    asked = [sys.executable, "-m", "tests.endure", "window-kills", "--runs", "1", "--seed", "3"]
    ran = subprocess.run(asked, cwd=ROOT, capture_output=True, text=True)
    assert ran.returncode == 0, ran.stderr
    assert re.search(r"1 windows killed, \d+ changes", ran.stdout), ran.stdout
