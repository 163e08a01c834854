"""One lock for each job: who lives keeps it, who is dead does not, here and elsewhere."""

import os
import subprocess
import sys
from pathlib import Path

import msgspec
import pytest

from viewer.files import job_lock
from viewer.files.held_file import Hold
from viewer.files.job_lock import (
    ABANDONED_S,
    Holder,
    JobLock,
    busy_sentence,
    lock_path,
    read_holder,
    take_lock,
)

HOLD = (
    "import sys; from pathlib import Path; from viewer.files.job_lock import take_lock\n"
    "lock = take_lock(Path(sys.argv[1])); print('held', flush=True); sys.stdin.read()"
)


@pytest.fixture
def job(tmp_path):
    path = tmp_path / "a job.3mf"
    path.write_bytes(b"a job")
    return path


def left_by(job: Path, seconds_ago: float, **holder) -> None:
    """A lock file as a process left it that no longer runs here."""
    path = lock_path(job)
    path.write_bytes(msgspec.json.encode(Holder(**{"mark": "m", **holder})))
    then_s = path.stat().st_mtime - seconds_ago
    os.utime(path, (then_s, then_s))


def test_the_second_is_told_who_has_it_and_gets_it_afterwards(job):
    first = take_lock(job)
    assert isinstance(first, JobLock)
    second = take_lock(job)
    assert second == first.holder
    assert second.process == os.getpid()
    assert "open in another window" in busy_sentence(job, second)
    first.release()
    assert not lock_path(job).exists()
    again = take_lock(job)
    assert isinstance(again, JobLock)
    again.release()
    assert list(job.parent.iterdir()) == [job]


def test_a_killed_process_holds_nothing(job):
    child = subprocess.Popen(
        [sys.executable, "-c", HOLD, str(job)],
        stdin=subprocess.PIPE, stdout=subprocess.PIPE, cwd=Path(__file__).parents[2],
    )  # fmt: skip
    with child:
        assert child.stdout.readline() == b"held\n"
        assert take_lock(job).process == child.pid
        child.kill()
    assert lock_path(job).exists()  # left behind, and counts for nothing
    lock = take_lock(job)
    assert isinstance(lock, JobLock)
    assert read_holder(lock.path) == lock.holder
    lock.release()


def test_another_computer_counts_as_long_as_it_renews(job):
    left_by(job, ABANDONED_S - 60.0, host="elsewhere", user="ida")
    holder = take_lock(job)
    assert isinstance(holder, Holder)
    assert busy_sentence(job, holder).startswith(
        "a job.3mf is open on the computer elsewhere (ida)"
    )
    left_by(job, ABANDONED_S + 60.0, host="elsewhere")
    lock = take_lock(job)
    assert isinstance(lock, JobLock)
    lock.release()


def test_where_the_disk_knows_no_holds_the_age_decides(job, monkeypatch):
    monkeypatch.setattr(job_lock, "hold_opened", lambda handle: Hold.UNKNOWN)
    first = take_lock(job)
    assert isinstance(first, JobLock)
    assert take_lock(job) == first.holder
    left_by(job, ABANDONED_S + 60.0, host=job_lock._host())
    second = take_lock(job)
    assert isinstance(second, JobLock)
    assert not first.renew()
    assert second.renew()
    second.release()
    first.release()


def test_renewing_makes_it_young_again(job):
    lock = take_lock(job)
    os.utime(lock.path, (1000.0, 1000.0))
    assert lock.renew()
    assert lock.path.stat().st_mtime > 1e9
    lock.release()


def test_a_damaged_lock_of_the_dead_is_taken_over(job):
    lock_path(job).write_bytes(b"\xff{ not json")
    lock = take_lock(job)
    assert isinstance(lock, JobLock)
    lock.release()


def test_a_disk_that_is_pulled_takes_nothing_along(job):
    lock = take_lock(job)
    job.parent.rename(job.parent.with_name("pulled"))
    assert lock.renew()
    lock.release()
    missing = take_lock(job)  # nothing to hold, nothing to fear
    assert isinstance(missing, JobLock)
    assert missing.handle is None
    missing.release()


def test_what_a_killed_save_left_is_cleared_away_by_the_next_holder(job, tmp_path):
    half = job.with_name(f".{job.name}.0123456789ab.part")
    others = tmp_path / ".b job.3mf.0123456789ab.part"
    for path in (half, others):
        path.write_bytes(b"half")
    lock = take_lock(job)
    assert not half.exists()
    assert others.exists()
    half.write_bytes(b"being written by the one that holds it")
    take_lock(job)
    assert half.exists()
    lock.release()


def test_a_link_and_its_file_are_one_job(job, tmp_path):
    link = tmp_path / "link.3mf"
    try:
        link.symlink_to(job)
    except OSError:
        pytest.skip("links need rights here")
    lock = take_lock(link)
    assert isinstance(take_lock(job), Holder)
    lock.release()
