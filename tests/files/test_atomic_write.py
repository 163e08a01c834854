"""Either the whole new file or the old one: full disks, read-only folders, errors half way."""

import errno
import os
import stat

import pytest

from viewer.errors import CannotWrite
from viewer.files import atomic_write
from viewer.files.atomic_write import replacing

FULL = OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))


def fail_with(error):
    def fail(*_args, **_more):
        raise error

    return fail


def test_the_new_file_takes_the_place_of_the_old(tmp_path):
    path = tmp_path / "a.bin"
    for content in (b"first", b"second, longer"):
        with replacing(path) as temporary:
            assert temporary.parent == tmp_path
            temporary.write_bytes(content)
        assert path.read_bytes() == content
    assert list(tmp_path.iterdir()) == [path]


@pytest.mark.parametrize("error", [FULL, ValueError("bug"), KeyboardInterrupt()])
def test_an_error_half_way_leaves_the_old_file(tmp_path, error):
    path = tmp_path / "a.bin"
    path.write_bytes(b"old")
    expected = CannotWrite if isinstance(error, OSError) else type(error)

    def write():
        with replacing(path) as temporary:
            temporary.write_bytes(b"half")
            raise error

    with pytest.raises(expected):
        write()
    assert path.read_bytes() == b"old"
    assert list(tmp_path.iterdir()) == [path]


@pytest.mark.parametrize("step", ["fsync", "replace"])
def test_a_disk_that_fills_up_at_the_last_step_is_told(tmp_path, monkeypatch, step):
    path = tmp_path / "a.bin"
    path.write_bytes(b"old")
    monkeypatch.setattr(atomic_write.os, step, fail_with(FULL))
    with pytest.raises(CannotWrite, match=r"a\.bin was not saved: the disk is full"):  # noqa: SIM117
        with replacing(path) as temporary:
            temporary.write_bytes(b"new")
    monkeypatch.undo()
    assert path.read_bytes() == b"old"
    assert list(tmp_path.iterdir()) == [path]


def test_the_content_is_on_the_disk_before_the_name_changes(tmp_path, monkeypatch):
    order = []
    for name in ("fsync", "replace"):
        true = getattr(os, name)
        monkeypatch.setattr(
            atomic_write.os,
            name,
            lambda *a, name=name, true=true: (order.append(name), true(*a))[1],
        )
    with replacing(tmp_path / "a.bin") as temporary:
        temporary.write_bytes(b"new")
    assert order[:2] == ["fsync", "replace"]


def save(path):
    with replacing(path) as temporary:
        temporary.write_bytes(b"x")


def test_a_folder_that_is_not_there(tmp_path):
    with pytest.raises(CannotWrite, match="the folder does not exist"):
        save(tmp_path / "none" / "a.bin")


def test_a_folder_in_the_place_of_the_file(tmp_path):
    with pytest.raises(CannotWrite, match="that is a folder"):
        save(tmp_path)


@pytest.mark.parametrize(
    ("number", "words"),
    [
        (errno.EACCES, "you may not write there"),
        (errno.EROFS, "the disk can only be read"),
        (errno.ENAMETOOLONG, "the name is too long"),
        (errno.EIO, "the disk does not answer"),
        (errno.ENOTCONN, os.strerror(errno.ENOTCONN)),
    ],
)
def test_a_folder_that_takes_no_file(tmp_path, monkeypatch, number, words):
    monkeypatch.setattr(atomic_write.os, "open", fail_with(OSError(number, os.strerror(number))))
    with pytest.raises(CannotWrite, match=words):
        save(tmp_path / "a.bin")


@pytest.mark.skipif(os.name == "nt" or os.geteuid() == 0, reason="root may write everywhere")
def test_a_read_only_folder(tmp_path):
    tmp_path.chmod(0o500)
    with pytest.raises(CannotWrite, match="you may not write there"):
        save(tmp_path / "a.bin")
    tmp_path.chmod(0o700)


@pytest.mark.skipif(os.name == "nt", reason="rights and links as Unix has them")
def test_rights_and_links_stay_as_they_were(tmp_path):
    target, link = tmp_path / "target.bin", tmp_path / "link.bin"
    target.write_bytes(b"old")
    target.chmod(0o640)
    link.symlink_to(target)
    save(link)
    assert link.is_symlink()
    assert target.read_bytes() == b"x"
    assert stat.S_IMODE(target.stat().st_mode) == 0o640
