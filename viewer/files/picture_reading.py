"""Read a picture that somebody sent, such as a logo or a photo, in a child process with limits.

Decoders are native code and see whatever bytes there are. In a process of its own one that crashes,
hangs or swells is one sentence in the window. Nothing but pixels comes back: no words, no places.
"""

import io
from pathlib import Path

import numpy as np
from PIL import Image, ImageOps, UnidentifiedImageError

from viewer.errors import ShowsideError, UnreadableFile
from viewer.files.read_bytes import read_bytes
from viewer.own_process import run_in_own_process
from viewer.progress import Progress
from viewer.words import say

MOST_FILE_BYTES = 50_000_000
MOST_PIXELS = 50_000_000
TIME_LIMIT_S = 30.0
MEMORY_LIMIT_BYTES = 2_000_000_000
_KINDS = ("PNG", "JPEG", "WEBP", "GIF", "BMP")


def read_picture_safely(
    path: Path, most_px: tuple[int, int] | None = None, progress: Progress | None = None
) -> np.ndarray:
    """(height, width, 4) uint8: the picture upright, in red, green, blue and opacity.

    most_px : widest and highest it may be; a larger one is made smaller, its shape kept
    Raises UnreadableFile (no picture, too large, its decoder crashed or took too long),
    NothingToPrint (an empty file), Cancelled.
    """
    try:
        too_many = path.stat().st_size > MOST_FILE_BYTES
    except OSError:
        too_many = False  # what is wrong is told by reading it
    if too_many:
        raise UnreadableFile(_too_large(path.name))
    data = read_bytes(path, Progress())
    crashed = _no_picture(path.name)
    try:
        return run_in_own_process(
            decoded,
            path.name,
            data,
            most_px,
            progress=progress,
            crashed=crashed,
            limit_s=TIME_LIMIT_S,
            memory_bytes=MEMORY_LIMIT_BYTES,
        )
    except MemoryError as error:
        raise UnreadableFile(_too_large(path.name)) from error
    except ShowsideError as error:
        if str(error) == crashed:
            raise UnreadableFile(crashed) from error
        raise


def decoded(
    name: str, data: np.ndarray, most_px: tuple[int, int] | None, progress: Progress
) -> np.ndarray:
    """What the child does with the bytes ((size,) uint8) of the file of that name."""
    try:
        with Image.open(io.BytesIO(data.tobytes()), formats=_KINDS) as image:
            if image.width * image.height > MOST_PIXELS:
                raise UnreadableFile(_too_large(name))
            progress.check()
            image.load()
            upright = ImageOps.exif_transpose(image).convert("RGBA")
    except (
        OSError,
        UnidentifiedImageError,
        ValueError,
        SyntaxError,
        Image.DecompressionBombError,
    ) as error:
        raise UnreadableFile(_no_picture(name)) from error
    if most_px is not None:
        upright.thumbnail(most_px)
    return np.asarray(upright)


def _no_picture(name: str) -> str:
    return say("{name} cannot be read as a picture; choose a PNG or JPEG.", name=name)


def _too_large(name: str) -> str:
    return say("{name} is too large for a picture here; make it smaller.", name=name)
