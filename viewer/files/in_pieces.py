"""Write an array to a file in pieces, asking in between whether to go on."""

from typing import BinaryIO

import numpy as np

from viewer.progress import Progress

_BYTES_A_GO = 4_000_000


def write_in_pieces(stream: BinaryIO, array: np.ndarray, progress: Progress) -> None:
    """Write the memory of `array`; raises Cancelled."""
    data = memoryview(np.ascontiguousarray(array)).cast("B")
    for start in range(0, len(data), _BYTES_A_GO):
        stream.write(data[start : start + _BYTES_A_GO])
        progress.check()
