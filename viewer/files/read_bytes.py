"""Read a whole file into memory, with progress, and turn the system's refusals into sentences."""

from pathlib import Path

import numpy as np

from viewer.errors import NothingToPrint, UnreadableFile
from viewer.progress import Progress
from viewer.words import say

_BLOCK = 16_000_000  # bytes between two looks at the progress token, a few ms of disk or cache


def read_bytes(path: Path, progress: Progress) -> np.ndarray:
    """(size,) uint8, read-only: the bytes of the file.

    Raises UnreadableFile where there is no such file or it may not be read, NothingToPrint where
    it is empty, Cancelled.
    """
    try:
        if path.is_dir():
            raise UnreadableFile(
                say("{name} is a folder. Choose a file inside it.", name=path.name)
            )
        with path.open("rb") as stream:
            size = path.stat().st_size
            data = np.empty(size, np.uint8)
            filled = 0
            while filled < size:
                got = stream.readinto(memoryview(data)[filled : filled + _BLOCK])
                if not got:
                    raise UnreadableFile(
                        say("{name} shrank while it was read. Try once more.", name=path.name)
                    )
                filled += got
                progress.report(filled / size, "Reading the file")
    except FileNotFoundError as error:
        raise UnreadableFile(
            say("There is no file {path}. Check the name and the folder.", path=path)
        ) from error
    except PermissionError as error:
        raise UnreadableFile(
            say(
                "{name} may not be read by you. Ask its owner for leave, or copy it first.",
                name=path.name,
            )
        ) from error
    except MemoryError as error:
        raise UnreadableFile(
            say("{name} does not fit into this computer's memory.", name=path.name)
        ) from error
    except OSError as error:
        raise UnreadableFile(
            say(
                "{name} cannot be read ({value}). Copy it to another disk and try again.",
                name=path.name,
                value=error.strerror or "no reason given",
            )
        ) from error
    if not size:
        raise NothingToPrint(say("{name} is an empty file. Ask for it again.", name=path.name))
    data.flags.writeable = False
    return data
