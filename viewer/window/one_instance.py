"""One running Showside for each user and screen: a second start hands its file to the first.

The first holds a lock for as long as it lives and listens on a local socket that only its user can
reach. The lock tells who is first even when two start at once; it counts for nothing once its
process is gone, so what a crashed one left behind blocks nobody. The socket lies beside the lock,
or in a private folder of a short name where that path is longer than a socket's address may be.
"""

import contextlib
import ctypes
import hashlib
import json
import os
import stat
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

import platformdirs
from PySide6.QtCore import QLockFile, QObject
from PySide6.QtNetwork import QLocalServer, QLocalSocket

ANSWER = b"taken\n"
MOST_BYTES = 1 << 16  # of a message; more is not ours
WAIT_MS = 1_000  # for one step of the conversation
FIRST_STARTS_S = 3.0  # how long the first may take from its lock to its socket
SHORT = "showside-"  # how the private folders begin
LONGEST_PATH = 100  # bytes; a local socket's address has room for 107 on Linux, 103 on macOS

# What is asked of the first: the file to open (None: just show yourself), and whether the demo.
Asked = Callable[[Path | None, bool], object]


class OneInstance(QObject):
    """The claim to be the one running program; `close` gives it up."""

    def __init__(self, folder: Path | None = None) -> None:
        """`folder`: where lock and socket lie, by default the user's folder for such things."""
        super().__init__()
        self._folder = folder or platformdirs.user_state_path("showside", appauthor=False)
        self._name = f"running-{_screen()}"
        self._server: QLocalServer | None = None
        self._asked: Asked | None = None
        self._lock: QLockFile | None = None
        try:
            self._folder.mkdir(parents=True, exist_ok=True)
            lock = QLockFile(str(self._folder / f"{self._name}.lock"))
        except OSError:
            return  # nowhere to claim anything: every start is one of its own
        lock.setStaleLockTime(0)  # it may run for days; only the end of its process frees it
        self._lock = lock
        self.first = lock.tryLock(0)

    first = True

    def hand_over(self, path: Path | None, demo: bool = False) -> bool:
        """Ask the first one to open `path`, or the demo, and to show itself; whether it took it."""
        if self.first or self._address() is None:
            return False
        _let_it_come_forward()
        asked = {"open": None if path is None else str(path.resolve()), "demo": demo}
        message = json.dumps(asked).encode() + b"\n"
        until_s = time.monotonic() + FIRST_STARTS_S
        while True:
            socket = QLocalSocket()
            socket.connectToServer(self._address())
            if socket.waitForConnected(WAIT_MS):
                break
            if time.monotonic() > until_s:
                return False
            time.sleep(0.05)
        socket.write(message)
        socket.flush()
        until_s = time.monotonic() + FIRST_STARTS_S
        while not socket.canReadLine() and time.monotonic() < until_s:
            if not socket.waitForReadyRead(WAIT_MS) and not socket.isValid():
                break
        return bytes(socket.readLine()) == ANSWER

    def listen(self, asked: Asked) -> None:
        """Call `asked(path, demo)` for each later start; without effect in a later one."""
        if not self.first or self._lock is None or self._address() is None:
            return
        self._asked = asked
        QLocalServer.removeServer(self._address())  # of one that crashed; ours is the lock
        server = QLocalServer(self)
        server.setSocketOptions(QLocalServer.SocketOption.UserAccessOption)
        server.newConnection.connect(self._welcome)
        if server.listen(self._address()):
            self._server = server

    def _address(self) -> str | None:
        """The socket's address: a path, on Windows a name; None where no path is short enough."""
        digest = hashlib.sha256(os.fsencode(self._folder)).hexdigest()[:16]
        if sys.platform == "win32":
            return f"showside-{self._name}-{digest}"
        path = self._folder / self._name
        if len(os.fsencode(path)) > LONGEST_PATH:
            short = short_private_folder(digest)
            path = None if short is None else short / self._name
        return None if path is None else str(path)

    def close(self) -> None:
        """Give up the claim."""
        self._asked = None
        if self._server is not None:
            own = Path(self._server.fullServerName()).parent
            self._server.close()
            self._server = None
            if own.name.startswith(SHORT):
                with contextlib.suppress(OSError):
                    own.rmdir()  # the socket was all it held
        if self._lock is not None and self.first:
            self._lock.unlock()

    def _welcome(self) -> None:
        while (socket := self._server.nextPendingConnection()) is not None:
            socket.readyRead.connect(self._read)
            socket.disconnected.connect(socket.deleteLater)
            self._take(socket)

    def _read(self) -> None:
        self._take(self.sender())

    def _take(self, socket: QLocalSocket) -> None:
        if not socket.canReadLine():
            if socket.bytesAvailable() > MOST_BYTES:
                socket.abort()
            return
        wish = read_wish(bytes(socket.readLine(MOST_BYTES)))
        if wish is None:
            socket.abort()
            return
        socket.write(ANSWER)
        socket.flush()
        if self._asked is not None:
            self._asked(*wish)


def short_private_folder(digest: str) -> Path | None:
    """A folder of a short name that is this user's alone; None where there is no such place."""
    for place in (os.environ.get("XDG_RUNTIME_DIR"), tempfile.gettempdir(), "/tmp"):
        if not place or not os.path.isabs(place):
            continue
        folder = Path(place) / f"{SHORT}{os.getuid()}-{digest}"
        if len(os.fsencode(folder)) > LONGEST_PATH - 30:
            continue
        try:
            folder.mkdir(mode=0o700, exist_ok=True)
            there = folder.lstat()
        except OSError:
            continue
        # Anybody may write to /tmp: a folder that another user put there is of no use.
        if (
            stat.S_ISDIR(there.st_mode)
            and there.st_uid == os.getuid()
            and not there.st_mode & 0o077
        ):
            return folder
    return None


def read_wish(line: bytes) -> tuple[Path | None, bool] | None:
    """What a later start asks for; None for anything that is not a message of ours."""
    try:
        wish = json.loads(line)
    except ValueError:
        return None
    if not isinstance(wish, dict):
        return None
    path, demo = wish.get("open"), wish.get("demo")
    if not isinstance(demo, bool) or not isinstance(path, str | None) or "\0" in (path or ""):
        return None
    return (None if path is None else Path(path)), demo


def _screen() -> str:
    """Sessions of one user on different screens are programs of their own."""
    shown = os.environ.get("DISPLAY", "") if sys.platform.startswith("linux") else ""
    return hashlib.sha256(shown.split(".")[0].encode()).hexdigest()[:8]


def _let_it_come_forward() -> None:
    """Windows lets a window come to the front only if the program in front allows it."""
    if sys.platform == "win32":
        ctypes.windll.user32.AllowSetForegroundWindow(-1)
