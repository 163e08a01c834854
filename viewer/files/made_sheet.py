"""A client sheet with everything that goes into its file, whichever kind of file that is."""

import io
from dataclasses import dataclass

import numpy as np
from PIL import Image

from viewer.document.client_sheet import ClientSheet
from viewer.files.turnable_part import TurnablePart

_QUALITY = 86  # of JPEG, 0 to 100


@dataclass(frozen=True, eq=False)
class MadeSheet:
    """pictures : JPEG by name; legend : (label, PNG); logo_png : b"" for none
    class_colours, touch_colours : (6, 3) sRGB 0 to 1 by kind of face in `turnable`
    towards_eye : (3,) from where the part is seen first
    """

    sheet: ClientSheet
    pictures: dict[str, bytes]
    legend: tuple[tuple[str, bytes], ...]
    logo_png: bytes
    turnable: TurnablePart
    class_colours: np.ndarray
    touch_colours: np.ndarray
    towards_eye: np.ndarray


def jpeg_bytes(image: np.ndarray) -> bytes:
    """(height, width, 3) uint8, top row first, as a JPEG without chroma subsampling."""
    file = io.BytesIO()
    Image.fromarray(image).save(file, "JPEG", quality=_QUALITY, subsampling=0, optimize=True)
    return file.getvalue()
