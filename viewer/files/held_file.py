"""A file that the system holds for one process: however the process ends, the hold ends with it."""

import contextlib
import errno
import os
import sys
from enum import Enum
from pathlib import Path

_BUSY = (errno.EAGAIN, errno.EACCES, errno.EDEADLK)
_FAR = 1 << 30  # on Windows the byte that is held, beyond all content, so that all can read that


class Hold(Enum):
    """What came of an attempt to hold a file."""

    MINE = "mine"
    ANOTHERS = "another's"
    UNKNOWN = "unknown"  # this disk knows no holds


def hold_opened(handle: int) -> Hold:
    """Try to hold an open file for this process, without waiting; closing it lets go."""
    try:
        if sys.platform == "win32":
            import msvcrt

            os.lseek(handle, _FAR, os.SEEK_SET)
            msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
        else:
            import fcntl

            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError as error:
        return Hold.ANOTHERS if error.errno in _BUSY else Hold.UNKNOWN
    return Hold.MINE


def is_there(handle: int, path: Path) -> bool:
    """Whether an open file is still the one at that path, not one removed or replaced meanwhile."""
    try:
        return os.path.samestat(os.fstat(handle), path.stat())
    except OSError:
        return False


def let_go(handle: int, path: Path) -> None:
    """Remove a file that is held, and let go of it; a disk that is gone needs neither."""
    remove_first = sys.platform != "win32"  # which removes no open file
    with contextlib.suppress(OSError):
        if remove_first and is_there(handle, path):
            path.unlink()
    with contextlib.suppress(OSError):
        os.close(handle)
    if not remove_first:
        with contextlib.suppress(OSError):
            path.unlink()
