"""One lock for each job: a small hidden file beside it tells who has it open for writing.

The system holds that file for the process that wrote it. On the same computer this alone decides:
once that process is dead, however it died, its lock counts for nothing. A lock of another computer
(a shared drive) counts as long as it is renewed; after `ABANDONED_S` without that it is taken for
left behind. Its age is told by the clock of the disk, which both computers see.
"""

import contextlib
import os
import secrets
import socket
import time
from dataclasses import dataclass
from pathlib import Path

import msgspec

from viewer.files.atomic_write import clear_leftovers
from viewer.files.held_file import Hold, hold_opened, is_there, let_go
from viewer.words import say

RENEW_EVERY_S = 60.0
ABANDONED_S = 300.0
_MOST_BYTES = 4000
_ATTEMPTS = 5


class Holder(msgspec.Struct, frozen=True):
    """Who holds a job: computer, user, process, since when (seconds since 1970), and a mark."""

    host: str = ""
    user: str = ""
    process: int = 0
    since_s: float = 0.0
    mark: str = ""


@dataclass(frozen=True)
class JobLock:
    """The lock of one job; `handle` is None where none could be written there."""

    path: Path
    holder: Holder
    handle: int | None

    def renew(self) -> bool:
        """Tell other computers that it still counts; False if another one took it."""
        if self.handle is None:
            return True
        if not is_there(self.handle, self.path):
            return not self.path.exists()  # a disk that is gone is no other's
        with contextlib.suppress(OSError):
            os.utime(self.path)
        return read_holder(self.path).mark in ("", self.holder.mark)

    def release(self) -> None:
        """Give the job free."""
        if self.handle is not None:
            let_go(self.handle, self.path)


def lock_path(job_path: Path) -> Path:
    """Where the lock of a job lies."""
    real = Path(os.path.realpath(job_path))
    return real.with_name(f".{real.name[:200]}.lock")


def take_lock(job_path: Path) -> JobLock | Holder:
    """The lock of a job, or who holds it already. Never waits, never raises.

    What a save of a window that came to a sudden end left half written is cleared away.
    """
    path = lock_path(job_path)
    me = Holder(_host(), _user(), os.getpid(), time.time(), secrets.token_hex(8))
    for _ in range(_ATTEMPTS):
        try:
            handle = os.open(path, os.O_RDWR | os.O_CREAT, 0o666)
        except OSError:
            return _without_writing(path, me)
        holder, hold = read_holder(path), hold_opened(handle)
        if not is_there(handle, path):  # its holder let go and removed it just now
            os.close(handle)
            continue
        if hold is Hold.ANOTHERS or (_counts(holder, me, hold) and not _is_abandoned(path)):
            os.close(handle)
            return holder
        with contextlib.suppress(OSError):  # a full disk: the hold counts on this computer
            os.ftruncate(handle, 0)
            os.lseek(handle, 0, os.SEEK_SET)
            os.write(handle, msgspec.json.encode(me))
        clear_leftovers(job_path)
        return JobLock(path, me, handle)
    return read_holder(path)


def _counts(holder: Holder, me: Holder, hold: Hold) -> bool:
    """Whether a lock that the system does not hold here may be another computer's."""
    if not holder.mark:
        return False
    return hold is Hold.UNKNOWN or holder.host != me.host


def _without_writing(path: Path, me: Holder) -> JobLock | Holder:
    """Where no lock can be written there may be another user's that can at least be read."""
    try:
        handle = os.open(path, os.O_RDONLY)
    except OSError:
        return JobLock(path, me, None)
    hold = hold_opened(handle)
    os.close(handle)
    return read_holder(path) if hold is Hold.ANOTHERS else JobLock(path, me, None)


def _is_abandoned(path: Path) -> bool:
    """Whether a lock was not renewed for long, by the clock of the disk it lies on."""
    probe = path.with_name(f"{path.name}.{secrets.token_hex(6)}")
    try:
        renewed_s = path.stat().st_mtime
        os.close(os.open(probe, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600))
        now_s = probe.stat().st_mtime
        probe.unlink()
    except OSError:
        return False
    return now_s - renewed_s > ABANDONED_S


def read_holder(path: Path) -> Holder:
    """Who wrote a lock; an unknown holder where it is empty or damaged."""
    try:
        with path.open("rb") as stream:
            return msgspec.json.decode(stream.read(_MOST_BYTES), type=Holder)
    except (OSError, msgspec.MsgspecError, UnicodeDecodeError):
        return Holder()


def busy_sentence(job_path: Path, holder: Holder) -> str:
    """What to tell the user of a job that another window has."""
    name = job_path.name
    if holder.host and holder.host != _host():
        return say(
            "{name} is open on the computer {host} ({user}), so it can only be read here. Save it "
            "under another name to go on.",
            name=name,
            host=holder.host,
            user=holder.user or "?",
        )
    return say(
        "{name} is open in another window, so it can only be read here. Save it under another "
        "name to go on.",
        name=name,
    )


def _host() -> str:
    return socket.gethostname()


def _user() -> str:
    return os.environ.get("USER") or os.environ.get("USERNAME") or ""
