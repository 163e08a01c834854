"""Pictures and turntables as files: PNG, animated GIF and animated WebP, by Pillow."""

import io
from pathlib import Path

import numpy as np
from PIL import Image

from viewer.errors import CannotWrite
from viewer.files.atomic_write import replacing
from viewer.progress import Progress
from viewer.words import say

STILL_SUFFIX = ".png"
TURNTABLE_SUFFIXES = (".gif", ".webp")
_COLOURS = 256  # of a GIF; one palette for all frames, or still surfaces would flicker
_RARE = 96  # of these for colours of small patches, such as those of a legend
_SAMPLES = 6  # frames the palette is made from
_QUALITY = 88  # of WebP, 0 to 100


def still_bytes(image: np.ndarray) -> bytes:
    """(height, width, 3) uint8, top row first, as a PNG."""
    file = io.BytesIO()
    Image.fromarray(image).save(file, "PNG")
    return file.getvalue()


def turntable_bytes(
    frames: list[np.ndarray], suffix: str, frame_ms: int, progress: Progress | None = None
) -> bytes:
    """Frames (height, width, 3) uint8 as an animation that runs round and round.

    suffix : ".gif" (256 colours) or ".webp" (all colours, about half the size)
    Raises CannotWrite for any other suffix.
    """
    progress = progress or Progress()
    progress.report(0.0, "Packing the turntable")
    file = io.BytesIO()
    common = {"save_all": True, "duration": frame_ms, "loop": 0}
    if suffix == ".gif":
        first, *others = _with_one_palette(frames, progress)
        first.save(file, "GIF", append_images=others, optimize=False, disposal=1, **common)
    elif suffix == ".webp":
        first, *others = (Image.fromarray(frame) for frame in frames)
        first.save(file, "WEBP", append_images=others, quality=_QUALITY, method=2, **common)
    else:
        raise CannotWrite(
            say(
                "A turntable cannot be written as {suffix}; choose {known}.",
                suffix=suffix or say("a file without a suffix"),
                known=say(" or ").join(TURNTABLE_SUFFIXES),
            )
        )
    return file.getvalue()


def _with_one_palette(frames: list[np.ndarray], progress: Progress) -> list[Image.Image]:
    palette = _palette(np.concatenate(frames[:: max(len(frames) // _SAMPLES, 1)]))
    packed = []
    for number, frame in enumerate(frames):
        progress.report(number / len(frames), "Packing the turntable")
        image = Image.fromarray(frame)
        packed.append(image.quantize(palette=palette, dither=Image.Dither.NONE))
    return packed


def _palette(sample: np.ndarray) -> Image.Image:
    """Most colours by how often they occur; some by being there at all, or a legend loses its own.

    A median cut by frequency alone spends everything on the shades of ground and part, and paints
    the small patches of two classes alike.
    """
    common = Image.fromarray(sample[::2, ::2]).quantize(_COLOURS - _RARE, Image.Quantize.MEDIANCUT)
    bins = (sample >> 3).reshape(-1, 3).astype(np.int32) @ np.array([1 << 10, 1 << 5, 1])
    _, first, counts = np.unique(bins, return_index=True, return_counts=True)
    # What is there in a few pixels only is the soft edge of something else.
    seen = sample.reshape(-1, 3)[first[counts >= 16]]
    rare = Image.fromarray(seen[None]).quantize(_RARE, Image.Quantize.MEDIANCUT)
    colours = [*common.getpalette()[: 3 * (_COLOURS - _RARE)], *rare.getpalette()[: 3 * _RARE]]
    palette = Image.new("P", (1, 1))
    palette.putpalette(colours + [0] * (3 * _COLOURS - len(colours)))
    return palette


def write_picture(path: Path, data: bytes, progress: Progress | None = None) -> None:
    """Write the bytes of a picture file as a whole or not at all; raises CannotWrite, Cancelled."""
    with replacing(path, progress) as temporary:
        temporary.write_bytes(data)
