"""Arrays and words in one file, written in pieces so that no other thread has to wait.

The file is what numpy calls npz, not packed, and holds plain numbers only: reading one never runs
code, and its checksums tell when it is damaged.
"""

import zipfile
from pathlib import Path

import numpy as np

from viewer.files.in_pieces import write_in_pieces
from viewer.files.package_check import BROKEN
from viewer.progress import Progress


def write_arrays(path: Path, arrays: dict[str, np.ndarray], progress: Progress) -> None:
    """Write named arrays to a file; raises OSError, Cancelled."""
    with zipfile.ZipFile(path, "w", zipfile.ZIP_STORED) as package:
        for name, array in arrays.items():
            array = np.ascontiguousarray(array)
            with package.open(f"{name}.npy", "w", force_zip64=True) as stream:
                np.lib.format.write_array_header_1_0(
                    stream, np.lib.format.header_data_from_array_1_0(array)
                )
                write_in_pieces(stream, array, progress)


def read_arrays(path: Path, *names: str) -> dict[str, np.ndarray] | None:
    """The arrays of a file, or those of these names; None where it is damaged or not there."""
    try:
        with path.open("rb") as stream, np.load(stream, allow_pickle=False) as found:
            return {name: found[name] for name in found.files if not names or name in names}
    except (*BROKEN, MemoryError):
        return None
