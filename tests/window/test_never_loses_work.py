"""Unsaved work is kept aside and offered again; a job is open for writing in one window only."""

import json
import shutil
import zipfile

import numpy as np
import pytest

from tests.shapes import c_bracket, cube
from tests.waiting import LONG_MS
from viewer.document.state import Part, State
from viewer.files.job_file import read_job_camera, write_job
from viewer.files.job_lock import lock_path
from viewer.files.mesh_files import read_part
from viewer.files.recovery import recovery_folder
from viewer.geometry.pose import Pose
from viewer.window.recovering import REALLY


@pytest.fixture
def job(tmp_path):
    path = tmp_path / "bracket job.3mf"
    write_job(State.of_part(Part("bracket", c_bracket())), path, {"zoom": 1.0})
    return path


def open_job(opened, path) -> None:
    opened.window.safety._clock.setInterval(50)
    opened.window.open_path(path)
    opened.qtbot.waitUntil(lambda: opened.state.part is not None, timeout=LONG_MS)
    opened.qtbot.waitUntil(lambda: not opened.window.busy.busy, timeout=LONG_MS)


def keeps(opened) -> bool:
    return opened.window.safety._kept is opened.state


def leave_suddenly(opened) -> None:
    """Leave what the process leaves that is killed now: the folder, held by nobody."""
    (folder,) = recovery_folder().iterdir()
    shutil.copytree(folder, recovery_folder() / "left behind")


def test_work_is_kept_aside_offered_and_opened_again(opened, open_window, job):
    open_job(opened, job)
    opened.press_keys("X")
    opened.press_keys("P")
    opened.qtbot.waitUntil(lambda: keeps(opened), timeout=LONG_MS)
    then = opened.state
    leave_suddenly(opened)
    opened.press_keys("Ctrl+Z")
    opened.press_keys("Ctrl+Z")  # as it was saved: nothing to keep
    opened.qtbot.waitUntil(lambda: opened.window.safety._kept is None, timeout=LONG_MS)
    assert [path.name for path in recovery_folder().iterdir()] == ["left behind"]
    assert opened.window.close()
    assert not lock_path(job).exists()

    again = open_window()
    bar = again.window.recovering.bar
    assert not bar.isVisible()
    again.window.safety._clock.setInterval(50)
    again.window.safety.look_for_lost()  # as the program does at its start
    again.qtbot.waitUntil(bar.isVisible, timeout=LONG_MS)
    assert "Unsaved work on “bracket”" in bar.sentence.text()
    assert str(job) in bar.sentence.text()
    again.press(bar.wait)
    assert not bar.isVisible()
    again.press_keys("Ctrl+Alt+R")
    again.qtbot.waitUntil(bar.isVisible, timeout=LONG_MS)
    again.press(bar.open)
    again.qtbot.waitUntil(lambda: again.state.part is not None, timeout=LONG_MS)
    now = again.state
    assert np.array_equal(now.part.mesh.vertices_mm, then.part.mesh.vertices_mm)
    assert (now.pose, now.pinned_pose) == (then.pose, then.pinned_pose)
    assert now.pose != Pose()
    assert again.document.modified
    assert again.document.job_path == job
    assert not bar.isVisible()
    again.qtbot.waitUntil(lambda: keeps(again), timeout=LONG_MS)
    assert not (recovery_folder() / "left behind").exists()  # but it is kept by this window now
    again.press_keys("Ctrl+S")
    again.qtbot.waitUntil(lambda: not again.document.modified, timeout=LONG_MS)
    assert read_part(job).pose == then.pose
    again.qtbot.waitUntil(lambda: again.window.safety._kept is None, timeout=LONG_MS)
    assert list(recovery_folder().iterdir()) == []


def test_unwanted_work_is_thrown_away_on_the_second_press_only(opened, job):
    open_job(opened, job)
    opened.press_keys("X")
    opened.qtbot.waitUntil(lambda: keeps(opened), timeout=LONG_MS)
    leave_suddenly(opened)
    bar = opened.window.recovering.bar
    opened.press_keys("Ctrl+Alt+R")
    opened.qtbot.waitUntil(bar.isVisible, timeout=LONG_MS)
    opened.press(bar.throw)
    assert bar.throw.text() == REALLY
    assert (recovery_folder() / "left behind").exists()
    opened.press(bar.throw)
    assert not bar.isVisible()
    assert not (recovery_folder() / "left behind").exists()
    opened.press_keys("Ctrl+Alt+R")
    opened.qtbot.waitUntil(lambda: opened.window.notice.sentence != "", timeout=LONG_MS)
    assert "no unsaved work" in opened.window.notice.sentence


