"""Read a whole file into memory, with progress, and turn the system's refusals into sentences."""

from pathlib import Path

import numpy as np

from viewer.errors import NothingToPrint, UnreadableFile
from viewer.progress import Progress

_BLOCK = 16_000_000  # bytes between two looks at the progress token, a few ms of disk or cache


def read_bytes(path: Path, progress: Progress) -> np.ndarray:
    """(size,) uint8, read-only: the bytes of the file.

    Raises UnreadableFile where there is no such file or it may not be read, NothingToPrint where
    it is empty, Cancelled.
    """
    try:
        if path.is_dir():
            raise UnreadableFile(f"{path.name} is a folder. Choose a file inside it.")
        with path.open("rb") as stream:
            size = path.stat().st_size
            data = np.empty(size, np.uint8)
            filled = 0
            while filled < size:
                got = stream.readinto(memoryview(data)[filled : filled + _BLOCK])
                if not got:
                    raise UnreadableFile(f"{path.name} shrank while it was read. Try once more.")
                filled += got
                progress.report(filled / size, "Reading the file")
    except FileNotFoundError as error:
        raise UnreadableFile(f"There is no file {path}. Check the name and the folder.") from error
    except PermissionError as error:
        raise UnreadableFile(
            f"{path.name} may not be read by you. Ask its owner for leave, or copy it first."
        ) from error
    except MemoryError as error:
        raise UnreadableFile(f"{path.name} does not fit into this computer's memory.") from error
    except OSError as error:
        raise UnreadableFile(
            f"{path.name} cannot be read ({error.strerror or 'no reason given'}). "
            "Copy it to another disk and try again."
        ) from error
    if not size:
        raise NothingToPrint(f"{path.name} is an empty file. Ask for it again.")
    data.flags.writeable = False
    return data
