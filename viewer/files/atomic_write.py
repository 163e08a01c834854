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

_LOOK_S = 0.01  # between two looks at the progress token

_REASONS = {
    errno.ENOSPC: "the disk is full. Free some space or choose another disk",
    errno.EDQUOT: "your share of the disk is used up. Free some space or choose another disk",
    errno.EFBIG: "the file is too large for this disk. Choose another disk",
    errno.EACCES: "you may not write there. Choose another folder",
    errno.EPERM: "you may not write there. Choose another folder",
    errno.EROFS: "the disk can only be read. Choose another folder",
    errno.ENOENT: "the folder does not exist. Choose another folder",
    errno.ENOTDIR: "the folder does not exist. Choose another folder",
    errno.EISDIR: "that is a folder. Choose a file name",
    errno.ENAMETOOLONG: "the name is too long. Choose a shorter one",
}


def cannot_write(path: Path, error: OSError) -> CannotWrite:
    """The sentence for a system error met while `path` was written."""
    reason = _REASONS.get(error.errno or 0, f"{error.strerror or error}. Choose another folder")
    return CannotWrite(f"{path.name} was not saved: {reason}.")


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
        raise CannotWrite(f"{path.name} was not saved: that is a folder. Choose a file name.")
    temporary = target.with_name(f".{target.name[:100]}.{secrets.token_hex(6)}.part")
    try:
        # Created here, so that it has the user's usual permissions and nobody else's file.
        os.close(os.open(temporary, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o666))
        if target.exists():
            with contextlib.suppress(OSError):
                os.chmod(temporary, target.stat().st_mode & 0o777)
        yield temporary
        _flush_to_disk(temporary, progress)
        os.replace(temporary, target)
        _flush_folder(target.parent)
    except OSError as error:
        raise cannot_write(path, error) from error
    finally:
        with contextlib.suppress(OSError):
            temporary.unlink()


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