def test_a_place_that_takes_nothing_is_said_once(opened, monkeypatch, tmp_path):
    (recovery_folder().parent).write_text("a file in its place")
    opened.window.safety._clock.setInterval(20)
    opened.document.open(State.of_part(Part("box", cube())))
    opened.press_keys("X")
    notice = opened.window.notice
    opened.qtbot.waitUntil(lambda: notice.sentence != "", timeout=LONG_MS)
    assert "Unsaved work cannot be kept aside" in notice.sentence
    notice.hide()
    opened.qtbot.wait(100)
    assert notice.sentence == ""
    recovery_folder().parent.unlink()
    opened.qtbot.waitUntil(lambda: keeps(opened), timeout=LONG_MS)  # as soon as it goes again


def test_a_second_window_only_reads_and_says_so(opened, open_window, job, tmp_path):
    open_job(opened, job)
    assert lock_path(job).exists()
    assert opened.window.windowTitle() == "bracket job.3mf[*] – Showside"
    second = open_window()
    open_job(second, job)
    assert "bracket job.3mf is open in another window" in second.window.notice.sentence
    assert second.window.windowTitle() == "bracket job.3mf (can only be read)[*] – Showside"
    second.press_keys("X")
    saved = job.read_bytes()
    second.answers.path = job
    second.press_keys("Ctrl+S")  # asks for a name, and does not take that of the open job
    assert second.answers.asked == ["save"]
    assert "open in another window" in second.window.notice.sentence
    assert second.document.modified
    second.answers.path = other = tmp_path / "other.3mf"
    second.press_keys("Ctrl+S")
    second.qtbot.waitUntil(lambda: not second.document.modified, timeout=LONG_MS)
    assert job.read_bytes() == saved
    assert second.window.windowTitle() == "other.3mf[*] – Showside"
    assert lock_path(other).exists()
    opened.window.close()
    assert not lock_path(job).exists()
    second.answers.path = job  # it is free now
    second.press_keys("Ctrl+Shift+S")
    second.qtbot.waitUntil(lambda: second.document.job_path == job, timeout=LONG_MS)
    assert not lock_path(other).exists()
    assert read_part(job).pose == second.state.pose


def test_a_lock_that_another_computer_took_meanwhile_ends_the_writing(opened, job):
    open_job(opened, job)
    lock_path(job).unlink()
    lock_path(job).write_text('{"host": "elsewhere", "mark": "other"}')
    opened.window.safety._renew()
    opened.qtbot.waitUntil(lambda: opened.window.safety.read_only != "", timeout=LONG_MS)
    assert "can only be read" in opened.window.windowTitle()
    assert lock_path(job).exists()  # theirs


def test_a_job_of_a_newer_version_says_so_and_is_only_read(opened, job, tmp_path):
    newer = tmp_path / "newer.3mf"
    with zipfile.ZipFile(job) as old, zipfile.ZipFile(newer, "w") as new:
        for name in old.namelist():
            content = old.read(name)
            if name.endswith("showside-job.json"):
                content = json.dumps(json.loads(content) | {"version": 2}).encode()
            new.writestr(name, content)
    saved = newer.read_bytes()
    open_job(opened, newer)
    assert "newer.3mf was saved by a newer version" in opened.window.notice.sentence
    assert opened.window.windowTitle() == "newer (can only be read)[*] – Showside"
    opened.press_keys("X")
    opened.answers.path = newer
    opened.press_keys("Ctrl+S")
    assert "newer version" in opened.window.notice.sentence
    assert newer.read_bytes() == saved
    opened.answers.path = tmp_path / "mine.3mf"
    opened.press_keys("Ctrl+S")
    opened.qtbot.waitUntil(lambda: not opened.document.modified, timeout=LONG_MS)
    assert read_job_camera(tmp_path / "mine.3mf") is not None
    assert "can only be read" not in opened.window.windowTitle()
