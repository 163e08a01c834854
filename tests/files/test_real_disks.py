"""Saving where it really goes wrong: a full disk, a folder only to be read, a disk that is pulled.

Each is caused, not imitated: a small disk in memory (needs the right to mount), a process of
another user (needs root) or one's own rights, a folder that vanishes while the file is written.
"""

import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

import numpy as np
import pytest

from tests.shapes import torus
from viewer.document.state import Part, State
from viewer.errors import CannotWrite
from viewer.files.job_file import write_job
from viewer.files.job_lock import JobLock, take_lock
from viewer.files.mesh_files import read_part
from viewer.files.recovery import Aside
from viewer.progress import Progress

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture
def small_disk(tmp_path):
    """A disk of 256 KB, which this process alone can see where the system lets it."""
    place = tmp_path / "disk"
    place.mkdir()
    mount = shutil.which("mount")
    if mount is None or sys.platform != "linux":
        pytest.skip("a disk in memory is made with Linux's mount")
    asked = [mount, "-t", "tmpfs", "-o", "size=256k", "tmpfs", str(place)]
    if subprocess.run(asked, capture_output=True).returncode != 0:
        pytest.skip("mounting a disk needs rights that are not given here")
    yield place
    subprocess.run(["umount", "-l", str(place)], check=True)


def small_job(face_class: int = 1) -> State:
    mesh = torus(20.0, 5.0, 12, 16)
    return State.of_part(Part("ring", mesh), np.full(mesh.face_count, face_class, np.uint8))


def fill(disk: Path, leave: int) -> None:
    free = os.statvfs(disk)
    room = free.f_bavail * free.f_frsize - leave
    (disk / "filling").write_bytes(b"\0" * room)


def test_a_disk_that_is_full_keeps_the_job_that_was_there(small_disk):
    path = small_disk / "job.3mf"
    write_job(small_job(1), path)
    saved = path.read_bytes()
    fill(small_disk, leave=len(saved) // 2)
    before = sorted(small_disk.iterdir())
    with pytest.raises(CannotWrite, match=r"job\.3mf was not saved: the disk is full\. Free some"):
        write_job(small_job(2), path)
    assert path.read_bytes() == saved
    assert sorted(small_disk.iterdir()) == before  # nothing half is left to fill it further
    with pytest.raises(CannotWrite, match="the disk is full"):
        Aside(small_disk / "recovery").keep(small_job())
    (small_disk / "filling").unlink()
    write_job(small_job(2), path)
    assert (read_part(path).face_classes == 2).all()


def test_a_full_disk_can_still_be_locked(small_disk):
    path = small_disk / "job.3mf"
    path.write_bytes(b"a job")
    fill(small_disk, leave=0)
    lock = take_lock(path)
    assert isinstance(lock, JobLock)
    assert not isinstance(take_lock(path), JobLock)
    assert lock.renew()
    lock.release()


def test_a_disk_only_to_be_read(small_disk):
    path = small_disk / "job.3mf"
    write_job(small_job(), path)
    subprocess.run(["mount", "-o", "remount,ro", str(small_disk)], check=True)
    with pytest.raises(CannotWrite, match="the disk can only be read"):
        write_job(small_job(2), path)
    assert isinstance(take_lock(path), JobLock)  # where nobody can write there is no quarrel
    assert (read_part(path).face_classes == 1).all()


def test_a_disk_that_is_pulled_while_it_is_written(small_disk, tmp_path):
    path = small_disk / "job.3mf"
    write_job(small_job(1), path)
    lock = take_lock(path)

    def pull(fraction: float, doing: str) -> None:
        subprocess.run(["umount", "-l", str(small_disk)], check=False, capture_output=True)

    with pytest.raises(CannotWrite, match=r"the disk is gone\. Plug it in again"):
        write_job(small_job(2), path, progress=Progress(pull))
    assert list(small_disk.iterdir()) == []
    with pytest.raises(CannotWrite, match="not saved"):
        write_job(small_job(2), small_disk / "folder on the disk" / "job.3mf")
    lock.release()
    subprocess.run(["mount", "-t", "tmpfs", "tmpfs", str(small_disk)], check=True)  # for umount


@pytest.mark.skipif(os.name == "nt", reason="an open folder cannot be moved on Windows")
def test_a_folder_that_vanishes_while_the_job_is_written(tmp_path):
    folder = tmp_path / "stick"
    folder.mkdir()
    path = folder / "job.3mf"
    write_job(small_job(1), path)
    moved = tmp_path / "elsewhere"

    def vanish(fraction: float, doing: str) -> None:
        if folder.exists():
            folder.rename(moved)

    with pytest.raises(CannotWrite, match="the folder does not exist"):
        write_job(small_job(2), path, progress=Progress(vanish))
    assert (read_part(moved / "job.3mf").face_classes == 1).all()


AS_NOBODY = """
import os, sys
from pathlib import Path
from tests.files.test_real_disks import small_job
from viewer.errors import CannotWrite
from viewer.files.job_file import write_job
from viewer.files.job_lock import JobLock, take_lock
from viewer.files.mesh_files import read_part
path = Path(sys.argv[1])
write_job(small_job(1), path)  # as long as the interpreter can load whatever that takes
assert (read_part(path).face_classes == 1).all()
path.parent.chmod(0o555)
if os.geteuid() == 0:
    os.setgid(65534), os.setuid(65534)
lock = take_lock(path)
assert isinstance(lock, JobLock) and lock.handle is None
try:
    write_job(small_job(2), path)
except CannotWrite as problem:
    print(problem)
"""


@pytest.mark.skipif(os.name == "nt", reason="rights as Unix has them")
def test_a_folder_that_may_only_be_read():
    with tempfile.TemporaryDirectory() as above:  # pytest's own folders are closed to other users
        Path(above).chmod(0o755)
        folder = Path(above) / "theirs"
        folder.mkdir()
        path = folder / "job.3mf"
        asked = [sys.executable, "-c", AS_NOBODY, str(path)]
        answer = subprocess.run(asked, cwd=ROOT, capture_output=True, text=True)
        folder.chmod(0o755)
        sentence = "job.3mf was not saved: you may not write there. Choose another folder."
        assert answer.stdout == sentence + "\n", answer.stderr
        assert (read_part(path).face_classes == 1).all()
        assert list(folder.iterdir()) == [path]
