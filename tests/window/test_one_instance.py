"""A second start hands its file to the first; what a crashed one left behind blocks nobody."""

import json
import os
import shutil
import subprocess
import sys
import tempfile
import threading
from pathlib import Path

import pytest
from PySide6.QtCore import QLockFile
from PySide6.QtNetwork import QLocalServer, QLocalSocket

from tests.waiting import LONG_MS
from viewer.window.one_instance import OneInstance, read_wish, short_private_folder

ROOT = Path(__file__).resolve().parents[2]
DEAD = """
import os, sys
from pathlib import Path
from viewer.window.one_instance import OneInstance
claim = OneInstance(Path(sys.argv[1]))
claim.listen(print)
print(claim.first, flush=True)
os._exit(9)  # as after kill -9: neither the lock nor the socket is taken away
"""


@pytest.fixture
def folder(tmp_path):
    return tmp_path / "s"


def test_a_second_start_hands_its_file_over_and_ends(folder, qtbot, tmp_path):
    """The real entry of the program, in a process of its own, without ever opening a window."""
    from platformdirs import user_state_path

    environment = {**os.environ, "XDG_STATE_HOME": str(folder), "PYTHONPATH": str(ROOT)}
    if sys.platform != "linux":
        pytest.skip("the folder is moved by an XDG variable")
    asked = []
    first = OneInstance(folder / "showside")
    assert first.first
    first.listen(lambda *wish: asked.append(wish))
    part = tmp_path / "Kelle, groß.stl"
    part.write_bytes(b"")
    start = [sys.executable, "-m", "viewer", part.name]
    with subprocess.Popen(start, env=environment, cwd=tmp_path) as second:
        qtbot.waitUntil(lambda: second.poll() is not None, timeout=LONG_MS)
    assert second.returncode == 0
    assert asked == [(part.resolve(), False)]
    assert user_state_path("showside", appauthor=False) != folder
    first.close()


def test_what_a_crashed_one_left_is_taken_over(folder, qtbot):
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    ran = subprocess.run(
        [sys.executable, "-c", DEAD, str(folder)],
        env=environment, capture_output=True, text=True, timeout=120,
    )  # fmt: skip
    assert (ran.stdout.strip(), ran.returncode) == ("True", 9), ran.stderr
    assert list(folder.glob("*.lock"))
    next_one = OneInstance(folder)
    assert next_one.first
    asked = []
    next_one.listen(lambda *wish: asked.append(wish))
    socket = QLocalSocket()
    socket.connectToServer(next_one._address())
    assert socket.waitForConnected(LONG_MS)
    socket.write(json.dumps({"open": None, "demo": True}).encode() + b"\n")
    qtbot.waitUntil(lambda: asked == [(None, True)], timeout=LONG_MS)
    socket.abort()
    next_one.close()


def test_a_later_start_whose_first_does_not_answer_goes_on_alone(folder, monkeypatch):
    monkeypatch.setattr("viewer.window.one_instance.FIRST_STARTS_S", 0.1)
    first, second = OneInstance(folder), OneInstance(folder)
    assert (first.first, second.first) == (True, False)
    assert not second.hand_over(Path("part.stl"))
    assert not first.hand_over(Path("part.stl"))  # there is nobody to hand anything to
    second.close()
    assert not QLockFile(str(next(folder.glob("*.lock")))).tryLock(0)  # it was not the first's
    first.close()
    third = OneInstance(folder)
    assert third.first
    third.close()


def test_where_nothing_can_be_written_every_start_is_the_first(tmp_path):
    blocked = tmp_path / "file"
    blocked.write_bytes(b"")
    one, other = OneInstance(blocked / "s"), OneInstance(blocked / "s")
    assert one.first
    assert other.first
    one.listen(lambda *_: None)
    assert one._server is None


def test_nobody_else_can_reach_the_socket(folder):
    first = OneInstance(folder)
    first.listen(lambda *_: None)
    assert isinstance(first._server, QLocalServer)
    if sys.platform == "linux":
        assert Path(first._server.fullServerName()).stat().st_mode & 0o077 == 0
    first.close()


def test_a_long_path_gets_a_short_private_folder_that_goes_with_it(folder, qtbot):
    deep = folder / ("n" * 60) / ("m" * 60)
    first, second = OneInstance(deep), OneInstance(deep)
    asked = []
    first.listen(lambda *wish: asked.append(wish))
    if sys.platform != "win32":
        place = Path(first._server.fullServerName()).parent
        assert not place.is_relative_to(folder)
        assert place.stat().st_mode & 0o777 == 0o700
    answers = []
    other = threading.Thread(target=lambda: answers.append(second.hand_over(None, demo=True)))
    other.start()
    qtbot.waitUntil(lambda: not other.is_alive(), timeout=LONG_MS)
    assert answers == [True]
    assert asked == [(None, True)]
    first.close()
    if sys.platform != "win32":
        assert not place.exists()


@pytest.mark.skipif(os.name != "posix", reason="Windows names its sockets otherwise")
def test_a_short_folder_that_others_can_reach_is_not_taken(tmp_path, monkeypatch):
    shared = Path(tempfile.mkdtemp(dir="/tmp"))  # as short as it has to be
    monkeypatch.setenv("XDG_RUNTIME_DIR", str(shared))
    planted = shared / f"showside-{os.getuid()}-abc"
    try:
        planted.mkdir()
        planted.chmod(0o777)
        taken = short_private_folder("abc")
        assert taken != planted
        planted.rmdir()
        planted.symlink_to(tmp_path)
        assert short_private_folder("abc") == taken
        planted.unlink()
        assert short_private_folder("abc") == planted
    finally:
        taken.rmdir()
        shutil.rmtree(shared)


@pytest.mark.parametrize(
    "line",
    [
        b"", b"nonsense", b"\xff\xfe", b"[]", b"{}", b'{"open": 1, "demo": false}',
        b'{"open": "a\\u0000b", "demo": false}', b'{"open": "a"}', b'{"open": null, "demo": 1}',
    ],
)  # fmt: skip
def test_what_is_not_a_message_of_ours_is_refused(line):
    assert read_wish(line) is None
