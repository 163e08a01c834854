"""Write a file so that it is either there as a whole or not there at all.

Everything goes to a temporary file in the same folder, is flushed to the disk, and only then
takes the place of what was there. Whatever goes wrong before leaves the old file untouched.
"""

import contextlib
import errno
import os
import secrets
import threading
from collections.abc import Iterator
from pathlib import Path

from viewer.errors import CannotWrite
from viewer.progress import Progress
from viewer.words import later, say

_LOOK_S = 0.01  # between two looks at the progress token

_REASONS = {
    errno.ENOSPC: later("the disk is full. Free some space or choose another disk"),
    errno.EDQUOT: later(
        "your share of the disk is used up. Free some space or choose another disk"
    ),
    errno.EFBIG: later("the file is too large for this disk. Choose another disk"),
    errno.EACCES: later("you may not write there. Choose another folder"),
    errno.EPERM: later("you may not write there. Choose another folder"),
    errno.EROFS: later("the disk can only be read. Choose another folder"),
    errno.ENOENT: later("the folder does not exist. Choose another folder"),
    errno.ENOTDIR: later("the folder does not exist. Choose another folder"),
    errno.EISDIR: later("that is a folder. Choose a file name"),
    errno.EIO: later("the disk does not answer. Plug it in again or choose another folder"),
    errno.ENODEV: later("the disk is gone. Plug it in again or choose another folder"),
    errno.ENXIO: later("the disk is gone. Plug it in again or choose another folder"),
    errno.ESTALE: later("the disk is gone. Plug it in again or choose another folder"),
    errno.ENAMETOOLONG: later("the name is too long. Choose a shorter one"),
}


def cannot_write(path: Path, error: OSError) -> CannotWrite:
    """The sentence for a system error met while `path` was written."""
    reason = say(_REASONS.get(error.errno or 0, ""))
    reason = reason or say("{error}. Choose another folder", error=error.strerror or error)
    return CannotWrite(say("{name} was not saved: {reason}.", name=path.name, reason=reason))


def make_folder(path: Path) -> None:
    """Make a folder to write to, unless it is there. Raises CannotWrite."""
    try:
        path.mkdir(parents=True, exist_ok=True)
    except FileExistsError as error:
        raise CannotWrite(
            say("{name} is a file; name a folder to write to.", name=path.name)
        ) from error
    except OSError as error:
        raise cannot_write(path, error) from error


@contextlib.contextmanager
def replacing(path: Path, progress: Progress | None = None) -> Iterator[Path]:
    """A path to write to; when the block ends well, that file takes the place of `path`.

    Raises CannotWrite for every system error inside the block and at the end; any exception
    leaves `path` as it was and removes the temporary file. Raises Cancelled through `progress`
    while it waits for the disk.
    """
    path, progress = Path(path), progress or Progress()
    target = Path(os.path.realpath(path))  # a link stays a link, its file is replaced
    if target.is_dir():
        raise CannotWrite(
            say("{name} was not saved: that is a folder. Choose a file name.", name=path.name)
        )
    temporary = target.with_name(f".{target.name[:100]}.{secrets.token_hex(6)}.part")
    try:
        place = _identity(target.parent)
        # Created here, so that it has the user's usual permissions and nobody else's file.
        os.close(os.open(temporary, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o666))
        if target.exists():
            with contextlib.suppress(OSError):
                os.chmod(temporary, target.stat().st_mode & 0o777)
        yield temporary
        if _identity(target.parent) != place:  # a disk was pulled, its empty folder is left
            raise OSError(errno.ENODEV, os.strerror(errno.ENODEV))
        _flush_to_disk(temporary, progress)
        os.replace(temporary, target)
        _flush_folder(target.parent)
    except OSError as error:
        raise cannot_write(path, error) from error
    finally:
        with contextlib.suppress(OSError):
            temporary.unlink()


def clear_leftovers(path: Path) -> None:
    """Remove what writers of `path` left that came to a sudden end; only while nobody writes it."""
    target = Path(os.path.realpath(path))
    start = f".{target.name[:100]}."
    with contextlib.suppress(OSError):
        for other in target.parent.iterdir():
            if other.name.startswith(start) and other.name.endswith(".part"):
                other.unlink()


def _identity(folder: Path) -> tuple[int, int]:
    found = folder.stat()
    return found.st_dev, found.st_ino


def _flush_to_disk(path: Path, progress: Progress) -> None:
    """Wait until the disk has it all; after a cancel the disk goes on alone, for nobody."""
    handle, refusals = os.open(path, os.O_RDWR), []

    def flush() -> None:
        try:
            os.fsync(handle)
        except OSError as error:
            refusals.append(error)
        finally:
            os.close(handle)

    flushing = threading.Thread(target=flush, daemon=True)
    flushing.start()
    while flushing.is_alive():
        flushing.join(_LOOK_S)
        progress.check()
    if refusals:
        raise refusals[0]


def _flush_folder(folder: Path) -> None:
    """Make the new name itself durable, where the system knows such a thing."""
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
